"""How many strokes? A rounded order of magnitude, with both its sources, and words no kinder than the finding.

The type test speaks for its own count at its own pressure; the rest is the line of SAE J1927 (restated), stated for
peaks of 100 to 200 % of the rating of wire hose. House rule: a factor of 3 with a measured peak, 8 otherwise.
"""

from __future__ import annotations

import pytest
from selection_jobs import answer, fact, plain, said

from interview.dialogue.wording import finding_sentence
from interview.engineering.life import allowed_cycles
from interview.facts import Origin
from interview.selection.finding import Finding, Verdict
from interview.selection.judge import Bench, judge, known_with


def told(
    on: Bench,
    count: float | tuple[float, float | None],
    peak: float = 200,
    construction: str = "en853-2sn",
    bore: float = 8,
    measured: bool = False,
) -> tuple[Finding, str]:
    low, high = count if isinstance(count, tuple) else (count, count)
    job = plain(bore=bore, working_pressure=peak / 2, cycle_rate=(low / 100, None if high is None else high / 100))
    known = said(**{**job, "hours_per_year": 100, "wanted_life": 1}).with_fact(
        fact("surge_pressure", peak, Origin.MEASURED if measured else Origin.STATED)
    )
    found = answer(judge(known_with(known, on), on), "cycles", construction, bore)
    assert isinstance(found, Finding)
    return found, finding_sentence(found, "metric")


def line(on: Bench, peak: float, construction: str = "en853-2sn", bore: float = 8) -> float:
    entry = on.tables.constructions[construction]
    rated = next(s.wp_select for s in entry.sizes if s.bore == bore)
    return allowed_cycles(
        peak * 1e5, rated, entry.impulse_cycles or 0, entry.impulse_percent[bore], entry.burst_ratio or 4
    )


def test_the_number_of_strokes_is_an_order_of_magnitude(on: Bench) -> None:
    """200 bar on 275: (4 x 275 / 200) to the 11.1th is 160 million; no more than two of its digits are said."""
    found, words = told(on, 200_000)
    assert "about 160 million at this peak, give or take a factor of 8" in words
    assert isinstance(found.have, float) and f"{found.have:,.0f}" not in words
    assert found.have == pytest.approx(line(on, 200))


def test_both_sources_are_named(on: Bench) -> None:
    """The standard's test speaks for its own count; what carries it elsewhere is named beside it."""
    found, words = told(on, 200_000)
    entry = on.tables.constructions["en853-2sn"]
    assert found.evidence is not None
    assert entry.evidence["impulse"].source in found.evidence.source and "SAE J1927" in found.evidence.source
    assert found.evidence.tag.value == "restated" or entry.evidence["impulse"].tag.value not in ("standard", "restated")
    assert f"{entry.impulse_cycles:,.0f} strokes at {entry.impulse_percent[8]:g} % of the rating" in words


def test_an_extrapolated_line_says_so(on: Bench) -> None:
    assert "extrapolated" in told(on, 200_000, 200)[1]
    assert "extrapolated" not in told(on, 200_000, 275)[1], "the peak is the rating: within what the line is stated for"
    assert "wire hose" in told(on, 200_000, 100, "saej517-100r7")[1], "a braid of fibre is not what the line is for"


@pytest.mark.parametrize(("measured", "spread"), [(False, 8), (True, 3)])
def test_the_words_are_no_kinder_than_the_finding(on: Bench, measured: bool, spread: int) -> None:
    best = line(on, 275)
    said_of = [
        told(on, best * share, 275, measured=measured)
        for share in (0.99 / spread, 1.01 / spread, 0.99, 1.01, spread * 0.99, spread * 1.01)
    ]
    assert [f.reason for f, _ in said_of] == ["cycles", *["cycles_near"] * 2, *["cycles_beyond"] * 2, "cycles"]
    assert [f.verdict for f, _ in said_of] == [*[Verdict.FITS] * 5, Verdict.FAILS]
    assert "does not reach" in said_of[1][1] and "more than that figure" in said_of[3][1]
    assert "beyond even the top" in said_of[5][1]
    for found, words in said_of:
        assert f"a factor of {spread}" in words and "within what" not in words
        assert found.remark == (found.reason in ("cycles_near", "cycles_beyond"))


def test_strokes_with_no_upper_figure_are_said_so(on: Bench) -> None:
    found, words = told(on, (200_000, None))
    assert found.remark and "200,000 or more are wanted" in words
