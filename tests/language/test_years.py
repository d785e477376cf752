"""Is a year alone the date of a hose, and only where the words say so?"""

from __future__ import annotations

import datetime

import pytest

from interview.language.listen import listen
from interview.language.show import show
from interview.selection.checks.history import period


@pytest.mark.parametrize(
    ("line", "fact", "year"),
    [
        ("hose from 2014", "hose_date", "2014"),
        ("made 2014", "hose_date", "2014"),
        ("hose was made in 2014", "hose_date", "2014"),
        ("made in 2014, no, 2015", "hose_date", "2015"),
        ("fitted in 2019", "fitted_date", "2019"),
        ("it was fitted new back in 2018 and burst last week", "fitted_date", "2018"),
        ("replaced it in 2021, 2500 psi", "fitted_date", "2021"),
        ("crimped 2017", "assembly_date", "2017"),
    ],
)
def test_a_year_behind_the_word_of_a_date_is_read(line: str, fact: str, year: str) -> None:
    heard = listen(line).fact(fact)
    assert heard is not None and heard.value == year


@pytest.mark.parametrize(
    ("answer", "hedged"),
    [("2014", False), ("in 2014", False), ("it's from 2014 I think", True), ("about 2014", True)],
)
@pytest.mark.parametrize("asked", ["hose_date", "assembly_date", "fitted_date"])
def test_a_year_answers_a_question_about_a_date(answer: str, hedged: bool, asked: str) -> None:
    heard = listen(answer, asked=(asked,)).fact(asked)
    assert heard is not None and (heard.value, heard.hedged) == ("2014", hedged)


def test_four_digits_that_may_be_a_year_and_a_month_are_asked_back() -> None:
    (unclear,) = listen("2012", asked=("hose_date",)).unclear
    assert [r.value for r in unclear.readings] == ["2020-12", "2012"]


def test_the_rules_of_age_take_the_first_day_of_the_year() -> None:
    heard = listen("made 2014").fact("hose_date")
    assert heard is not None
    span = period(str(heard.value))
    assert span is not None and span[0] == datetime.date(2014, 1, 1)


def test_it_is_said_that_only_the_year_was_given() -> None:
    assert show("hose_date", "2014") == "2014, only the year was given"
    assert show("hose_date", "2014-Q3") == "2014-Q3"


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("part number 2014", "hose_date"),
        ("2014 psi", "hose_date"),
        ("2014 or 2015", "hose_date"),
        ("2014", "needed_by"),
        ("2014", "working_pressure"),
        ("works at 2014 psi", ""),
        ("hose of 2000 psi", ""),
        ("hose from 2000 to 2500 psi", ""),
        ("hose from a 2014 loader", ""),
        ("made 2000 of them", ""),
        ("we made 2000", ""),
        ("the pump made 2000", ""),
        ("changed from 1800 to 2000", ""),
        ("changed 2000", ""),
        ("put in 2000", ""),
        ("fitted 2000 hoses", ""),
        ("model 2014, 1/2 hose", ""),
        ("ring me on 2014", ""),
        ("hose 2000 long", ""),
        ("made 1850", ""),
    ],
)
def test_a_number_that_is_no_date_stays_none(line: str, asked: str) -> None:
    heard = listen(line, asked=(asked,) if asked else ())
    assert not {"hose_date", "assembly_date", "fitted_date", "needed_by"} & {f.name for f in heard.facts}
