"""What lies on the shelf: it comes first where it does, its maker's word counts only with papers, old hose never.

The rule on ratings above the standard's row and the age at build are the house's (DESIGN, Safety and House rules).
"""

from __future__ import annotations

import pytest
from selection_jobs import PSI, index, judged, plain, shipped

from interview.dialogue.wording import remark_sentence
from interview.reference.model import Tag
from interview.selection.assembly import assemble
from interview.selection.candidates import Candidate
from interview.selection.choice import STEPS, Preferred, Ranking, recommend
from interview.selection.finding import Finding, Remark, Verdict
from interview.selection.judge import Bench, Judgement
from interview.selection.shelf import Item

BAR = 1e5
ROW = 250 * BAR  # EN 857 2SC at -10 (restated), held against the table below
PAPERS = {"document": "data sheet D-12", "dated": "2026-03-01"}


def stocked(*items: Item) -> Bench:
    on = shipped()
    return Bench.of(on.tables, on.connections, on.rules, items)


def item(name: str = "bin 14", construction: str = "en857-2sc", bore: float = 10, **more: object) -> Item:
    return Item(name, construction, bore, **more)  # type: ignore[arg-type]


def chosen(on: Bench, **changes: object) -> tuple[Candidate, Preferred, Judgement]:
    judgement = judged(on, **plain(**changes))
    found = recommend(judgement, Ranking.of(judgement.needs, on, "metric"))
    assert found is not None
    return on.candidates[found.index], found, judgement


def told(judgement: Judgement, at: int) -> list[str]:
    return [r.reason for r in judgement.remarks(at) if r.check == "shelf"]


def test_the_row_that_the_tests_speak_of() -> None:
    on = shipped()
    row = on.candidates[index(on, "en857-2sc", 10)]
    assert row.row_rating == row.size.wp_select == ROW and not row.items and not row.own


def test_without_a_shelf_nothing_is_on_it() -> None:
    candidate, found, judgement = chosen(shipped())
    assert candidate.items == () and candidate.item_for(None) is None
    assert told(judgement, found.index) == []


def test_what_lies_on_the_shelf_comes_before_the_usual_kind() -> None:
    bare, _, _ = chosen(shipped())
    assert bare.id != "en856-4sp"
    candidate, found, judgement = chosen(stocked(item(construction="en856-4sp")))
    assert (candidate.id, candidate.own, found.decided_by) == ("en856-4sp", "", "on the shelf")
    assert told(judgement, found.index) == ["shelf"]
    assert found.decided_by in STEPS


def test_but_never_before_what_fits() -> None:
    """A hose that fails is not built because it is there."""
    weak = stocked(item(construction="en854-1te"))
    candidate, _, judgement = chosen(weak)
    assert judgement.verdict(index(weak, "en854-1te", 10)) is Verdict.FAILS
    assert candidate.id != "en854-1te"


@pytest.mark.parametrize(
    ("more", "bears"),
    [
        ({}, ROW),
        ({"rating": 251 * BAR}, ROW),  # 0.4 %: the rounding of printed pairs
        ({"rating": 300 * BAR}, ROW),  # no papers
        ({"rating": 300 * BAR, "document": "data sheet D-12"}, ROW),  # no date
        ({"rating": 300 * BAR, "dated": "2026-03-01"}, ROW),  # no document
        ({"rating": 300 * BAR, **PAPERS}, 300 * BAR),
        ({"rating": 200 * BAR}, 200 * BAR),  # a maker who says less is believed at once
    ],
)
def test_what_an_item_bears(more: dict[str, object], bears: float) -> None:
    on = stocked(item(**more))
    (holder,) = [c for c in on.candidates if c.items]
    assert holder.size.wp_select == bears
    assert bool(holder.own) is (bears != ROW)
    assert on.candidates[index(on, "en857-2sc", 10)].size.wp_select == ROW  # the standard's row stays what it is
    assert len(on.candidates) == len(shipped().candidates) + bool(holder.own)


def test_a_rating_by_papers_is_judged_and_named_as_such() -> None:
    on = stocked(item(rating=400 * BAR, **PAPERS))
    facts = plain(surge_pressure=340, end_a_family="other", end_b_family="other", end_a_rating=420, end_b_rating=420)
    judgement = judged(on, **facts)
    own = len(on.candidates) - 1
    finding = next(f for f in judgement.findings(own) if f.check == "pressure")
    assert (finding.verdict, finding.have) == (Verdict.FITS, 400 * BAR)
    assert finding.evidence is not None and finding.evidence.tag is Tag.MAKER
    assert "data sheet D-12, 2026-03-01" in finding.evidence.source
    assert judgement.verdict(index(on, "en857-2sc", 10)) is Verdict.FAILS
    # Twice the rating, and never above the test pressure the standard's row states (DESIGN, Safety).
    proof = on.candidates[own].size.proof
    assert proof is not None and assemble(judgement.needs, on.candidates[own]).proof == min(800 * BAR, proof)


def test_the_type_test_speaks_for_the_row_s_pressure_only() -> None:
    """Strokes at a peak above the row's rating: nobody tested that, so it is advice, never a pass by the line."""
    on = stocked(item(rating=400 * BAR, **PAPERS))
    judgement = judged(on, **plain(surge_pressure=340, cycle_rate=600))
    answers = [a for a in map(lambda row: row.answer(len(on.candidates) - 1), judgement.rows) if a is not None]
    assert [a.reason for a in answers if a.check == "cycles" and isinstance(a, Remark)] == ["impulse_not_known"]
    assert not [a for a in answers if a.check == "cycles" and isinstance(a, Finding)]


def test_a_rating_said_in_psi_is_compared_in_psi() -> None:
    """A need of 5,000 psi meets an item of 5,000 psi (DESIGN 3: in the unit the row prints)."""
    on = stocked(item(rating=5000 * PSI, psi=5000.0, **PAPERS))
    assert on.candidates[-1].psi == 5000.0 and on.candidates[-1].size.psi_printed == 5000.0


@pytest.mark.parametrize(
    ("more", "reason", "first"),
    [
        ({"left": 2.0, "left_said": "2 m"}, "shelf_left", True),
        ({"left": 1.44, "left_said": "1.44 m"}, "shelf_short", False),  # 1450 mm is asked for
        ({"too_old": True, "made": "2019-Q2"}, "shelf_aged", False),
        ({"rating": 300 * BAR}, "shelf_unproven", True),
    ],
)
def test_what_speaks_against_an_item(more: dict[str, object], reason: str, first: bool) -> None:
    on = stocked(item(construction="en856-4sp", **more) if "rating" not in more else item(**more))
    place = next(c.index for c in on.candidates if c.items)
    candidate, _, judgement = chosen(on)
    assert told(judgement, place) == [reason]
    assert (candidate.index == place) is first


def test_an_aged_item_is_never_a_hose_of_its_own() -> None:
    """Its papers lend it nothing: what passes by an aged hose's rating would be built from it."""
    on = stocked(item(rating=400 * BAR, too_old=True, made="2019-Q2", **PAPERS))
    assert len(on.candidates) == len(shipped().candidates)
    assert on.candidates[index(on, "en857-2sc", 10)].item_for(None) is None


def test_the_item_that_is_long_enough_is_taken() -> None:
    on = stocked(item("bin 1", left=1.0, left_said="1 m"), item("bin 2", left=9.0, left_said="9 m"))
    candidate = on.candidates[index(on, "en857-2sc", 10)]
    found = [candidate.item_for(length) for length in (0.5, 1.45, 12.0, None)]
    assert [one.name if one else None for one in found] == ["bin 1", "bin 2", None, "bin 1"]


def test_non_conductive_only_where_the_hose_itself_is_marked() -> None:
    """DESIGN, Safety: a thermoplastic row counts as non-conductive only once the hose itself is so marked."""
    on = stocked(item("orange", "saej517-100r7", 8, non_conductive=True), item("black", "saej517-100r7", 8))
    facts = plain(bore=8, non_conductive=True, near_power_line=True, working_pressure=90, surge_pressure=110)
    judgement = judged(on, **facts)
    verdicts = {
        c.own: {f.verdict for f in judgement.findings(c.index) if f.check == "electrical"}
        for c in on.candidates
        if c.items
    }
    assert verdicts == {"orange": {Verdict.FITS}, "": {Verdict.OPEN}}


def test_a_live_line_never_lets_a_wire_hose_pass_by_a_tick_in_a_list() -> None:
    """Wire conducts, whatever a spreadsheet says of it."""
    on = stocked(item(non_conductive=True))
    judgement = judged(on, **plain(non_conductive=True, near_power_line=True))
    assert all(judgement.verdict(c.index) is Verdict.FAILS for c in on.candidates if c.items)


def test_pieces_are_reckoned_together() -> None:
    """Four of 1,450 mm take 5.8 m, and what waste in cutting takes is not reckoned."""
    on = stocked(item(left=5.0, left_said="5 m"))
    place = index(on, "en857-2sc", 10)
    assert told(judged(on, **plain(quantity=3)), place) == ["shelf_left"]
    assert told(judged(on, **plain(quantity=4)), place) == ["shelf_short"]
    assert chosen(on, quantity=4)[1].decided_by != "on the shelf"


def test_what_is_to_be_looked_at_is_said() -> None:
    on = stocked(
        item(rating=300 * BAR, **PAPERS), item("orange", "saej517-100r7", 8, non_conductive=True, made="2026-Q1")
    )
    judgement = judged(on, **plain())
    words = {
        c.own: [remark_sentence(r, "metric") for r in judgement.remarks(c.index) if r.check == "shelf"]
        for c in on.candidates
        if c.own
    }
    (rated,), (marked,) = words["bin 14"], words["orange"]
    assert "by data sheet D-12, 2026-03-01: see that it covers this hose" in rated and "its date is not listed" in rated
    assert "see the marking on the hose itself" in marked and "date is not listed" not in marked
