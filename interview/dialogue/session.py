"""What does the interview do with a line? Listens, keeps it, works out what follows, and asks the next thing.

The session computes first and triggers the machine last. Every line is in the journal before the next question appears.
Faces call `open`, `say` and read the views; they decide nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from interview.dialogue import events as ev
from interview.dialogue import fit_view, replies, views
from interview.dialogue.agenda import NextTurn, Situation, answered, due_parts, next_turn
from interview.dialogue.commands import command_of, run_command
from interview.dialogue.failures import told_key
from interview.dialogue.flows import Flow, load_flow
from interview.dialogue.journal import Journal
from interview.dialogue.machine import REVIEW, Conversation
from interview.dialogue.review import review
from interview.dialogue.wording import caution_text, safety_texts
from interview.facts import CATALOGUE, TOPICS, Conflict, Fact, Kind, Known, Ledger, Origin, Value, from_json_value
from interview.language.listen import listen
from interview.language.model import Heard, Listening, Unclear
from interview.reference.connections import load_connections
from interview.reference.tables import load_tables
from interview.selection.cautions import triggered
from interview.selection.choice import home_of
from interview.selection.house_rules import load_house_rules
from interview.selection.judge import Bench, Judgement, judge, known_with
from interview.selection.outcome import Standing, standing_of, stop_of

MOST_CAUTIONS = 3
MOST_MISSES = 3  # answers that would not do before the question is explained


@dataclass
class Doubt:
    """Something said that must be cleared before it counts: the candidate readings, and the words."""

    said: str
    readings: tuple[Heard, ...]
    why: str
    implausible: bool = False


@dataclass
class State:
    """All that a turn may change; kept whole for undo."""

    ledger: Ledger = field(default_factory=Ledger)
    offered: frozenset[str] = frozenset()
    skipped: frozenset[str] = frozenset()
    ticked: frozenset[str] = frozenset()  # said to apply, value still to be asked
    on_table: tuple[str, ...] = ()  # the parts of the question that is put
    asked_facts: tuple[str, ...] = ()
    questions_asked: int = 0
    for_build: bool = False
    warned: frozenset[str] = frozenset()
    told: frozenset[str] = frozenset()  # computed and assumed values already told
    doubts: tuple[Doubt, ...] = ()
    home: str = "metric"
    job: str = "failed_hose"
    units: Mapping[str, str] = field(default_factory=dict)
    revises: tuple[str, int] | None = None  # number and revision of the stored record this goes on from

    def copy(self) -> State:
        return replace(self, ledger=self.ledger.copy())


def bench() -> Bench:
    """The shipped tables and rules."""
    return Bench.of(load_tables(), load_connections(), load_house_rules())


class Session:
    """One interview. `journal` None keeps nothing on disk."""

    def __init__(
        self,
        *,
        home: str = "metric",
        job: str = "failed_hose",
        journal: Journal | None = None,
        on: Bench | None = None,
        earlier: Path | None = None,
    ) -> None:
        self.journal = journal
        self.earlier = earlier
        self.bench = on or bench()
        self.now = State(home=home, job=job)
        self.now.ledger.put(Fact("job_kind", job, Origin.COMPUTED, because="the flow it runs in"))
        self.past: list[State] = []
        self.turn = 0
        self.conversation = Conversation(TOPICS)
        self.asked: ev.Asked | None = None
        self.left = False
        self._next: NextTurn | None = None
        self._judgement: Judgement | None = None
        self._known: Known | None = None
        self._counts: tuple[int, int, int] | None = None
        self._misses = 0

    # ---- what the faces read -------------------------------------------------------------------------------------

    @property
    def state(self) -> str:
        return self.conversation.state

    @property
    def home(self) -> str:
        return self.now.home

    @property
    def flow(self) -> Flow:
        return load_flow(self.now.job)

    @property
    def finished(self) -> bool:
        return self.left or self.state in ("settled", "referred")

    @property
    def said(self) -> Known:
        return self.now.ledger.known()

    @property
    def known(self) -> Known:
        if self._known is None:
            self._known = known_with(self.said, self.bench)
        return self._known

    @property
    def judgement(self) -> Judgement:
        known = self.known
        if self._judgement is None or self._judgement.needs.known is not known:
            self._judgement = judge(known, self.bench, self._judgement or self.bench.blank)
        return self._judgement

    def standing(self) -> Standing:
        return standing_of(self.judgement, self.home)

    def situation(self) -> Situation:
        return Situation(
            self.flow,
            self.said,
            self.known,
            self.judgement,
            self.home,
            self.now.offered,
            self.now.skipped,
            self.now.for_build,
            self.now.ticked,
        )

    def known_lines(self) -> list[views.KnownLine]:
        return views.known_lines(self)

    def topic_lines(self) -> list[views.TopicLine]:
        return views.topic_lines(self)

    def fit_lines(self, limit: int = 12) -> fit_view.FitView:
        return fit_view.fit_lines(self, limit)

    def why_not(self, text: str) -> list[ev.Event]:
        return [fit_view.why_not(self, text)]

    # ---- what the faces call -------------------------------------------------------------------------------------

    def open(self) -> list[ev.Event]:
        """The greeting and the first question; of an interview gone on with, the question it stood at."""
        if self.past or self.asked is not None:
            return [ev.Explained("", ("Going on where it stood.",)), *self.present()]
        offer = (
            (
                f'An interview was left unfinished ({self.earlier.stem}). "resume" goes on with it; any answer starts '
                "a new one.",
            )
            if self.earlier is not None
            else ()
        )
        return [ev.Explained("", (self.flow.job.greeting, *offer)), *self._go_on()]

    def present(self) -> list[ev.Event]:
        """What is on the table now, once more."""
        stop = stop_of(self.known, self.judgement)
        if stop is not None:
            return [views.referral(stop, self)]
        if self.now.doubts:
            return [views.doubted(self.now.doubts[0], self)]
        if conflicts := self.now.ledger.conflicts():
            return [views.conflicted(conflicts[0], self)]
        return [self.asked] if self.asked is not None else [review(self)]

    def say(self, text: str) -> list[ev.Event]:
        """Anything typed. Raises JournalError (nothing changed) where the line could not be kept on disk."""
        text = replies.cleaned(text)
        if not text:
            return [ev.Explained("", ('An empty line answers nothing. Type an answer, "don\'t know", or help.',))]
        if self.left:
            return [ev.Left("This interview was left. Start again to go on with it.")]
        command = command_of(text, self)
        if command is None or command.keeps:
            self._keep({"said": text})
        if command is not None:
            return run_command(command, self)
        self._remember()
        self.turn += 1
        return self._take_line(text)

    def answer(self, answers: Mapping[str, Heard | None], said: Sequence[str] = ()) -> list[ev.Event]:
        """Answers given fact by fact (a scenario's customer); None says "don't know"."""
        self._remember()
        self.turn += 1
        self._offered()
        heard = [h for h in answers.values() if h is not None]
        done = self._put_all(heard, corrects=True)
        for name, value in answers.items():
            if value is None and not self.said.has(name):
                self._unknown(name)
        return [*done, *self._go_on()]

    def take_over(
        self,
        facts: Mapping[str, Mapping[str, object]],
        ask_again: Sequence[str] = (),
        *,
        job: str | None = None,
        revises: tuple[str, int] | None = None,
    ) -> list[ev.Event]:
        """Facts of a stored record, but for those that may have changed since; they are asked again.

        `facts` carry value (JSON unit), origin, said, unit said. What stood here makes room (undo brings it back).
        Raises ValueError for what is no value of a fact.
        """
        self._keep(
            {"facts": {n: dict(f) for n, f in facts.items()}, "again": list(ask_again), "job": job, "revises": revises}
        )
        self._remember()
        self.turn += 1
        self.now = State(home=self.home, job=job or self.now.job, revises=revises)
        self.now.ledger.put(Fact("job_kind", self.now.job, Origin.COMPUTED, because="the flow it runs in"))
        self.asked, self._next = None, None
        for name, stored in facts.items():
            origin = Origin(str(stored.get("origin", "stated")))
            if (
                name in ("job_kind", *ask_again)
                or name not in CATALOGUE
                or origin in (Origin.COMPUTED, Origin.ASSUMED, Origin.UNKNOWN)
            ):
                continue
            self.now.ledger.put(
                Fact(
                    name,
                    from_json_value(name, stored.get("value")),
                    origin,
                    str(stored.get("said", "")),
                    str(stored.get("unit_said", "")),
                    self.turn,
                    bool(stored.get("hedged", False)),
                ),
                corrects=True,
            )
        self._known = None
        return self._go_on()

    # ---- taking a line -------------------------------------------------------------------------------------------

    def _take_line(self, text: str) -> list[ev.Event]:
        if self.now.doubts or self.now.ledger.conflicts():
            settled = self._settle_doubt(text)
            if settled is not None:
                return settled
        parts = self.asked.parts if self.asked is not None else ()
        self._offered()
        picked = replies.picked(text, self)
        if picked is not None:
            self.now.ticked = self.now.ticked | set(picked.opened)
            return [
                *self._put_all(picked.heard, corrects=False),
                *self._refusals(picked),
                *self._go_on(quiet=bool(picked.refused)),
            ]
        alike = replies.same_as_a(text, parts, self) or replies.in_order(text, parts, self)
        if alike:
            return [*self._put_all(alike, corrects=False), *self._go_on()]
        heard = listen(text, asked=parts, home=self.home, last_units=dict(self.now.units))
        events: list[ev.Event] = []
        if heard.injury:
            events += self._hurt()
        if replies.says_none(text) and parts and self._next is not None:
            facts = replies.none_of(self._next, self)
            if facts:
                told = f"none of the {len(facts)} applies" if len(facts) > 2 else ""
                return [*events, *self._put_all(facts, corrects=False, told=told), *self._go_on()]
        if heard.dont_know and not heard.facts and not heard.unclear:
            if not parts:
                return [*events, ev.Explained("", ("There is no question open.",))]
            self._dont_know(parts)
            return [*events, *self._go_on()]
        events += self._take_heard(heard, text, parts)
        if heard.dont_know and heard.facts:
            for name in parts:
                if not self.said.answered(name):
                    self._unknown(name)
        nothing = not heard.facts and not heard.unclear and not heard.injury
        if nothing:
            plain = replies.as_text(text, parts, self)
            if plain is not None:
                return [*events, *self._put_all([plain], corrects=False), *self._go_on()]
            return [*events, replies.not_understood(text, self), *self._go_on(quiet=True)]
        return [*events, *self._go_on(quiet=not heard.facts)]

    def _take_heard(self, heard: Listening, text: str, parts: Sequence[str]) -> list[ev.Event]:
        fine: list[Heard] = []
        doubts: list[Doubt] = []
        for h in heard.facts:
            if len(parts) > 1 and replies.swallows(h, heard):
                continue
            if replies.plausible(h):
                fine.append(h)
            else:
                doubts.append(Doubt(h.said or text, (h,), replies.implausible_text(h, self.home), implausible=True))
        for unclear in heard.unclear:
            doubts.append(_doubt(unclear))
        events = self._put_all(fine, corrects=False)
        if heard.ignored and (fine or doubts):
            rest = tuple(words for words in heard.ignored if len(words.strip()) > 2)
            if rest:
                events.append(ev.Unheard(rest, "Not used: " + "; ".join(f'"{w}"' for w in rest) + "."))
        self.now.doubts = (*self.now.doubts, *doubts)
        return events

    def _put_all(self, heard: Sequence[Heard], *, corrects: bool, told: str = "") -> list[ev.Event]:
        """Facts into the ledger, echoed in plain words (or in one line); a switch of units or of job is followed."""
        if not heard:
            return []
        asked = set(self.asked.parts) if self.asked is not None else set()
        put: list[Fact] = []
        for h in heard:
            fact = Fact(h.name, h.value, h.origin, h.said, h.unit, self.turn, h.hedged)
            firm = any(
                f.origin not in (Origin.UNKNOWN, Origin.ASSUMED, Origin.COMPUTED) for f in self.now.ledger.live(h.name)
            )
            correcting = corrects or h.corrects or (h.name in asked and firm)
            if h.name == "job_kind" and isinstance(h.value, str):
                self._switch_job(h.value)
            self.now.ledger.put(fact, corrects=correcting)
            if h.unit:
                self.now.units = {**self.now.units, CATALOGUE[h.name].measures: h.unit}
            put.append(fact)
        self._known = None
        self.now.home = home_of(self.said, self.now.home)
        noted = (told,) if told else tuple(views.fact_line(self, fact) for fact in put)
        return [ev.Noted(self.turn, noted, tuple(fact.name for fact in put))]

    def _switch_job(self, job: str) -> None:
        try:
            load_flow(job)
        except ValueError:
            return
        self.now.job = job

    def _dont_know(self, parts: Sequence[str]) -> None:
        for name in parts:
            if not self.said.has(name):
                self._unknown(name)

    def _unknown(self, name: str) -> None:
        self.now.ledger.put(Fact(name, None, Origin.UNKNOWN, "don't know", turn=self.turn))
        self._known = None

    def _hurt(self) -> list[ev.Event]:
        self.now.ledger.put(Fact("injury", True, Origin.STATED, turn=self.turn), corrects=True)
        self._known = None
        self.conversation.move("hurt")
        return [ev.Emergency(safety_texts().emergency)]

    def _refusals(self, picked: replies.Picked) -> list[ev.Event]:
        return [ev.Refused(picked.refused, picked.why)] if picked.refused else []

    # ---- doubts and conflicts ------------------------------------------------------------------------------------

    def _settle_doubt(self, text: str) -> list[ev.Event] | None:
        """An option number (or a fresh saying) clears what is in doubt; None: treat the line as usual."""
        number = replies.option_number(text)
        if self.now.doubts:
            doubt, rest = self.now.doubts[0], self.now.doubts[1:]
            count = len(doubt.readings) + 1
            if replies.says_none(text):
                number = count
            if number is not None and 1 <= number <= count:
                self.now.doubts = rest
                if number == count:
                    return [ev.Explained("", ("Put aside.",)), *self._go_on()]
                return [*self._put_all([doubt.readings[number - 1]], corrects=True), *self._go_on()]
            if number is not None:
                return [ev.Refused(text, f"Choose a number from 1 to {count}.")]
            self.now.doubts = rest
            return None
        conflict = self.now.ledger.conflicts()[0]
        if number is not None and 1 <= number <= len(conflict.sayings):
            chosen = self.now.ledger.settle(conflict.name, number - 1, self.turn)
            self._known = None
            return [ev.Noted(self.turn, (views.fact_line(self, chosen),), (conflict.name,)), *self._go_on()]
        if number is not None:
            return [ev.Refused(text, f"Choose a number from 1 to {len(conflict.sayings)}.")]
        line = listen(text, asked=(conflict.name,), home=self.home, last_units=dict(self.now.units))
        heard = line.fact(conflict.name)
        if heard is not None and not line.injury:
            return [*self._put_all([heard], corrects=True), *self._go_on()]
        return None

    # ---- going on ------------------------------------------------------------------------------------------------

    def _go_on(self, *, quiet: bool = False) -> list[ev.Event]:
        """What follows from the answers, then the next question, the review, or the end."""
        events: list[ev.Event] = []
        self.conversation.doubtful = bool(self.now.doubts)
        conflicts = self.now.ledger.conflicts()
        self.conversation.conflicting = bool(conflicts)
        stop = stop_of(self.known, self.judgement)
        events += self._tell_derived()
        if stop is None:
            events += self._tell_failure()
        events += self._warn(stopped=stop is not None)
        counts = self.judgement.counts()
        change = fit_view.narrowed(self._counts, counts) if self._counts is not None and stop is None else None
        self._counts = counts
        if change is not None:
            events.append(change)
        events += self._tell_ends()
        if stop is not None:
            self.asked, self._next = None, None
            self.conversation.move("refer")
            return [*events, views.referral(stop, self)]
        if self.now.doubts:
            event = views.doubted(self.now.doubts[0], self)
            self.conversation.move("doubt")
            return [*events, event]
        if conflicts:
            event = views.conflicted(conflicts[0], self)
            self.conversation.move("contradict")
            return [*events, event]
        return [*events, *self._ask(quiet)]

    def _ask(self, quiet: bool) -> list[ev.Event]:
        chosen = next_turn(self.situation())
        if self._next is not None and not any(self.said.answered(p) for p in self._next.parts):
            if quiet or (chosen is not None and chosen.turn is self._next.turn and not chosen.turn.ticks):
                chosen = self._next  # an answer that would not do, or was to something else, leaves the question as put
        same = chosen is not None and chosen.parts == self.now.on_table
        self._next = chosen
        self.now.on_table = chosen.parts if chosen is not None else ()
        if chosen is None:
            event = review(self)
            self.asked = None
            self.conversation.wanted = None
            self.conversation.move("proceed")
            return [event]
        topic = CATALOGUE[chosen.parts[0]].topic
        if not same:
            self.now.questions_asked += 1
            self.now.asked_facts = tuple(dict.fromkeys((*self.now.asked_facts, *chosen.parts)))
        again = same and quiet
        self._misses = self._misses + 1 if again else 0
        asked = views.asked(chosen, self, again=again)
        self.asked = asked
        self.conversation.wanted = topic
        self.conversation.move("proceed")
        if again and self._misses % MOST_MISSES == 0:
            return [views.how(self), views.all_options(self), asked]
        return [asked]

    def _tell_ends(self) -> list[ev.Event]:
        """After readings: what an unnamed end could be, once for each set; and ports that leave an angle open."""
        events: list[ev.Event] = []
        for end in ("end_a", "end_b"):
            names = (f"{end}_thread_diameter", f"{end}_thread_pitch", f"{end}_seat_angle", f"{end}_gender")
            key = f"{end}:" + ",".join(str(self.known.value(n)) for n in names)
            if key in self.now.told or not self.known.has(names[0]):
                continue
            found = views.could_be(self, end)
            self.now.told = self.now.told | {key}
            if found is not None:
                events.append(found)
        if "port_angle" not in self.now.told and (found := views.angle_open(self)) is not None:
            self.now.told = self.now.told | {"port_angle"}
            events.append(found)
        return events

    def _tell_derived(self) -> list[ev.Event]:
        events: list[ev.Event] = []
        for fact in self.known.values():
            if fact.name == "job_kind" or fact.origin not in (Origin.COMPUTED, Origin.ASSUMED):
                continue
            key = f"{fact.name}={fact.json_value()}"
            if key in self.now.told:
                continue
            if fact.origin is Origin.ASSUMED and self._easier_left(fact.name):
                continue  # an easier question comes first; what is assumed is told once that is answered too
            self.now.told = self.now.told | {key}
            events.append(views.derived(fact, self))
        return events

    def _tell_failure(self) -> list[ev.Event]:
        """What a sign just said is consistent with, and what separates it; the rest is in the record."""
        lines = views.failure_lines(self, self.now.told)
        self.now.told = self.now.told | {told_key(sign) for sign in self.known.many("failure_sign") or ()}
        return [ev.Explained("How it failed", lines)] if lines else []

    def _easier_left(self, name: str) -> bool:
        """True where "don't know" to this fact still leads to a question that will be asked."""
        question = self.flow.questions.get(name)
        turns = [(f, self.flow.turn_of(f)) for u in (question.unknown if question else ()) for f in u.ask]
        return any(turn is not None and not self.said.answered(f) and turn.applies(self.said) for f, turn in turns)

    def _warn(self, *, stopped: bool) -> list[ev.Event]:
        fresh = [
            c
            for c in triggered(self.known, stopped=stopped)
            if c not in self.now.warned and c not in ("crimp_data", "not_an_approval")
        ][:MOST_CAUTIONS]
        if not self.now.questions_asked and not stopped:
            return []
        self.now.warned = self.now.warned | set(fresh)
        return [ev.Warned(c, caution_text(c)) for c in fresh]

    # ---- keeping and taking back ---------------------------------------------------------------------------------

    def _keep(self, entry: dict[str, object]) -> None:
        if self.journal is not None:
            self.journal.add(entry)

    def _offered(self) -> None:
        """An answer is on its way: what it leaves out of a compound question comes back alone."""
        if len(self.now.on_table) > 1:
            self.now.offered = self.now.offered | set(self.now.on_table)

    def _remember(self) -> None:
        self.past.append(self.now.copy())

    def undo(self) -> list[ev.Event]:
        """Takes back the last turn."""
        if not self.past:
            return [ev.Undone("There is nothing to take back.")]
        self.now = self.past.pop()
        self._known = None
        self.asked, self._next = None, None
        return [ev.Undone("The last answer is taken back."), *self._go_on()]

    def correct(self, name: str, heard: Heard) -> list[ev.Event]:
        """A correction: supersedes, and what rested on the old value is worked out anew."""
        self._remember()
        self.turn += 1
        return [*self._put_all([heard], corrects=True), *self._go_on()]

    def reopen(self, names: Sequence[str]) -> list[ev.Event]:
        """Takes facts back and asks for them again."""
        self._remember()
        self.turn += 1
        self.now.ledger.withdraw(names)
        self.now.offered = self.now.offered - set(names)
        self._known = None
        return self._go_on()

    def put_off(self) -> list[ev.Event]:
        """Comes back to the present question at the end."""
        if self._next is None:
            return [ev.Explained("", ("There is no question open.",))]
        self.now.skipped = self.now.skipped | set(self._next.parts)
        return self._go_on()

    def go_to(self, topic: str) -> list[ev.Event]:
        """Jumps to a topic: its open questions first, or what is known of it to be corrected."""
        situation = self.situation()
        others = {f for t in self.flow.job.turns for f in t.asks if CATALOGUE[f].topic != topic}
        here = [t for t in self.flow.job.turns if t.asks and CATALOGUE[t.asks[0]].topic == topic]
        if any(due_parts(t, situation) for t in here):
            self.now.skipped = frozenset(f for f in others if not answered(f, situation))
            return self._go_on()
        lines = [line for line in self.known_lines() if line.topic == topic]
        said = tuple(f"{line.label}: {line.shown}" for line in lines) or ("Nothing is open here.",)
        return [
            ev.Explained(f"{self.flow.title(topic)}: nothing is open", (*said, "To correct: change FACT to VALUE."))
        ]

    def accept(self) -> list[ev.Event]:
        """Settles the specification as reviewed."""
        if self.state != REVIEW:
            return [ev.Explained("", ('There is still something to ask; "skip" puts a question off.',))]
        self._keep({"ended": "accepted"})
        self.conversation.move("accept")
        return [ev.Settled("Accepted as it stands. The record can be written with: record FILE.md")]

    def build(self) -> list[ev.Event]:
        """Goes on to what a build still needs."""
        self._remember()
        self.turn += 1
        self.now.for_build = True
        missing = set(self.standing().missing_for_build)
        again = [n for n in missing if n in CATALOGUE and self.said.answered(n) and not self.said.has(n)]
        self.now.ledger.withdraw(again)
        self.now.offered = frozenset()
        self._known = None
        return self._go_on()

    def leave(self) -> list[ev.Event]:
        self.left = True
        return [ev.Left("Everything typed is kept; the next start offers to go on from here.")]

    def resume(self) -> list[ev.Event]:
        """Goes on with the interview that was left: its lines are replayed, its journal is written on."""
        if self.earlier is None or self.past:
            return [ev.Explained("", ("There is no unfinished interview to go on with.",))]
        journal = Journal.open(self.earlier)
        if self.journal is not None:
            self.journal.discard()
        return self.replay(journal)

    def replay(self, journal: Journal) -> list[ev.Event]:
        """Stands where the journal stands, and writes on in it."""
        Session.__init__(self, home=journal.home, job=journal.job, on=self.bench)
        self.open()
        for entry in list(journal.lines()):
            if "facts" in entry:
                revises = entry.get("revises")
                self.take_over(
                    entry["facts"],
                    entry.get("again", ()),
                    job=entry.get("job"),
                    revises=(str(revises[0]), int(revises[1])) if revises else None,
                )
            else:
                self.say(str(entry["said"]))
        self.journal = journal
        if any(entry.get("ended") == "accepted" for entry in journal.entries) and self.state == REVIEW:
            self.conversation.move("accept")
        return self.open()


def _doubt(unclear: Unclear) -> Doubt:
    bad = replies.bad_reading(unclear.readings[0]) if len(unclear.readings) == 1 else ""
    return Doubt(unclear.said, unclear.readings, bad or unclear.why)


__all__ = ["Conflict", "Doubt", "Kind", "Session", "State", "Value"]
