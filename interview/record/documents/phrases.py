"""How does a page put the main points of a record: the hose, an end, the length, the limit, what is missing?"""

from __future__ import annotations

from interview.catalogue import CATALOGUE
from interview.dialogue.wording import construction_name, missing_text
from interview.record.digest import content_hash, short_hash
from interview.record.documents import words as w
from interview.record.documents.page import Banner, Filed, Page, Picture, Sheet
from interview.record.drawing import assembly_text
from interview.record.drawing_figure import assembly_figure
from interview.record.model import PartRating, Record

NOT_FOR_BUILDING = "NOT FOR BUILDING"


def banner(record: Record) -> Banner | None:
    """NOT FOR BUILDING with what is missing; None where the gate says build."""
    if record.ready_for == "build":
        return None
    missing = tuple(missing_words(record, name) for name in record.missing_for_build)
    if record.outcome == "referred":
        return Banner(
            NOT_FOR_BUILDING, ("This is not for the counter; the specification says where to go instead.", *missing)
        )
    if not missing and record.outcome == "unmatched":
        return Banner(NOT_FOR_BUILDING, ("Nothing in the tables makes an assembly that fits.",))
    if not missing:
        missing = ("The record does not say what is missing: ask before anything is cut.",)
    return Banner(NOT_FOR_BUILDING, missing)


def missing_words(record: Record, name: str) -> str:
    """One thing a build still needs: what it is, and how far it is known. Words that are no fact's name stay words."""
    if name == "hose":
        return "a hose that fits for certain"
    if name not in CATALOGUE:
        return w.clean(name) if " " in name else f"the check on {w.clean(name.replace('_', ' '))}"
    line = record.facts.get(name)
    if line is None or line.value is None:
        return missing_text(name, "", "")
    return missing_text(name, w.fact_shown(line, record.home), line.origin)


def page_of(title: str, sheet: Sheet, record: Record, filed: Filed, *, one_sheet: bool = False) -> Page:
    """The blocks as a page of the user's paper size; its foot ties what is printed to the record."""
    made = f"made {made_words(record)} · " if record.made else ""
    foot = f"Record {filed} · {made}content {short_hash(content_hash(record))}"
    return Page(title, tuple(sheet.blocks), foot, letter=record.home == "us", one_sheet=one_sheet)


def made_words(record: Record) -> str:
    return w.clean(record.made.replace("T", " ")[:16])


def hose_words(record: Record) -> str:
    name = w.hose(record) or "none"
    if record.choice is not None and record.choice.stock_item and "shelf item" not in name:
        name += f"; shelf item {record.choice.stock_item}"
    return w.clean(name)


def end_words(record: Record, letter: str, extra: tuple[str, ...] = ("seal", "metal")) -> str:
    """One end from its facts, in the order a counter says it."""
    side = f"end_{letter.lower()}"
    part = next((p for p in record.assembly.parts if p.part == side), None) if record.assembly else None
    facts = [w.shown(record, f"{side}_{name}") for name in ("family", "size", "gender", "form")]
    told = ", ".join(text for text in facts if text)
    extras = [f"{name} {text}" for name in extra if (text := w.shown(record, f"{side}_{name}"))]
    base = told or (w.clean(part.what) if part else "not known")
    return "; ".join([base, *extras])


def seal_words(record: Record) -> str:
    """The seal of each end; one that nobody named for certain is still to be confirmed."""
    unnamed = record.build.seals or ("", "")
    told = []
    for name, otherwise in zip(("end_a_seal", "end_b_seal"), unnamed, strict=True):
        line, shown = record.facts.get(name), w.shown(record, name)
        if line is not None and shown:
            told.append(f"{shown}, to be confirmed" if line.origin == "assumed" or line.hedged else shown)
        else:
            told.append(w.clean(otherwise) or "to be confirmed")
    one, other = told
    return f"both ends: {one}" if one == other else f"end A: {one}; end B: {other}"


def part_words(record: Record, part: PartRating) -> str:
    """What a part is; an end that the record names by ids only is worded from its facts."""
    named = [record.facts.get(f"{part.part}_{name}") for name in ("family", "size", "gender", "form")]
    ids = " ".join(str(line.value) for line in named if line is not None and line.value is not None)
    return end_words(record, part.part[-1]) if ids and part.what == ids else w.clean(part.what)


def limit_words(record: Record) -> str:
    assembly = record.assembly
    if assembly is None:
        return "no assembly chosen"
    if assembly.rating is None:
        return "not known: the rating of at least one part is not known"
    rating = w.rating(assembly.rating.value, record.home, w.assembly_psi(assembly))
    return f"{rating}, limited by {w.PART_WORDS.get(assembly.limited_by or '', 'its weakest part')}"


def length_words(record: Record) -> str:
    build = record.build
    if build.overall_length_mm is None:
        return w.shown(record, "overall_length") or "not known"
    text = w.length(build.overall_length_mm, record.home)
    if build.length_tolerance_mm is not None:
        text += f", tolerance {w.tolerance(build.length_tolerance_mm, record.home)}"
    return text + (f", measured {w.clean(build.measuring_points)}" if build.measuring_points else "")


def picture(record: Record) -> Picture:
    figure = assembly_figure(record)
    return Picture(assembly_text(record), figure, figure.says)


def angle_words(record: Record) -> str:
    if record.build.angle_text:
        return w.clean(record.build.angle_text)
    angle = record.build.end_angle_deg
    if angle is None:
        return "none: not both ends are bent"
    return (
        f"{w.number(angle % 360)}°, counter-clockwise from A's outlet (pointing down) to B's, "
        "looking along the hose from A"
    )


def rejected(record: Record) -> tuple[str, ...]:
    """Each rejected construction with its reason; from the findings where the record holds no words for it."""
    if record.why_not:
        return tuple(w.sentence(w.clean(text)) for text in record.why_not)
    if record.choice is None:
        return ()
    out = []
    for c in record.candidates:
        if c.bore == record.choice.bore and c.verdict == "fails":
            why = "; ".join(
                f"{w.clean(f.check)}: needs {w.clean(f.need)}, has {w.clean(f.have)}"
                for f in c.findings
                if f.verdict == "fails"
            )
            out.append(f"{w.clean(construction_name(c.construction))}: {why or 'no reason recorded'}.")
    return tuple(out)
