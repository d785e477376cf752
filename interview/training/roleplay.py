"""How does a trainee do at the counter? The scenario's customer answers what is asked; asking and proposal are scored.

The house's own interview of the same customer is the measure: what it asked that this customer can answer, or that is
always settled, should have been asked; what it judged says whether the hose proposed holds.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from interview.catalogue import CATALOGUE
from interview.dialogue.events import Referred
from interview.dialogue.fit_view import hoses_named
from interview.dialogue.flows import load_flow
from interview.dialogue.review import headline
from interview.dialogue.views import referral
from interview.dialogue.wording import fact_shown, finding_sentence, hose_name, label, sentence
from interview.facts import Fact
from interview.language.model import Heard
from interview.selection.finding import Verdict
from interview.selection.judge import Bench
from interview.selection.outcome import settled_facts
from interview.training.asking import Asking
from interview.training.replay import play
from interview.training.scenario import Scenario

ASKED, PROPOSED = 60, 40  # points for what was asked and for what was proposed (our own scale)
HURTS = 30  # the most a proposal that fails can reach
GRAVE = ("adapter_", "near_power_line", "accumulator", "burst_consequence", "vacuum")  # beside what is always settled
NAMED = ("family", "size", "gender", "form")  # who names an end says these with it
MOST_MISSED = 8  # of what was not asked is told with its reason; the rest by name
WELL = ("none", "fixed", "smooth", "one")  # answers by which nothing is the matter
HOW = (
    "Ask me as you would ask a customer. Then: propose HOSE SIZE (propose 2SN 8), refer where it is not for this "
    "counter, or none where no hose holds. sheet shows what I have told you; quit leaves."
)


@dataclass(frozen=True, slots=True)
class Score:
    """The end of a role-play. `right`: the proposal stands; `points` of 100; `missed`: not asked, the gravest first."""

    right: bool
    points: int
    missed: tuple[str, ...]


@dataclass
class RolePlay:
    scenario: Scenario
    knows: dict[str, Heard]
    bench: Bench
    asked: dict[str, None] = field(default_factory=dict)  # in the order asked
    score: Score | None = None

    def __post_init__(self) -> None:
        self.house = play(self.scenario, self.knows, self.bench)
        self.flow = load_flow(self.scenario.flow)
        self.asking = Asking(self.flow)

    def open(self) -> list[str]:
        """The customer's first words."""
        return [self.scenario.opening or self.scenario.story.strip(), HOW]

    def say(self, text: str) -> list[str]:
        """What the customer answers, or the score once something was proposed."""
        word, _, rest = text.strip().partition(" ")
        word = word.lower().strip("./")
        if word == "sheet":
            return self._sheet()
        if word in ("propose", "refer") or text.strip().lower() in ("none", "none fits", "no hose holds"):
            return self._proposed(word, rest)
        return self._answered(self.asking.facts(text))

    # ---- the customer ----------------------------------------------------------------------------------------------

    def _answered(self, facts: tuple[str, ...]) -> list[str]:
        if not facts:
            return ["I am not sure what you mean. Ask me about one thing at a time."]
        named = {f"{end}_{what}" for end in ("end_a", "end_b") if f"{end}_family" in facts for what in NAMED}
        facts = tuple(dict.fromkeys((*facts, *(n for n in CATALOGUE if n in named))))
        self.asked.update(dict.fromkeys(facts))
        known = {name: said for name in facts if (said := self._knows(name)) is not None}
        if not known:
            return ["I don't know that."]
        return [sentence(f"{label(name)}: {said}") for name, said in known.items()]

    def _knows(self, name: str) -> str | None:
        """What the customer can say of a fact, in words; None: he does not know."""
        heard = self.knows.get(name)
        if heard is not None:
            return fact_shown(Fact(name, heard.value, unit=heard.unit), "metric", self.flow.option_labels)
        if name == "regulated_use" or name.startswith("adapter_"):
            return "nothing of the kind"
        return None

    def _sheet(self) -> list[str]:
        told = (*self.house.understood, *self.asked)
        lines = [
            sentence(f"{label(name)}: {said}")
            for name in dict.fromkeys(told)
            if (said := self._knows(name)) is not None
        ]
        return lines or ["Nothing yet."]

    # ---- the score -------------------------------------------------------------------------------------------------

    def due(self) -> tuple[str, ...]:
        """What should have been asked: what is always settled, what a quote rests on, and what is the matter here."""
        session = self.house.session
        settled = [n for n in settled_facts(session.known) if session.standing().stop is None or n == "regulated_use"]
        asked = [n for n in session.now.asked_facts if n in self.knows and self._counts(n)]
        return tuple(n for n in dict.fromkeys((*settled, *asked)) if n not in self.house.understood)

    def _counts(self, name: str) -> bool:
        """Whether leaving this out would have cost something: not where the customer's answer is that all is well."""
        turn = self.flow.turn_of(name)
        settle = turn.settle_of(name) if turn is not None else "along"
        value = self.knows[name].value
        if settle in ("always", "quote"):
            return True
        if settle == "matters" or (turn is not None and turn.ticks):
            return value not in (False, (), ("none",), *WELL)
        return False

    def _weight(self, name: str) -> int:
        return 2 if name in settled_facts(self.house.session.known) or name.startswith(GRAVE) else 1

    def _proposed(self, word: str, rest: str) -> list[str]:
        standing = self.house.session.standing()
        share, told = 0.0, ""
        if word == "propose":
            at = hoses_named(rest, self.bench, None)
            if len({self.bench.candidates[i].bore for i in at}) != 1:
                return [f'"{rest}" is no one hose of the tables. Say kind and size, for example propose 2SN 8.']
            share, told = self._judged(at[0])
        elif standing.outcome == ("referred" if word == "refer" else "unmatched"):
            share, told = 1.0, "Right: there is nothing here to sell."
        else:
            told = "This job can be done at the counter, and the customer went away without his hose."
        due = self.due()
        missed = tuple(sorted((n for n in due if n not in self.asked), key=lambda n: -self._weight(n)))
        whole = sum(map(self._weight, due))
        covered = 1.0 - sum(map(self._weight, missed)) / whole if whole else 1.0
        points = round(ASKED * covered + PROPOSED * share)
        if word == "propose" and share == 0.0:
            points = min(points, HURTS)
        self.score = Score(share == 1.0, points, missed)
        return [told, *self._told(len(due), missed), f"{points} of 100 points."]

    def _judged(self, index: int) -> tuple[float, str]:
        session = self.house.session
        if session.standing().stop is not None:
            return 0.0, "Wrong, and somebody could be hurt: this is not for a hydraulics counter."
        name, verdict = hose_name(self.bench.candidates[index], session.home), session.judgement.verdict(index)
        against = [f for f in session.judgement.findings(index) if f.verdict is verdict]
        why = "; ".join(finding_sentence(f, session.home) for f in against)
        if verdict is Verdict.FITS:
            return 1.0, f"{name} holds."
        if verdict is Verdict.OPEN:
            return 0.5, f"{name} may hold: {why}."
        return 0.0, f"Wrong, and somebody could be hurt: {name} does not hold: {why}."

    def _told(self, due: int, missed: tuple[str, ...]) -> list[str]:
        session = self.house.session
        standing = session.standing()
        lines = [f"Asked: {due - len(missed)} of the {due} things that decide this job."]
        for name in missed[:MOST_MISSED]:
            question = self.flow.questions.get(name)
            lines.append(f"Not asked: {label(name)}.{f' {question.why}' if question is not None else ''}")
        if more := missed[MOST_MISSED:]:
            lines.append(f"Nor: {', '.join(map(label, more))}.")
        if standing.stop is not None:
            told = referral(standing.stop, session)
            lines.append(f"The house: {told.text if isinstance(told, Referred) else headline(standing, session.home)}")
        else:
            lines.append(f"The house: {headline(standing, session.home)}")
        if self.scenario.teaches:
            lines.append(f"What this job teaches: {self.scenario.teaches}")
        return lines
