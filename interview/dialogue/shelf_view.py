"""What is on the shelf, in words: each item, what it bears and by whose word, and what speaks against it?"""

from __future__ import annotations

from collections.abc import Iterator

from interview.dialogue.wording import hose_name, remark_sentence, sentence
from interview.language.show import show_rating
from interview.selection.candidates import Candidate
from interview.selection.checks.shelf import told_of
from interview.selection.judge import Bench

AT_EASE = ("shelf", "shelf_left")  # nothing speaks against it


def shelf_lines(bench: Bench, home: str) -> list[str]:
    """The items in the order of the tables, those with figures of their own last, then the count."""
    lines = [line for candidate in bench.candidates for line in _items(candidate, bench, home)]
    usable = sum(not item.too_old for item in bench.shelf)
    count = f"{len(bench.shelf)} item{'' if len(bench.shelf) == 1 else 's'}, {usable} to be built from"
    return [*lines, count]


def _items(candidate: Candidate, bench: Bench, home: str) -> Iterator[str]:
    name = hose_name(candidate, home).split(", shelf item")[0]
    evidence = candidate.size.evidence.get("working_pressure")
    for item in candidate.items:
        bears = show_rating(candidate.size.wp_select, home, candidate.psi)
        left = f"; {item.left_said} left" if item.left_said else ""
        marked = "; marked non-conductive" if item.non_conductive else ""
        yield f"{item.name}: {name}, bears {bears}{left}{marked}"
        yield f"  by {evidence.said if evidence is not None else 'nobody'}"
        told = told_of(item, candidate.row_rating, bench.rules)
        if told.reason not in AT_EASE:
            yield f"  {sentence(remark_sentence(told, home))}"
