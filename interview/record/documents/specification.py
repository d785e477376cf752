"""What does the specification record say on paper?

Page one is for the customer: what was asked for, what is proposed, what limits it, what is assumed or open, and
where to sign. The evidence follows, so that somebody who was not there understands it a year later.
"""

from __future__ import annotations

from collections.abc import Iterable

from interview.catalogue import CATALOGUE
from interview.record.documents import phrases
from interview.record.documents import words as w
from interview.record.documents.evidence import closing, evidence
from interview.record.documents.page import (
    NOT_FILED,
    Filed,
    Heading,
    Lead,
    Page,
    PageBreak,
    Pairs,
    Sheet,
    SignLines,
    Words,
)
from interview.record.model import AssumptionLine, Record

TITLE = "Hose assembly specification"
ASKED_FIRST = (
    "machine",
    "line_tag",
    "line_function",
    "failure_sign",
    "layline",
    "quantity",
    "needed_by",
    "certificate",
)


def specification(record: Record, filed: Filed = NOT_FILED) -> Page:
    sheet = Sheet()
    _front(sheet, record, filed)
    sheet.add(PageBreak())
    evidence(sheet, record)
    closing(sheet, record, filed)
    return phrases.page_of(TITLE, sheet, record, filed, one_sheet=True)


def _front(sheet: Sheet, record: Record, filed: Filed) -> None:
    sheet.add(Heading(TITLE, 1))
    if warning := phrases.banner(record):
        sheet.add(warning)
    if record.headline:
        sheet.add(Lead(w.sentence(w.clean(record.headline))))
    sheet.add(
        Pairs(
            (
                ("Record", f"{filed}; made {phrases.made_words(record) or 'on a date not given'}"),
                ("Customer", w.shown(record, "customer") or "not given"),
                ("Result", w.outcome(record)),
                ("Ready for", w.READY_WORDS.get(record.ready_for, w.clean(record.ready_for))),
            )
        )
    )
    asked = [("Job", w.JOB_WORDS.get(record.job, w.clean(record.job)))]
    for name in ASKED_FIRST:
        if (line := record.facts.get(name)) is not None and line.value is not None:
            asked.append(
                (w.capital(w.fact_label(name, line)), _said(w.fact_shown(line, record.home), w.clean(line.said)))
            )
    sheet.add(Heading("What was asked for"), Pairs(tuple(asked)))
    if record.outcome == "referred":
        sheet.add(
            Heading("Where to go instead"), Words(w.sentence(w.clean(record.referral)) or "Ask the machine's maker.")
        )
    elif record.choice is None:
        sheet.add(
            Heading("What can be offered"),
            Words(w.sentence(w.clean(record.nearest)) or "No hose could be chosen from what is known."),
        )
    else:
        _offer(sheet, record)
    sheet.points("Assumed: please confirm", _assumptions(record.assumptions))
    sheet.points("Still open", _open(record))
    serious = tuple(w.sentence(w.clean(c.text)) for c in record.cautions[:3])
    more = f" (these first; all {len(record.cautions)} stand in the evidence)" if len(record.cautions) > 3 else ""
    sheet.points(f"For your safety{more}", serious)
    sheet.add(SignLines(("Specified by, date", "Accepted for the customer by, date")))


def _said(shown: str, said: str) -> str:
    return f"{shown} (“{said}”)" if said and said.lower() != shown.lower() else shown


def _offer(sheet: Sheet, record: Record) -> None:
    rows = [
        ("Hose", phrases.hose_words(record)),
        ("End A", phrases.end_words(record, "A")),
        ("End B", phrases.end_words(record, "B")),
        ("Length", phrases.length_words(record)),
    ]
    if record.build.angle_text or record.build.end_angle_deg is not None:
        rows.append(("Angle", phrases.angle_words(record)))
    rows.append(("Carries at most", phrases.limit_words(record)))
    if record.need.get("pressure") is not None:
        rows.append(("Needed", w.one_need(record.need["pressure"], record.home)))
    sheet.add(Heading("What is proposed"), Pairs(tuple(rows)), phrases.picture(record))


def _assumptions(lines: Iterable[AssumptionLine]) -> tuple[str, ...]:
    """Each with its reason; both ends in one where they get the same for the same reason."""
    alike: dict[tuple[str, str, str], list[str]] = {}
    for line in lines:
        label = CATALOGUE[line.fact].label if line.fact in CATALOGUE else w.clean(line.fact.replace("_", " "))
        value = w.clean(line.shown) or w.clean(line.value)
        alike.setdefault((value, line.why, line.confirm_by), []).append(label)
    return tuple(
        f"{w.capital(' and '.join(labels))}: {value}, because {_ended(why)}"
        + (f" To confirm: {_ended(confirm)}" if confirm else " How to confirm it is not recorded.")
        for (value, why, confirm), labels in alike.items()
    )


def _ended(text: str) -> str:
    """The end of a sentence, whatever it begins with."""
    return w.sentence(f"- {w.clean(text)}")[2:]


def _open(record: Record) -> tuple[str, ...]:
    """The open points that are not among the assumptions above."""
    assumed = {line.fact for line in record.assumptions}
    if len(record.open_words) == len(record.open):
        pairs = zip(record.open, record.open_words, strict=True)
        return tuple(w.sentence(w.clean(text)) for name, text in pairs if name not in assumed)
    if record.open_words:
        return tuple(w.sentence(w.clean(text)) for text in record.open_words)
    names = [name for name in record.open if name not in assumed]
    return tuple(CATALOGUE[n].label if n in CATALOGUE else w.clean(n.replace("_", " ")) for n in names)
