"""What must the person at the bench have to cut, turn, test and mark the assembly without a question?

A sheet to build from exists only where the record says build; otherwise the page says what is missing and nothing that
could be built from. Crimp figures are never ours: the sheet has blanks for what the maker's data sheet says.
"""

from __future__ import annotations

from itertools import zip_longest

from interview.record.documents import phrases
from interview.record.documents import words as w
from interview.record.documents.page import (
    NOT_FILED,
    Filed,
    Heading,
    Page,
    Pairs,
    Sheet,
    SignLines,
    Table,
    Words,
)
from interview.record.documents.tag import tag_lines
from interview.record.model import Record

BLANK = "." * 24
TITLE = "Build sheet"


def build_sheet(record: Record, filed: Filed = NOT_FILED) -> Page:
    sheet = Sheet()
    sheet.add(Heading(TITLE, 1))
    warning = phrases.banner(record)
    if warning is not None:
        sheet.add(warning, Words("There is no build sheet until every point above is settled."))
        return phrases.page_of(TITLE, sheet, record, filed)
    sheet.add(
        Table(
            ("Record", "Customer, machine, line", "Pieces", "Needed by"),
            (
                (
                    str(filed),
                    _whose(record),
                    w.shown(record, "quantity") or "ask",
                    w.shown(record, "needed_by") or "not stated",
                ),
            ),
            (24, 46, 12, 18),
        ),
        Heading("Make"),
        Pairs(tuple(_make(record))),
        phrases.picture(record),
        _side_by_side(record),
        Heading("Test, clean and mark"),
        Pairs(tuple(_test(record))),
        _tag(record, filed),
        Heading("Written down at the bench"),
        Table(("What", "Hose", "End A", "End B"), tuple(_bench()), (31, 23, 23, 23), by_hand=True),
        SignLines(("Assembled by, date", "Checked by (another person), date")),
    )
    return phrases.page_of(TITLE, sheet, record, filed, one_sheet=True)


def _side_by_side(record: Record) -> Table:
    """What to check and what only the maker can say, in two columns, so that the sheet stays one page."""
    checks = [w.sentence(w.clean(text)) for text in (*record.build.age_rules, *_limits(record))]
    maker = [w.sentence(w.clean(text)) for text in _maker(record)]
    rows = tuple(zip_longest(checks, maker, fillvalue=""))
    return Table(("Check before cutting", "Only from the maker's data"), rows, (50, 50))


def _tag(record: Record, filed: Filed) -> Table:
    """The tag's lines side by side, each head over what is stamped."""
    parts = [line.partition(": ") for line in tag_lines(record, filed)]
    return Table(tuple(p[0] for p in parts), (tuple(p[2] for p in parts),), (26, 27, 17, 14, 20)[: len(parts)])


def _whose(record: Record) -> str:
    return ", ".join(text for n in ("customer", "machine", "line_tag") if (text := w.shown(record, n))) or "not given"


def _make(record: Record) -> list[tuple[str, str]]:
    b, home = record.build, record.home
    if b.cut_length_mm is not None:
        cut = w.length(b.cut_length_mm, home)
    else:
        cut = "overall length less the cut-off of both ends (ends' maker): " + BLANK
    rows = [
        ("Hose", phrases.hose_words(record)),
        ("End A", phrases.end_words(record, "A", ("metal",))),
        ("End B", phrases.end_words(record, "B", ("metal",))),
        ("Seals", phrases.seal_words(record)),
        ("Overall length", phrases.length_words(record)),
        ("Cut length", cut),
    ]
    if b.angle_text or b.end_angle_deg is not None:
        rows.append(("Angle", phrases.angle_words(record)))
    rows.append(("Carries at most", phrases.limit_words(record)))
    return rows


def _test(record: Record) -> list[tuple[str, str]]:
    b = record.build
    proof = b.test_pressure_bar
    if proof is None and record.assembly is not None and record.assembly.proof_pressure is not None:
        proof = record.assembly.proof_pressure.value
    wanted = record.facts.get("proof_test")
    rows = []
    if proof is not None:
        asked = "" if wanted is None or wanted.value is not False else "not asked for; if it is done: "
        rows.append(
            ("Proof pressure", f"{asked}{w.pressure(proof, record.home)}, with liquid, air bled, behind a guard")
        )
        rows.append(("Hold", f"by the maker's procedure: {BLANK} s"))
    else:
        rows.append(("Proof pressure", f"not known: from the makers of hose and ends: {BLANK}"))
    rows.append(("Cleanliness", w.clean(b.cleanliness) or "clean and cap; no code claimed"))
    return rows


def _limits(record: Record) -> list[str]:
    b, home = record.build, record.home
    rows = []
    if b.bend_radius_mm is not None:
        rows.append(f"never bent tighter than {w.length(b.bend_radius_mm, home)}, at the bench or in the coil")
    if b.straight_before_bend_mm is not None:
        rows.append(f"straight for {w.length(b.straight_before_bend_mm, home)} behind each end before the first bend")
    return rows


def _maker(record: Record) -> tuple[str, ...]:
    return record.build.maker_must_supply or (
        "that this hose and these ends are a pair the maker released",
        "the crimp data of that pair, with sheet number and edition",
        "cut-off lengths and insertion depth",
    )


def _bench() -> list[tuple[str, str, str, str]]:
    return [
        ("Maker, part or batch", "", "", ""),
        ("Date code", "", "", ""),
        ("Crimp data: sheet no., edition", "—", "", ""),
        ("Crimp as measured, three places", "—", "", ""),
        ("Insertion mark at the ferrule", "—", "", ""),
        ("Cut length; overall length; angle", "", "—", "—"),
        ("Test: pressure, time, gauge no.", "", "—", "—"),
    ]
