"""What is to be known of a hose that lies on the shop's shelf? Advice only: what it bears is judged as of any hose."""

from __future__ import annotations

from interview.facts import Known
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.finding import Answer, Remark
from interview.selection.house_rules import HouseRules
from interview.selection.needs import Needs
from interview.selection.shelf import SAME, Item


def judge_shelf(needs: Needs, candidate: Candidate) -> Answer:
    if not candidate.items:
        return None
    length = length_asked(needs.known)
    return told_of(candidate.item_for(length) or candidate.items[0], candidate.row_rating, needs.rules, length)


def length_asked(known: Known) -> float | None:
    """All pieces together, m; waste in cutting is not reckoned."""
    length, pieces = known.high("overall_length"), known.high("quantity")
    return length if length is None or pieces is None else length * max(pieces, 1.0)


def told_of(item: Item, row: float, rules: HouseRules, length: float | None = None) -> Remark:
    """What speaks against an item first: too old, too short for a length in m, more claimed than its papers show.

    `row` is what the standard's row bears, in pascal.
    """
    data: dict[str, object] = {"item": item.name, "left": item.left_said}
    if item.too_old:
        data |= {"date": item.made, "limit": rules.ages.hose_at_build}
        return Remark("shelf", "delivery", "shelf_aged", data=data)
    if not item.covers(length):
        return Remark("shelf", "delivery", "shelf_short", data={**data, "asked": length})
    if item.rating is not None and item.rating > row * (1 + SAME) and not item.proven:
        return Remark("shelf", "delivery", "shelf_unproven", data={**data, "claimed": item.rating, "borne": row})
    data["undated"] = not item.made
    data["marked"] = item.non_conductive
    if item.bears(row) != row and item.proven:
        data |= {"document": item.document, "dated": item.dated}
    return Remark("shelf", "delivery", "shelf_left" if item.left_said else "shelf", data=data)


CHECKS = (check("shelf", "delivery", "overall_length quantity", judge_shelf),)
