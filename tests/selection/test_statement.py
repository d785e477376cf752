"""A maker's written statement is one that can be looked up; all that people say instead leaves the standard's word."""

from __future__ import annotations

import pytest
from selection_jobs import finding, judged, plain, said

from interview.selection.finding import Verdict
from interview.selection.judge import Bench
from interview.selection.statement import written

HEARSAY = (
    "no statement, not yet, there isn't one, there is none, we have not got one, I don't have it, nobody asked the "
    "maker, the maker refused, pending, n/a, -, he says it is fine, sure, yes, no, none, no letter of 2024, asked on 3 "
    "May, no 2024 letter, no. none since 2019, will come on 12 June, waiting since 2025, letter promised for 2026, the "
    "2019 one expired"
).split(", ")
PAPERS = (
    "No. 4711 of 3 May 2026",
    "letter no. TR-12",
    "letter of 2 March 2026",
    "document 4711",
    "test report TR-88, 2025-06",
    "maker's data sheet rev 3",
)


@pytest.mark.parametrize("text", HEARSAY)
def test_hearsay_overrules_no_standard(on: Bench, text: str) -> None:
    assert written(said(medium_statement=text), "medium_statement") == ""
    silent, told = (judged(on, **plain(medium="hfdr", **more)) for more in ({}, {"medium_statement": text}))
    assert silent.counts() == told.counts()
    assert finding(told, "medium", "en853-2sn", 10).verdict is Verdict.FAILS  # HFD R is excluded (EN 853:2015 scope)
    zinc = plain(medium="hfc", end_a_metal="STEEL_ZN", end_b_metal="STEEL_ZN")
    assert judged(on, **zinc, fluid_statement=text).counts() == judged(on, **zinc).counts()


@pytest.mark.parametrize("text", PAPERS)
def test_a_document_with_its_number_or_date_does(on: Bench, text: str) -> None:
    told = judged(on, **plain(medium="hfdr", medium_statement=text))
    found = finding(told, "medium", "en853-2sn", 10)
    assert (found.verdict, found.reason, found.data["statement"]) == (Verdict.FITS, "maker_statement", text)
