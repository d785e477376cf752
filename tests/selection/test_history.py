"""What the old hose's dates, print and failed bend tell: remarks with figures, and never a verdict.

Outside sources: hose at build 4 years, assemblies 2 years in store, 6 years from build: DIN 20066 and DGUV 113-020 as
restated. SAE J517 raised 100R1 and 100R2 working pressures; 100R2AT -8 was 3500 psi (24.5 MPa) before, 4000 psi since.
EN 857:2015: 2SC DN 12 bends to 130 mm; EN 853:2015: 2SN DN 12 to 180 mm (inside of the bend).
"""

from __future__ import annotations

import datetime
from collections.abc import Iterator

import pytest

from interview.dialogue.wording import remark_sentence
from interview.facts import Fact, Known, Origin, Value
from interview.selection.checks import history
from interview.selection.choice import Ranking
from interview.selection.finding import Finding, Remark
from interview.selection.judge import Bench, judge, known_with

TODAY = datetime.date(2026, 3, 1)


@pytest.fixture(autouse=True)
def _clock(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    monkeypatch.setattr(history, "today", lambda: TODAY)
    yield


def remarks(on: Bench, hose: str = "en853-2sn", /, **facts: Value) -> dict[str, Remark]:
    """The remarks of the history checks on one hose."""
    judged = judge(known_with(Known({n: Fact(n, v) for n, v in facts.items()}), on), on)
    index = next(i for i, c in enumerate(on.candidates) if c.id == hose and c.bore == 8)
    own = {c.id for c in history.CHECKS}
    assert not any(isinstance(f, Finding) and f.check in own for f in judged.findings(index)), "history never judges"
    return {r.check: r for r in judged.remarks(index) if isinstance(r, Remark) and r.check in own}


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("2019-Q3", (2019, 7, 1), (2019, 9, 30)),
        ("2024-02", (2024, 2, 1), (2024, 2, 29)),
        ("2026-03-14", (2026, 3, 14), (2026, 3, 14)),
        ("2022", (2022, 1, 1), (2022, 12, 31)),
    ],
)
def test_a_date_is_a_period(text: str, first: tuple[int, int, int], last: tuple[int, int, int]) -> None:
    assert history.period(text) == (datetime.date(*first), datetime.date(*last))


@pytest.mark.parametrize("text", ["friday", "2019-Q5", "2019-13", "2023-02-30", "", "19-07", "2019-Q3 or so"])
def test_what_is_no_date_is_none(text: str) -> None:
    assert history.period(text) is None


@pytest.mark.parametrize(
    ("date", "due"),
    [
        ("2021-Q4", True),
        ("2022-03-02", False),
        ("2022-02", True),
        ("2025-Q1", False),
    ],
)
def test_hose_past_the_house_rule_is_said_to_be_due(on: Bench, date: str, due: bool) -> None:
    """Four years before 1 March 2026 is 1 March 2022; of a quarter or a month the older reading counts."""
    assert ("aged_hose" in remarks(on, hose_date=date, job_kind="failed_hose")) == due


def test_stock_hose_is_too_old_to_build_from(on: Bench) -> None:
    assert remarks(on, hose_date="2020-Q1", job_kind="new_line")["aged_hose"].reason == "stock_hose_aged"
    assert remarks(on, hose_date="2020-Q1", job_kind="sample")["aged_hose"].reason == "old_hose_aged"


def test_a_date_to_come_is_doubted_and_makes_no_age(on: Bench) -> None:
    found = remarks(on, hose_date="2026-Q2")
    assert set(found) == {"dates"}
    assert "2026-Q2" in remark_sentence(found["dates"], "metric")


def test_depot_tags(on: Bench) -> None:
    """The winter depot's tags, as of 1 March 2026: B hose 1Q18, ring 2207 (made from hose 54 months old and more);
    C ring 2304, on the shelf until October 2025 (30 months and more)."""
    tag_b = remarks(on, hose_date="2018-Q1", assembly_date="2022-07")
    assert {"aged_hose", "hose_age_at_build"} <= set(tag_b)
    assert tag_b["hose_age_at_build"].data["age"] == pytest.approx(54 / 12, abs=0.12)
    tag_c = remarks(on, assembly_date="2023-04", fitted_date="2025-10")
    assert tag_c["time_in_store"].data["age"] == pytest.approx(30 / 12, abs=0.1)
    tag_a = remarks(on, hose_date="2022-Q3", assembly_date="2023-06", fitted_date="2024-01")
    assert tag_a == {}


def test_service_runs_from_the_build(on: Bench) -> None:
    assert "service_age" in remarks(on, assembly_date="2019-12", fitted_date="2021-01")
    assert "service_age" not in remarks(on, assembly_date="2020-06")
    assert "service_age" in remarks(on, fitted_date="2019-05")


def test_dates_the_wrong_way_round_make_no_age(on: Bench) -> None:
    assert "hose_age_at_build" not in remarks(on, hose_date="2023-Q1", assembly_date="2021-05")


def test_an_old_mark_may_mean_less(on: Bench) -> None:
    found = remarks(on, old_construction="saej517-100r2at", bore=8.0)["legacy_marking"]
    assert found.data["older"] == pytest.approx(245e5) and found.data["row"] == pytest.approx(275e5)
    assert "245 bar" in remark_sentence(found, "metric")
    assert "legacy_marking" not in remarks(on, old_construction="en853-2sn", bore=8.0)
    assert "legacy_marking" not in remarks(on, old_construction="saej517-100r2at")  # no size, no figure


def test_the_row_governs_a_print_above_it(on: Bench) -> None:
    """EN 853:2015: 2SN DN 12 is 275 bar."""
    assert "old_rating" in remarks(on, old_construction="en853-2sn", bore=8.0, old_rating=350e5)
    assert "old_rating" not in remarks(on, old_construction="en853-2sn", bore=8.0, old_rating=276e5)  # a rounded pair


def test_the_printed_dash_finds_the_row_of_a_tube_size_hose(on: Bench) -> None:
    """100R5 -8 has a bore of 10.3 mm and 2000 psi: its dash is the tube it mates with (SAE J517)."""
    found = remarks(on, old_construction="saej517-100r5", marked_size=8.0, old_rating=160e5)
    assert found["old_rating"].data["row"] == pytest.approx(140e5, rel=0.02)


@pytest.mark.parametrize(("hose", "advised"), [("en853-2sn", True), ("en856-4sp", True), ("en857-2sc", False)])
@pytest.mark.parametrize("sign", ["kinked", "burst_outer_bend"])
def test_a_hose_that_bends_no_tighter_meets_the_same_bend(on: Bench, hose: str, advised: bool, sign: str) -> None:
    found = remarks(on, hose, failure_sign=(sign,), old_construction="en853-2sn", bore=8.0)
    assert ("failure" in found) == advised
    if advised:
        assert "180 mm" in remark_sentence(found["failure"], "metric")


def test_another_sign_says_nothing_about_the_bend(on: Bench) -> None:
    assert "failure" not in remarks(on, failure_sign=("abraded",), old_construction="en853-2sn", bore=8.0)


def test_a_sample_that_was_not_right_is_said_to_prove_nothing(on: Bench) -> None:
    assert remarks(on, job_kind="sample", sample_right=False)["sample"].reason == "sample_wrong"
    assert "sample" not in remarks(on, job_kind="sample", sample_right=True)
    assert "sample" not in remarks(on, job_kind="sample")
    unknown = Known(
        {"job_kind": Fact("job_kind", "sample"), "sample_right": Fact("sample_right", None, Origin.UNKNOWN)}
    )
    judged = judge(known_with(unknown, on), on)
    assert any(isinstance(r, Remark) and r.reason == "sample_unproven" for r in judged.remarks(0))


def test_a_wrong_sample_is_not_preferred_again(on: Bench) -> None:
    facts: dict[str, Value] = {"job_kind": "sample", "old_construction": "en856-4sp", "line_function": "pressure"}

    def old(right: bool) -> str | None:
        known = Known({n: Fact(n, v) for n, v in {**facts, "sample_right": right}.items()})
        return Ranking.of(judge(known_with(known, on), on).needs, on, "metric").old_id

    assert (old(True), old(False)) == ("en856-4sp", None)


def test_the_printed_dash_gives_the_true_bore(on: Bench) -> None:
    """SAE J517: 100R5 -8 is 13/32 in (10.3 mm), 6.5 sixteenths; on an ordinary hose -8 is a half inch."""

    def bore(hose: str) -> Value:
        known = Known({"old_construction": Fact("old_construction", hose), "marked_size": Fact("marked_size", 8.0)})
        return known_with(known, on).value("bore")

    assert (bore("saej517-100r5"), bore("saej517-100r14b"), bore("en853-2sn")) == (6.5, 6.5, 8.0)
    said = Known(
        {
            "old_construction": Fact("old_construction", "saej517-100r5"),
            "bore": Fact("bore", 8.0),
            "marked_size": Fact("marked_size", 8.0),
        }
    )
    assert known_with(said, on).value("bore") == 8.0  # what was said is never overridden


def test_a_bore_said_of_a_tube_size_hose_may_be_its_dash(on: Bench) -> None:
    found = remarks(on, old_construction="saej517-100r5", bore=8.0)["printed_dash"]
    assert "10.3 mm" in remark_sentence(found, "metric")
    assert "printed_dash" not in remarks(on, old_construction="saej517-100r5", bore=8.0, marked_size=10.0)
    assert "printed_dash" not in remarks(on, old_construction="en853-2sn", bore=8.0)


def test_every_reason_has_words(on: Bench) -> None:
    facts: dict[str, Value] = {
        "hose_date": "2010-Q1",
        "assembly_date": "2016-01",
        "fitted_date": "2019-01",
        "job_kind": "failed_hose",
        "old_construction": "saej517-100r2at",
        "bore": 8.0,
        "old_rating": 400e5,
        "failure_sign": ("kinked",),
        "length_was_tight": True,
    }
    found = remarks(on, **facts)
    assert set(found) == {c.id for c in history.CHECKS} - {"dates", "sample", "printed_dash"}
    for home in ("metric", "us"):
        assert all("{" not in remark_sentence(r, home) for r in found.values())


def test_the_clock_is_the_machines_own(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    assert abs((history.today() - datetime.date.today()).days) <= 1
