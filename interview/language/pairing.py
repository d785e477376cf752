"""Which cue word belongs to which number?

"2500 psi peaks 3200" and "3000 psi relief, spikes to 4200" put the cue before or behind a number. All cues of one kind
are placed together at the least cost, so that one cue's number is not stolen by its neighbour.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from interview.language.measures import Measure

_EASY = frozenset(
    "at to of is the a an about around roughly be are was set in on up for it with approx say by from s - = @ runs "
    "that says only just "
    "max maximum min minimum well nearly almost valve pressure temperature temp goes gets hits and as this our my "
    "some hose line i think "
    "reckon can could would will may not more than least no over under likely maybe probably usually normally ~ "
    "degrees".split()
)
_COST_UNUSED = 3.2
FAR = 9.0
_FRAME = 1.0
_PAST_A_COMMA = 2.2
_STOPS = frozenset(", . ; : ! ? ( ) but and".split())
_POLITE = frozenset("please thanks mate there then too ok now though".split())
_COMPARING = frozenset("more less over under that than".split())


@dataclass(slots=True)
class Cue:
    """A cue phrase in the line: the fact it names and its tokens."""

    tag: str
    first: int
    last: int  # one past
    before: bool = False
    after: bool = False


def gap(words: list[str], a: int, b: int, inside: frozenset[int] = frozenset()) -> float:
    """The cost of the words from a to b (exclusive); the words of a unit cost nothing."""
    if b - a > 14:
        return FAR + 9
    cost = 0.0
    for k in range(a, b):
        word = words[k]
        if k in inside:
            continue
        if word in (".", ";", "!", "?"):
            return FAR + 9
        if word in (",", ":", "(", ")", "/"):
            cost += 2.2
        elif word == "but":
            cost += _COST_UNUSED
        elif word == "and":
            cost += 2.0
        elif word in _EASY:
            cost += 0.15
        else:
            cost += 1.0
    return cost


def without_frames(
    words: list[str], measures: list[Measure], cues: list[Cue], inside: frozenset[int] = frozenset()
) -> list[Cue]:
    """ "Ports 900 apart, hose 1 m": two words for one fact around a number are its own; the second takes no other."""
    out: list[Cue] = []
    for cue in cues:
        before = out[-1] if out else None
        if before is not None and before.tag == cue.tag and before.last <= cue.first:
            own = [m for m in measures if before.last <= m.first and m.last < cue.first]
            after = next((m for m in measures if m.first >= cue.last), None)
            if (
                len(own) == 1
                and gap(words, before.last, own[0].first, inside) < _FRAME
                and gap(words, own[0].last + 1, cue.first, inside) < _FRAME
                and (after is None or gap(words, cue.last, after.first, inside) > _FRAME)
            ):
                continue
        out.append(cue)
    return out


def _goes_on(words: list[str], cue: Cue) -> bool:
    """ "2500 psi, spikes double that": behind the cue its clause says something of its own."""
    for k in range(cue.last, min(cue.last + 6, len(words))):
        if words[k] in _STOPS:
            return False
        if words[k] not in _EASY | _POLITE or words[k] in _COMPARING:
            return True
    return False


def pair(
    words: list[str],
    measures: list[Measure],
    cues: list[Cue],
    fits: Callable[[str, Measure], bool] = lambda tag, measure: True,
    inside: frozenset[int] = frozenset(),
) -> dict[int, tuple[Cue, float]]:
    """The cue of each measure (by its place in the list) and what it cost. Time linear in the number of both."""
    items: list[tuple[int, int, bool]] = sorted(
        [(m.first, i, True) for i, m in enumerate(measures)] + [(c.first, i, False) for i, c in enumerate(cues)]
    )
    # State: the cue that the last measure is used for (-1: none), and the cue that waits for the next one (-1: none).
    best: dict[tuple[int, int], tuple[float, tuple[object, ...]]] = {(-2, -1): (0.0, ())}
    last_measure = -1
    for _, index, is_measure in items:
        after: dict[tuple[int, int], tuple[float, tuple[object, ...]]] = {}

        def offer(
            state: tuple[int, int],
            cost: float,
            trail: tuple[object, ...],
            into: dict[tuple[int, int], tuple[float, tuple[object, ...]]],
        ) -> None:
            if state not in into or cost < into[state][0]:
                into[state] = (cost, trail)

        if is_measure:
            measure = measures[index]
            for (_, waiting), (cost, trail) in best.items():
                if waiting >= 0:
                    cue = cues[waiting]
                    price = gap(words, cue.last, measure.first, inside)
                    if price < FAR and fits(cue.tag, measure):
                        offer((waiting, -1), cost + price, (trail, index, waiting, price), after)
                    offer((-1, -1), cost + _COST_UNUSED, trail, after)
                else:
                    offer((-1, -1), cost, trail, after)
            last_measure = index
        else:
            cue = cues[index]
            for (used, waiting), (cost, trail) in best.items():
                offer((used, waiting), cost + _COST_UNUSED, trail, after)
                if not cue.after:
                    offer((used, index), cost + (_COST_UNUSED if waiting >= 0 else 0.0), trail, after)
                if not cue.before and used == -1 and last_measure >= 0:
                    price = gap(words, measures[last_measure].last + 1, cue.first, inside) + 0.6
                    if price > _PAST_A_COMMA and _goes_on(words, cue):
                        price = FAR
                    if price < FAR and fits(cue.tag, measures[last_measure]):
                        offer((index, waiting), cost + price, (trail, last_measure, index, price), after)
        best = after
    final = min(
        ((cost + (_COST_UNUSED if waiting >= 0 else 0.0), trail) for (_, waiting), (cost, trail) in best.items()),
        key=lambda option: option[0],
    )
    out: dict[int, tuple[Cue, float]] = {}
    rest: tuple[object, ...] = final[1]
    while rest:
        before, m, c, paid = rest
        assert isinstance(m, int) and isinstance(c, int) and isinstance(paid, float) and isinstance(before, tuple)
        out[m] = (cues[c], paid)
        rest = before
    return out
