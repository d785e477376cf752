"""Which of those that fit comes first, and which step of the order of preference said so?"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from selection_jobs import index, judged, plain

from interview.selection.choice import STEPS, Preferred, Ranking, preferred, recommend
from interview.selection.finding import Verdict
from interview.selection.judge import Bench
from interview.selection.shelf import Item

Pair = tuple[tuple[str, float], tuple[str, float]]


def decide(
    on: Bench,
    pair: Pair,
    *,
    home: str = "metric",
    thin: Callable[[int], bool] = lambda i: False,
    **facts: object,
) -> Preferred:
    """The order of preference between two hoses, given both ways round."""
    first, second = (index(on, *name) for name in pair)
    needs = judged(on, **plain(**facts)).needs
    ranking = Ranking.of(needs, on, home)
    found, again = preferred([first, second], thin, ranking, on), preferred([second, first], thin, ranking, on)
    assert found is not None and found == again
    assert found.index == first, f"{pair[1]} came before {pair[0]} by {found.decided_by}"
    assert found.runners_up == (second,)
    return found


@pytest.mark.parametrize(
    ("step", "first", "second", "facts"),
    [
        # DESIGN 10: thermoplastic only where non-conductive is needed, PTFE only for heat or medium; tube sizes last.
        (0, ("en856-4sp", 10), ("saej517-100r7", 10), {}),
        (0, ("en856-4sp", 10), ("saej517-100r14a", 10), {}),
        (0, ("en853-2sn", 12), ("saej517-100r5", 10), {}),
        (1, ("en853-2sn", 12), ("en853-2sn", 10), {"bore": ..., "flow_rate": 85}),  # 7.1 m/s in -10, above the guide
        (2, ("en853-2sn", 10), ("en853-2sn", 12), {}),  # the bore given before a larger one
        (2, ("en853-2sn", 8), ("en853-2sn", 10), {"bore": ..., "flow_rate": 40}),  # the smallest within the guide
        (5, ("en853-2sn", 10), ("en853-1sn", 10), {"old_construction": "en853-2sn"}),  # the kind the old hose was
        (5, ("en853-2sn", 10), ("en853-2st", 10), {"old_construction": "en853-2sn"}),  # itself before its kind
        (5, ("en853-2st", 10), ("en853-1sn", 10), {"old_construction": "en853-2sn"}),  # its kind before another
        (6, ("en853-1sn", 10), ("en857-2sc", 10), {}),  # pressure: one-wire, compact two-wire, two-wire, spiral
        (6, ("en857-2sc", 10), ("en853-2sn", 10), {}),
        (6, ("en853-2sn", 10), ("en856-4sp", 10), {}),
        (6, ("en856-4sp", 12), ("en856-r13", 12), {"bore": 12}),
        (6, ("en854-2te", 10), ("en853-1sn", 10), {"line_function": "return"}),  # return: textile before one-wire
        (6, ("saej517-100r4", 24), ("en853-2sn", 24), {"line_function": "suction", "bore": 24}),  # suction: wire helix
        (7, ("en853-2sn", 10), ("saej517-100r2at", 10), {}),  # metric user: EN and ISO first
        (8, ("en853-2sn", 10), ("iso1436-r2ats", 10), {}),  # nothing but the order of the tables is left
    ],
)
def test_each_step_decides(
    on: Bench, step: int, first: tuple[str, float], second: tuple[str, float], facts: dict[str, object]
) -> None:
    assert decide(on, (first, second), **facts).decided_by == STEPS[step]


def test_what_lies_on_the_shelf_comes_first(on: Bench) -> None:
    stocked = Bench.of(on.tables, on.connections, on.rules, (Item("bin 14", "en856-4sp", 10.0),))
    assert decide(stocked, (("en856-4sp", 10), ("en853-1sn", 10))).decided_by == "on the shelf"


def test_a_thin_margin_gives_way(on: Bench) -> None:
    one = index(on, "en853-1sn", 10)
    found = decide(on, (("en856-4sp", 10), ("en853-1sn", 10)), thin=lambda i: i == one)
    assert found.decided_by == "margin not thin and no doubtful row"


def test_a_doubtful_row_gives_way(on: Bench) -> None:
    assert on.candidates[index(on, "en854-1te", 8)].low_confidence
    found = decide(on, (("en853-1sn", 8), ("en854-1te", 8)), bore=8, line_function="return")
    assert found.decided_by == "margin not thin and no doubtful row"


def test_an_american_user_sees_sae_first(on: Bench) -> None:
    """DESIGN 10: a US user (psi, degF, inch) sees SAE first, others EN and ISO."""
    assert decide(on, (("saej517-100r2at", 10), ("en853-2sn", 10)), home="us").decided_by == "home standards"


def test_the_failure_argues_against_the_old_kind(on: Bench) -> None:
    """A clean burst is no recommendation for the same kind again; a rubbed cover says nothing against it."""
    rubbed = decide(on, (("en853-2sn", 10), ("en853-1sn", 10)), old_construction="en853-2sn", failure_sign=["abraded"])
    assert rubbed.decided_by == "the kind the old hose was"
    burst = decide(
        on, (("en853-1sn", 10), ("en853-2sn", 10)), old_construction="en853-2sn", failure_sign=["burst_clean"]
    )
    assert burst.decided_by == "usual kind for this line"


def test_a_live_line_makes_thermoplastic_ordinary(on: Bench) -> None:
    found = decide(on, (("saej517-100r7", 8), ("en853-2sn", 10)), bore=8, non_conductive=True)
    assert found.decided_by == "bore"


def test_the_old_hose_s_own_tube_size_is_no_obstacle(on: Bench) -> None:
    found = decide(on, (("saej517-100r5", 10), ("en853-2sn", 12)), bore=10, old_construction="saej517-100r5")
    assert found.decided_by == "bore"


def test_recommended_is_among_those_that_fit_and_else_among_those_that_stand(on: Bench) -> None:
    fitting = judged(on, **plain())
    found = recommend(fitting, Ranking.of(fitting.needs, on, "metric"))
    assert found is not None and fitting.verdict(found.index) is Verdict.FITS
    standing = judged(on, **plain(surge_pressure=...))
    found = recommend(standing, Ranking.of(standing.needs, on, "metric"))
    assert found is not None and standing.verdict(found.index) is Verdict.OPEN
    none = judged(on, **plain(surge_pressure=1900))
    assert recommend(none, Ranking.of(none.needs, on, "metric")) is None


def test_the_whole_order_is_one_order(on: Bench) -> None:
    """Recommended and runners-up are all the standing hoses once, best first, in whatever order they are offered."""
    judgement = judged(on, **plain())
    ranking = Ranking.of(judgement.needs, on, "metric")
    fits = [i for i in judgement.standing if judgement.verdict(i) is Verdict.FITS]
    forward, backward = (preferred(order, judgement.thin, ranking, on) for order in (fits, fits[::-1]))
    assert forward is not None and forward == backward
    assert sorted((forward.index, *forward.runners_up)) == sorted(fits)
    assert on.candidates[forward.index].bore == 10


def test_a_line_of_counterparts_has_one_figure_in_psi(on: Bench) -> None:
    """R16 at 1/2 in prints 4000 psi and its counterpart 2SC none: the line has one, rounded down."""
    line = {c.id: c for c in on.candidates if c.bore == 8}
    assert line["saej517-100r16"].size.psi_printed == 4000 and line["saej517-100r16"].psi is None
    assert line["en857-2sc"].psi is None and line["saej517-100r12"].psi == 4000
