"""Which of those that fit? The design's order of preference, and which step of it decided.

First the bore: the one the order or the old hose gives where it passes, else the smallest within the velocity guide.
Then: on the shelf; margin not thin and no low-confidence row; the old hose's kind; the usual kind for the line; the
user's home standards; id. Hose whose dash is a tube size, thermoplastic and PTFE come last unless the job calls for
them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from interview.facts import Known
from interview.selection.candidates import Candidate, kind_of
from interview.selection.checks.shelf import length_asked
from interview.selection.finding import Verdict
from interview.selection.judge import Bench, Judgement
from interview.selection.needs import UNKNOWN, Needs

AGAINST_OLD_KIND = frozenset(
    "burst_clean burst_fatigue burst_outer_bend collapsed tube_swollen tube_hardened charred cracked_in_cold "
    "tube_extruded tube_loose cover_softened".split()
)
STEPS = (
    "not asked for where an ordinary hose does it",
    "smallest bore within the velocity guide",
    "bore",
    "on the shelf",
    "margin not thin and no doubtful row",
    "the kind the old hose was",
    "usual kind for this line",
    "home standards",
    "the order of the tables, all else being equal",
)

SAID_IN = (
    "working_pressure",
    "surge_pressure",
    "relief_setting",
    "flow_rate",
    "fluid_temperature_max",
    "ambient_temperature_max",
    "ambient_temperature_min",
    "overall_length",
    "port_distance",
)
US_UNITS = frozenset(("psi", "ksi", "°F", "in", "ft", "gpm"))

Rank = tuple[int, int, float, int, int, int, int, int, str]


def home_of(known: Known, home: str) -> str:
    """Whose units and standards come first: those most of the job was said in; on a tie the house's setting."""
    units = [fact.unit for name in SAID_IN if (fact := known.get(name)) is not None and fact.unit]
    us = 2 * sum(u in US_UNITS for u in units)
    return "us" if us > len(units) else "metric" if us < len(units) else home


@dataclass(frozen=True, slots=True)
class Ranking:
    """What the order of preference needs to know of a job; the trials of one interview share one and its ranks."""

    non_conductive: bool
    least_area: float  # m2; the flow runs within the guide from here up. 0 where the bore is given or no flow is known
    old_id: str | None
    old_kind: str | None
    usual: tuple[str, ...]  # kinds of hose, the most usual for this line first
    home: tuple[str, ...]
    length: float | None  # m; an item of the shelf that is shorter does not count as on the shelf
    ranks: dict[tuple[int, bool], Rank] = field(compare=False)

    @classmethod
    def of(cls, needs: Needs, bench: Bench, home: str) -> Ranking:
        old = needs.known.text("old_construction")
        signs = set(needs.known.many("failure_sign") or ())
        wrong = bool(signs & AGAINST_OLD_KIND) or needs.known.flag("sample_right") is False
        entry = bench.tables.constructions.get(old) if old and not wrong else None
        line = needs.line if needs.line in bench.rules.usual_kind else "pressure"
        flow, least = needs.flow[1], 0.0
        if needs.bore == UNKNOWN and needs.band is not None and flow is not None:
            least = flow / (needs.band.guide * (1 + needs.rules.velocity_within_guide_percent / 100))
        key = (
            bool(needs.known.flag("non_conductive")),
            least,
            entry.id if entry else None,
            kind_of(entry) if entry else None,
            tuple(bench.rules.usual_kind[line or "pressure"]),
            bench.rules.home_standards[home_of(needs.known, home)].standards,
            length_asked(needs.known) if bench.shelf else None,
        )
        return cls(*key, bench.ranks.setdefault(key, {}))

    def rank(self, c: Candidate, thin: bool) -> Rank:
        rank = self.ranks.get((c.index, thin))
        if rank is None:
            rank = self.ranks[c.index, thin] = self._rank(c, thin)
        return rank

    def _rank(self, c: Candidate, thin: bool) -> Rank:
        reluctant = (
            (c.kind == "thermoplastic" and not self.non_conductive)
            or c.kind == "ptfe"
            or (c.size.marked_dash is not None and c.size.marked_dash != c.bore)
        ) and c.id != self.old_id
        return (
            int(reluctant),
            int(c.area < self.least_area),
            c.bore,
            0 if c.item_for(self.length) is not None else 1,
            int(thin or c.low_confidence),
            0 if c.id == self.old_id else 1 if c.kind == self.old_kind else 2,
            self.usual.index(c.kind) if c.kind in self.usual else len(self.usual),
            0 if c.construction.standard.startswith(self.home) else 1,
            c.id + c.own,
        )


@dataclass(frozen=True, slots=True)
class Preferred:
    """The recommended candidate, the runners-up in order, and the step that told it from the next one."""

    index: int
    decided_by: str
    runners_up: tuple[int, ...]


def preferred(indices: Iterable[int], thin: Callable[[int], bool], ranking: Ranking, bench: Bench) -> Preferred | None:
    """The first by the order of preference among `indices`; None where there is none."""
    ranked = sorted((ranking.rank(bench.candidates[i], thin(i)), i) for i in indices)
    if not ranked:
        return None
    if len(ranked) == 1:
        decided = "the only one"
    else:
        first, second = ranked[0][0], ranked[1][0]
        decided = next((STEPS[s] for s in range(len(STEPS)) if first[s] != second[s]), STEPS[-1])
    return Preferred(ranked[0][1], decided, tuple(i for _, i in ranked[1:]))


def first_of(indices: Iterable[int], thin: Callable[[int], bool], ranking: Ranking, bench: Bench) -> int | None:
    """Only the index of the first, for trials."""
    best = min(((ranking.rank(bench.candidates[i], thin(i)), i) for i in indices), default=None)
    return None if best is None else best[1]


def recommend(judgement: Judgement, ranking: Ranking) -> Preferred | None:
    """Among those that fit; where none fits, among those that fail nothing (then at most provisional)."""
    standing = judgement.standing
    fitting = [i for i in standing if judgement.verdict(i) is Verdict.FITS]
    return preferred(fitting or standing, judgement.thin, ranking, judgement.bench)
