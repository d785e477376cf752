"""What does the interview do with a line? Listens, keeps it, works out what follows, and asks the next thing.

The session computes first and triggers the machine last. Every line is in the journal before the next question appears.
Faces call `open`, `say` and read the views; they decide nothing.
"""

from __future__ import annotations

import contextlib
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE, TOPICS
from interview.dialogue import events as ev
from interview.dialogue import fit_view, questions, returning, steering, telling, views
from interview.dialogue.agenda import NextTurn, Situation, next_turn
from interview.dialogue.commands import LONGEST, cleaned, command_of, run_command
from interview.dialogue.flows import Flow, load_flow
from interview.dialogue.journal import Journal, about, left_offer, offer, yes_or_no
from interview.dialogue.machine import Conversation
from interview.dialogue.review import nearest, review
from interview.dialogue.state import State
from interview.facts import Fact, Known, Origin
from interview.reference.connections import load_connections
from interview.reference.tables import load_tables
from interview.resources import own_shelf
from interview.selection.checks.history import today
from interview.selection.choice import home_of
from interview.selection.house_rules import load_house_rules
from interview.selection.judge import Bench, Judgement, judge, known_with
from interview.selection.outcome import Standing, standing_of, stop_of

if TYPE_CHECKING:
    from interview.language.model import Heard

MOST_MISSES = 3  # answers that would not do before the question is explained


def bench(*, shelved: bool = True) -> Bench:
    """The tables and rules, with the shop's shelf where it keeps one. Raises FileError where the shelf will not do."""
    rules, shelf = load_house_rules(), own_shelf() if shelved else None
    if shelf is None:
        return Bench.of(load_tables(), load_connections(), rules)
    from interview.dialogue.shelf_file import load_shelf  # reads words, which the first question does not wait for

    return Bench.of(load_tables(), load_connections(), rules, load_shelf(shelf, rules, today()))


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
        self.bench = on or bench()
        self.begin(home, job, journal, earlier)

    def begin(self, home: str, job: str, journal: Journal | None = None, earlier: Path | None = None) -> None:
        """Nothing said and nothing asked yet."""
        self.journal = journal
        self.earlier = earlier
        self._offering = False  # an unfinished interview was offered just now: yes or no answers that
        self.now = State(home=home, job=job)
        self.now.ledger.put(Fact("job_kind", job, Origin.COMPUTED, because="the flow it runs in"))
        self.past: list[State] = []
        self.turn = 0
        self.conversation = Conversation(TOPICS)
        self.asked: ev.Asked | None = None
        self.left = False
        self.to_ask: NextTurn | None = None
        self._judgement: Judgement | None = None
        self._known: Known | None = None
        self._standing: Standing | None = None
        self._stood_for = ""  # whose units and standards it was reckoned with
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
        judgement = self.judgement
        if self._standing is None or self._standing.judgement is not judgement or self._stood_for != self.home:
            self._standing, self._stood_for = standing_of(judgement, self.home), self.home
        return self._standing

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
        self._offering = self.earlier is not None
        offered = (offer(self.earlier),) if self.earlier is not None else ()
        return [ev.Explained("", (self.flow.job.greeting, *offered)), *self.go_on()]

    def present(self) -> list[ev.Event]:
        """What is on the table now, once more."""
        stop = stop_of(self.known, self.judgement)
        if stop is not None:
            return [views.referral(stop, self)]
        if self.now.doubts:
            return [questions.doubted(self.now.doubts[0], self)]
        if conflicts := self.now.ledger.conflicts():
            return [questions.conflicted(conflicts[0], self)]
        return [self.asked] if self.asked is not None else [review(self)]

    def say(self, text: str) -> list[ev.Event]:
        """Anything typed. Raises JournalError (nothing changed) where the line could not be kept on disk."""
        text = cleaned(text)
        if len(text) > LONGEST:
            cut = f"Only the first {LONGEST:,} of {len(text):,} characters were read: say the rest in lines of its own."
            return [ev.Explained("Too long for one line", (cut,)), *self.say(text[:LONGEST])]
        if not text:
            return [ev.Explained("", ('An empty line answers nothing. Type an answer, "don\'t know", or help.',))]
        if self.left:
            return [ev.Left("This interview was left. Start again to go on with it.")]
        offering, self._offering = self._offering, False
        if offering and (wanted := yes_or_no(text)) is not None:
            if wanted:
                return returning.resume(self)
            self.earlier, told = left_offer(self.earlier)
            return [ev.Explained("", told), *self.present()]
        command = command_of(text, self)
        if command is None or command.keeps:
            self.keep({"said": text})
        if command is not None:
            return run_command(command, self)
        self.new_turn()
        # What reads words is a third of all that is loaded, and the first question does not wait for it.
        from interview.dialogue.taking import take_line

        return take_line(self, text)

    def answer(self, answers: Mapping[str, Heard | None], said: Sequence[str] = ()) -> list[ev.Event]:
        """Answers given fact by fact (a scenario's customer); None says "don't know"."""
        self.new_turn()
        self.note_offered()
        heard = [h for h in answers.values() if h is not None]
        done = self.put(heard, corrects=True)
        for name, value in answers.items():
            if value is None and not self.said.has(name):
                self.put_unknown(name)
        return [*done, *self.go_on()]

    # What is asked of the session by other rooms, and is told elsewhere how it is done.
    take_over = returning.take_over
    replay = returning.replay
    build = steering.build

    # ---- going on ------------------------------------------------------------------------------------------------

    def go_on(self, *, quiet: bool = False) -> list[ev.Event]:
        """What follows from the answers, then the next question, the review, or the end."""
        events = telling.inside_wanted(self)
        self.conversation.doubtful = bool(self.now.doubts)
        conflicts = self.now.ledger.conflicts()
        self.conversation.conflicting = bool(conflicts)
        stop = stop_of(self.known, self.judgement)
        events += telling.derived(self)
        if stop is None:
            events += telling.failure(self)
        events += telling.cautions(self, stopped=stop is not None)
        counts = self.judgement.counts()
        if not telling.held_back(self):  # what falls by an assumption is told with it
            change = fit_view.narrowed(self._counts, counts) if self._counts is not None and stop is None else None
            self._counts = counts
            if change is not None:
                events.append(change)
                if not counts[0] and not counts[1]:
                    events.append(ev.Explained("Nothing fits", (nearest(self.standing(), self.home),)))
        events += telling.ends(self)
        if stop is not None:
            self.asked, self.to_ask = None, None
            self.conversation.move("refer")
            back = {"regulated_use": "change regulated use to none", "medium": "change medium to HLP 46, or what it is"}
            taken_back = [ev.Explained("", (f"If that is not so: {how}.",))] if (how := back.get(stop.kind)) else []
            return [*events, views.referral(stop, self), *taken_back]
        if self.now.doubts:
            event = questions.doubted(self.now.doubts[0], self)
            self.conversation.move("doubt")
            return [*events, event]
        if conflicts:
            event = questions.conflicted(conflicts[0], self)
            self.conversation.move("contradict")
            return [*events, event]
        return [*events, *self._ask(quiet)]

    def next_question(self, *, quiet: bool = False) -> NextTurn | None:
        """What is to be asked as things stand; None where nothing is left."""
        chosen = next_turn(self.situation())
        if self.to_ask is not None and not any(self.said.answered(p) for p in self.to_ask.parts):
            ticked = not self.now.ticked.isdisjoint(self.to_ask.parts)
            if quiet or (chosen is not None and chosen.turn is self.to_ask.turn and not ticked):
                return self.to_ask  # an answer that would not do, or to something else, leaves the question as put
        return chosen

    def _ask(self, quiet: bool) -> list[ev.Event]:
        chosen = self.next_question(quiet=quiet)
        same = chosen is not None and chosen.parts == self.now.on_table
        self.to_ask = chosen
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
        asked = questions.asked(chosen, self, again=again)
        self.asked = asked
        self.conversation.wanted = topic
        self.conversation.move("proceed")
        if again and self._misses % MOST_MISSES == 0:
            return [views.how(self), questions.all_options(self), asked]
        return [asked]

    # ---- putting facts ---------------------------------------------------------------------------------------------

    def changed(self) -> None:
        """The ledger was changed: what follows from it is worked out anew."""
        self._known = None

    def put(self, heard: Sequence[Heard], *, corrects: bool, told: str = "") -> list[ev.Event]:
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
        self.changed()
        self.now.home = home_of(self.said, self.now.home)
        noted = (told,) if told else tuple(views.fact_line(self, fact) for fact in put)
        return [ev.Noted(self.turn, noted, tuple(fact.name for fact in put))]

    def _switch_job(self, job: str) -> None:
        try:
            load_flow(job)
        except ValueError:
            return
        self.now.job = job

    def put_unknown(self, name: str) -> None:
        applies = name in self.now.ticked  # said to be so, and nobody knows how far: that stays open
        self.now.ledger.put(Fact(name, None, Origin.UNKNOWN, "don't know", turn=self.turn, hedged=applies))
        self.changed()

    # ---- keeping ----------------------------------------------------------------------------------------------

    def keep(self, entry: dict[str, object]) -> None:
        """Into the journal. Raises JournalError where it could not be kept on disk."""
        if self.journal is not None:
            self.journal.add(entry | about(self.said, self.home))

    def note_offered(self) -> None:
        """An answer is on its way: what it leaves out of a compound question comes back alone."""
        if len(self.now.on_table) > 1:
            self.now.offered = self.now.offered | set(self.now.on_table)

    def new_turn(self) -> None:
        """What follows is a turn of its own, which undo takes back whole."""
        self.past.append(self.now.copy())
        self.turn += 1

    def leave(self) -> list[ev.Event]:
        self.left = True
        if self.state in ("settled", "referred") and self.journal is not None and any(self.journal.lines()):
            with contextlib.suppress(OSError):  # a disk that is full now: it is offered once more
                self.keep({"ended": self.state})
            return [ev.Left("Everything typed is kept.")]
        return [ev.Left("Everything typed is kept; the next start offers to go on from here.")]
