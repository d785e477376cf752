"""What do the old hose's print, dates and failure tell? Remarks only: the old hose proves nothing about the new one.

Ages: hose at build, assembly in store and service life are house rules (DIN 20066, DGUV 113-020, restated). A pressure
on the print never counts above the standard's row: a higher figure needs the maker's document.
"""

from __future__ import annotations

import calendar
import datetime
import re

from interview.facts import Known, Origin
from interview.reference.model import COMMON_PRACTICE, Construction, HoseSize
from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.finding import Answer, Remark
from interview.selection.needs import Needs

DATE = re.compile(r"(?P<year>\d{4})(?:-(?:Q(?P<quarter>[1-4])|(?P<month>\d{2})(?:-(?P<day>\d{2}))?))?\Z")
DATES = ("hose_date", "assembly_date", "fitted_date")
BENT_TOO_FAR = frozenset(("burst_outer_bend", "kinked"))


def today() -> datetime.date:
    """The one place where the clock is read."""
    return datetime.date.today()


def period(text: str) -> tuple[datetime.date, datetime.date] | None:
    """First and last day of a date, a month, a quarter or a year; None for words such as "friday" and for no date.

    >>> period("2019-Q3")
    (datetime.date(2019, 7, 1), datetime.date(2019, 9, 30))
    """
    found = DATE.match(text)
    if found is None:
        return None
    year = int(found["year"])
    try:
        if found["quarter"]:
            return _months(year, 3 * int(found["quarter"]) - 2, 3 * int(found["quarter"]))
        if found["day"]:
            day = datetime.date(year, int(found["month"]), int(found["day"]))
            return day, day
        if found["month"]:
            return _months(year, int(found["month"]), int(found["month"]))
        return _months(year, 1, 12)
    except ValueError:
        return None


def _months(year: int, first: int, last: int) -> tuple[datetime.date, datetime.date]:
    end = calendar.monthrange(year, last)[1]
    return datetime.date(year, first, 1), datetime.date(year, last, end)


def years(start: datetime.date, end: datetime.date) -> float:
    """Years from one day to another; a year is 365.25 days."""
    return (end - start).days / 365.25


def _said(known: Known, name: str) -> tuple[datetime.date, datetime.date] | None:
    text = known.text(name)
    return None if text is None else period(text)


def _between(known: Known, start: str, end: str) -> float | None:
    """The longest time that two dates leave open, in years; None where one is not known or they are in wrong order."""
    first, last = _said(known, start), _said(known, end)
    if first is None or last is None or last[1] < first[0]:
        return None
    return years(first[0], last[1])


def judge_future(needs: Needs, candidate: Candidate) -> Answer:
    """A date that has not come yet was read wrong."""
    for name in DATES:
        said = _said(needs.known, name)
        if said is not None and said[0] > today():
            return Remark("dates", "job", "date_in_future", data={"date": needs.known.text(name)})
    return None


def judge_age(needs: Needs, candidate: Candidate) -> Answer:
    """Older than hose may be at build: fresh hose for the new one, and the others of its age are due."""
    said = _said(needs.known, "hose_date")
    ages = needs.rules.ages
    if said is None or said[0] > today():
        return None
    age = years(said[0], today())
    if age <= ages.hose_at_build:
        return None
    data = {"date": needs.known.text("hose_date"), "age": age, "limit": ages.hose_at_build, "source": ages.source}
    reason = "stock_hose_aged" if needs.known.text("job_kind") == "new_line" else "old_hose_aged"
    return Remark("aged_hose", "job", reason, data=data)


def judge_age_at_build(needs: Needs, candidate: Candidate) -> Answer:
    ages = needs.rules.ages
    age = _between(needs.known, "hose_date", "assembly_date")
    if age is None or age <= ages.hose_at_build:
        return None
    return Remark(
        "hose_age_at_build",
        "job",
        "built_from_aged",
        data={"age": age, "limit": ages.hose_at_build, "source": ages.source},
    )


def judge_store(needs: Needs, candidate: Candidate) -> Answer:
    ages = needs.rules.ages
    age = _between(needs.known, "assembly_date", "fitted_date")
    if age is None or age <= ages.assembly_in_store:
        return None
    return Remark(
        "time_in_store", "job", "stored_long", data={"age": age, "limit": ages.assembly_in_store, "source": ages.source}
    )


def judge_service(needs: Needs, candidate: Candidate) -> Answer:
    """Service life runs from the build; the day it was fitted stands in where the build is not known."""
    said = _said(needs.known, "assembly_date") or _said(needs.known, "fitted_date")
    ages = needs.rules.ages
    if said is None or said[0] > today():
        return None
    age = years(said[0], today())
    if age <= ages.service:
        return None
    return Remark("service_age", "job", "served_long", data={"age": age, "limit": ages.service, "source": ages.source})


def old_row(known: Known) -> tuple[Construction, HoseSize] | None:
    """The old hose's row of the tables, by the bore, else by the dash printed."""
    entry = load_tables().constructions.get(known.text("old_construction") or "")
    if entry is None:
        return None
    bore, dash = known.low("bore"), known.low("marked_size")
    for size in entry.sizes:
        if (bore is not None and size.bore == bore == known.high("bore")) or (
            bore is None and dash is not None and size.marked_dash == dash
        ):
            return entry, size
    return None


def judge_sample(needs: Needs, candidate: Candidate) -> Answer:
    """A sample proves geometry only; one that was not right for the machine does not even prove that."""
    known = needs.known
    if known.text("job_kind") != "sample" or not known.answered("sample_right") or known.flag("sample_right"):
        return None
    reason = "sample_unproven" if known.flag("sample_right") is None else "sample_wrong"
    return Remark("sample", "job", reason, COMMON_PRACTICE)


def judge_old_length(needs: Needs, candidate: Candidate) -> Answer:
    tight = needs.known.flag("length_was_tight")
    return Remark("old_length", "routing", "old_length_wrong", COMMON_PRACTICE) if tight else None


def judge_legacy(needs: Needs, candidate: Candidate) -> Answer:
    """A hose marked before its standard was raised may carry less than the row of today says."""
    found = old_row(needs.known)
    if found is None:
        return None
    entry, size = found
    older = entry.legacy_wp.get(size.marked_dash if size.marked_dash is not None else size.bore)
    if older is None or older >= size.wp_select:
        return None
    return Remark(
        "legacy_marking",
        "job",
        "legacy_marking",
        entry.evidence.get("legacy"),
        {"type": entry.type.split(" (")[0], "older": older, "row": size.wp_select},
    )


def judge_print(needs: Needs, candidate: Candidate) -> Answer:
    """A pressure printed above the standard's row: the row governs until the maker's document is there."""
    found, printed = old_row(needs.known), needs.known.low("old_rating")
    if found is None or printed is None:
        return None
    entry, size = found
    if printed <= size.wp * (1 + needs.rules.pressure_rounding_percent / 100):
        return None
    return Remark(
        "old_rating",
        "job",
        "print_above_row",
        size.evidence.get("working_pressure"),
        {"type": entry.type.split(" (")[0], "printed": printed, "row": size.wp},
    )


def judge_dash(needs: Needs, candidate: Candidate) -> Answer:
    """On 100R5 and 100R14 the printed dash is the tube the hose mates with (SAE J517): a bore said may be that dash."""
    known = needs.known
    entry = load_tables().constructions.get(known.text("old_construction") or "")
    bore = known.low("bore")
    if entry is None or bore is None or known.has("marked_size") or known.origin("bore") is Origin.MEASURED:
        return None
    read_wrong = next((s for s in entry.sizes if s.marked_dash == bore and s.bore != bore), None)
    if read_wrong is None:
        return None
    return Remark(
        "printed_dash",
        "size",
        "dash_is_a_tube",
        read_wrong.evidence.get("id"),
        {"type": entry.type.split(" (")[0], "dash": bore, "true": round(read_wrong.nominal_bore * 1e3, 1)},
    )


def _bent_too_far(needs: Needs) -> bool:
    return bool(BENT_TOO_FAR & set(needs.known.many("failure_sign") or ()))


def judge_old_bend(needs: Needs, candidate: Candidate) -> Answer:
    """The old hose kinked or burst on the outside of a bend: one that bends no tighter meets the same bend."""
    found = old_row(needs.known)
    radius = candidate.size.bend_radius
    if found is None or found[1].bend_radius is None or radius is None or radius < found[1].bend_radius:
        return None
    return Remark(
        "failure",
        "routing",
        "old_bend_failed",
        candidate.size.evidence.get("bend_radius"),
        {"radius": radius, "type": found[0].type.split(" (")[0], "old": found[1].bend_radius},
    )


CHECKS = (
    check("dates", "job", " ".join(DATES), judge_future, "job"),
    check("aged_hose", "job", "hose_date job_kind", judge_age, "job"),
    check("hose_age_at_build", "job", "hose_date assembly_date", judge_age_at_build, "job"),
    check("time_in_store", "job", "assembly_date fitted_date", judge_store, "job"),
    check("service_age", "job", "assembly_date fitted_date", judge_service, "job"),
    check("sample", "job", "job_kind sample_right", judge_sample, "job"),
    check("old_length", "routing", "length_was_tight", judge_old_length, "job"),
    check("legacy_marking", "job", "old_construction bore marked_size", judge_legacy, "job"),
    check("old_rating", "job", "old_construction bore marked_size old_rating", judge_print, "job"),
    check("printed_dash", "size", "old_construction bore marked_size", judge_dash, "job"),
    check("failure", "routing", "failure_sign old_construction bore marked_size", judge_old_bend, speaks=_bent_too_far),
)
