"""What stands behind the first page: facts, needs, checks, limits, rejections, cautions, rules, sources."""

from __future__ import annotations

from interview.dialogue.wording import construction_name
from interview.facts import Origin
from interview.record.digest import content_hash
from interview.record.documents import words as w
from interview.record.documents.page import Filed, Heading, Pairs, Points, Sheet, Words
from interview.record.documents.phrases import hose_words, limit_words, part_words, rejected
from interview.record.gauges import gauges
from interview.record.model import COLD, FindingLine, Record
from interview.reference.model import source_said


def evidence(sheet: Sheet, record: Record) -> None:
    sheet.add(Heading("Evidence", 1))
    rows = []
    for topic, lines in w.by_topic(record):
        told = [(name, line) for name, line in lines if line.value is not None]
        for place, (name, line) in enumerate(told):
            origin = w.ORIGIN_WORDS.get(line.origin, w.clean(line.origin))
            if line.hedged:
                origin += ", said with “about”"
            notes = [
                f"“{w.clean(line.said, 200)}”" if line.said else "",
                "" if line.said and line.because == f"said: {line.said}" else w.clean(line.because),
                f"also said: {w.clean(line.governs)}" if line.governs else "",
            ]
            shown = w.fact_shown(line, record.home)
            why = "; ".join(n for n in notes if n)
            rows.append(("" if place else topic, w.fact_label(name, line), shown, origin, why))
    sheet.table(
        "What is known, and where from",
        ("Topic", "Fact", "Value", "Origin", "In whose words, or why"),
        rows,
        (12, 18, 20, 21, 29),
    )
    bare = [(w.fact_label(n, line), line) for _, lines in w.by_topic(record) for n, line in lines if line.value is None]
    for title, named in (
        ("Asked, and not known", [name for name, line in bare if line.origin == Origin.UNKNOWN]),
        ("Asked, and said not to apply", [name for name, line in bare if line.origin != Origin.UNKNOWN]),
    ):
        if named:
            sheet.add(Heading(title, 3), Words(w.sentence(", ".join(named))))
    needs = [(w.clean(n.name), w.clean(n.shown), w.clean(n.because)) for n in record.needs]
    sheet.table("What that requires", ("Need", "Figure", "How it came about"), needs, (24, 28, 48))
    known = {name: need for name, need in record.need.items() if need is not None}
    figures = [(w.clean(name.replace("_", " ")), w.one_need(need, record.home)) for name, need in known.items()]
    if figures:
        sheet.add(Heading("Figures the checks used", 3 if needs else 2), Pairs(tuple(figures)))
    _checks(sheet, record)
    _assembly(sheet, record)
    if pictures := gauges(record):
        sheet.add(Heading("In pictures"), *pictures)
    _building(sheet, record)


def _checks(sheet: Sheet, record: Record) -> None:
    if record.choice is None:
        if record.nearest:
            sheet.add(Heading("Nearest hose, and what blocks it"), Words(w.sentence(w.clean(record.nearest))))
        return
    pick = record.chosen
    rows = []
    for f in pick.findings if pick else ():
        basis = w.clean(source_said(f.source, f.tag))
        rows.append(
            (
                w.clean(f.check.replace("_", " ")),
                w.clean(f.need),
                w.clean(f.have),
                _margin(f, record.home),
                w.VERDICT_WORDS.get(f.verdict, w.clean(f.verdict)),
                "; ".join(x for x in (w.clean(f.why), basis) if x),
            )
        )
    sheet.table(
        f"Checks of {hose_words(record)}",
        ("Check", "Need", "Have", "Margin", "Verdict", "Why and source"),
        rows,
        (12, 15, 15, 9, 8, 41),
    )
    if not rows:
        sheet.add(Heading(f"Checks of {hose_words(record)}"), Words("The record holds no findings for this hose."))
    sheet.points("Why this one", tuple(w.sentence(w.clean(b)) for b in record.choice.because), level=3)
    sheet.points(
        "The same hose under other standards",
        tuple(w.clean(construction_name(t)) for t in record.choice.twins),
        level=3,
    )
    sheet.points("Runners-up", tuple(w.clean(r) for r in record.choice.runners_up), level=3)


def _margin(line: FindingLine, home: str) -> str:
    """What is to spare, in what the check measures: degrees, times over, or a share of the need."""
    need, have = line.need_number, line.have_number
    if line.unit == "degC":
        if line.verdict == "open" or need is None or have is None:
            return "—"
        return w.degrees(need, have, home, cold=line.check in COLD, thin=line.thin)
    return w.times(line.margin) if line.check == "cycles" else w.margin(line.margin, line.thin)


def _assembly(sheet: Sheet, record: Record) -> None:
    assembly = record.assembly
    if assembly is None:
        return
    rows = []
    for part in assembly.parts:
        rating = w.rating(part.rating.value, record.home, part.psi) if part.rating else "NOT KNOWN"
        mark = " ◄ limits" if part.part == assembly.limited_by else ""
        label = w.PART_WORDS.get(part.part, w.clean(part.part))
        what = part_words(record, part)
        rows.append((f"{label}{mark}", what, rating, w.clean(part.source)))
    sheet.table(
        "What limits the assembly",
        ("Part", "What it is", "Rating", "Source"),
        rows,
        (16, 30, 19, 35),
        before=f"The assembly carries {limit_words(record)}.",
    )
    notes = [w.sentence(w.clean(assembly.next_stronger))] if assembly.next_stronger else []
    notes += [w.sentence(w.clean(n)) for n in assembly.notes]
    if notes:
        sheet.add(Points(tuple(notes)))


def _building(sheet: Sheet, record: Record) -> None:
    """Figures for routing and ordering; the build sheet proper is a page of its own and only at `build`."""
    b, home = record.build, record.home
    rows = []
    if b.tolerance_source:
        rows.append(("Length tolerance from", w.clean(b.tolerance_source)))
    for label, value in (
        ("Least bend radius", b.bend_radius_mm),
        ("Straight before the first bend", b.straight_before_bend_mm),
        ("Greatest outside diameter", b.od_max_mm),
    ):
        if value is not None:
            rows.append((label, w.length(value, home)))
    if b.marking:
        rows.append(("To be marked", w.clean("; ".join(b.marking))))
    if b.cleanliness:
        rows.append(("Cleanliness", w.clean(b.cleanliness)))
    if rows:
        sheet.add(Heading("Figures for fitting and routing"), Pairs(tuple(rows)))


def closing(sheet: Sheet, record: Record, filed: Filed) -> None:
    sheet.points(
        "Advice",
        tuple(w.sentence(w.clean(a.text)) + (f" ({w.clean(a.source)})" if a.source else "") for a in record.advice),
    )
    sheet.points("Why the others were rejected", rejected(record))
    sheet.points(
        "Values from memory, to be confirmed in the current edition",
        tuple(w.sentence(w.clean(m)) for m in record.memory_values),
    )
    sheet.points("Cautions", tuple(w.sentence(w.clean(c.text)) for c in record.cautions))
    sheet.points("House rules used", tuple(w.clean(r) for r in record.house_rules))
    sheet.points("Sources", tuple(w.clean(s) for s in record.sources))
    sheet.add(
        Heading("About this record"),
        Pairs(
            (
                ("Record", str(filed)),
                ("Questions asked", str(len(record.asked))),
                ("Tool version", w.clean(record.tool_version) or "not recorded"),
                ("Tables version", w.clean(record.tables_version) or "not recorded"),
                ("Content hash (SHA-256)", content_hash(record)),
            )
        ),
    )
