"""What is printed on the old hose: its construction, size, pressure and date, and what of it was only said?"""

from __future__ import annotations

import re
from dataclasses import replace

from interview.catalogue import CATALOGUE
from interview.facts import Origin
from interview.language import units
from interview.language.convert import bore_of
from interview.language.labels import Label
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.model import Heard
from interview.language.sizes import DASHES
from interview.language.taking import TUBE_DASH, take


def layline_span(line: Line) -> tuple[int, int] | None:
    """The stretch that is print on a hose: a construction with a standard, a date code or a pressure grown onto it."""
    kinds = {label.kind for label in line.labels}
    if "construction" not in kinds or not kinds & {"standard", "quarter"}:
        return None
    anchor = [label for label in line.labels if label.kind in ("construction", "standard", "quarter")]
    if len(anchor) < 2 or anchor[-1].start - anchor[0].end > 60:
        return None
    return anchor[0].start, anchor[-1].end


def read_layline(line: Line) -> None:
    """Size, pressure, date and text of a layline; before the numbers are bound to anything else."""
    span = layline_span(line)
    if span is None:
        _bare_print(line)
        return
    start, end = span
    low = line.low
    first_label = next(
        label for label in line.labels if label.kind in ("construction", "standard") and label.start >= start
    )
    construction = next(label for label in line.labels if label.kind == "construction")
    stop = re.compile(r"[;!?]|,\s|\.\s|\bjic\b|\bneed|\bwant|\bboth\b|\bone end\b").search(
        low, max(end, construction.end)
    )
    limit = stop.start() if stop else len(low)
    last = max(end, _print_sizes(line, construction, limit, Origin.READ))
    for m in line.measures:
        if m.taken or not start <= m.start < limit or m.is_range or m.measures != "pressure":
            continue
        if m.start - construction.end < 60 and _pressure(line, m):
            last = max(last, m.end)
    text = line.text[min(start, first_label.start) : last].strip(" ,;.")
    tokens = [k for k, t in enumerate(line.tokens) if t.start >= start and t.end <= last]
    if tokens:
        line.facts.append(Heard("layline", text, "", text, Origin.READ, start=start, end=last))
        line.used.update(k for k in tokens)
    for label in line.labels:
        if label.kind in ("quarter", "month", "date") and start <= label.start <= last:
            line.facts.append(
                Heard(
                    "hose_date",
                    label.data,
                    "",
                    line.said(label.start, label.end),
                    Origin.READ,
                    start=label.start,
                    end=label.end,
                )
            )


_SIZE_OF_A_PRINT = re.compile(r"[\s,/-]*(?:dn\s?|-\s?)?\d{1,2}(?:[.,]\d|/\d{1,2})?\"?[\s,]+")


_BEFORE_A_SIZE = re.compile(r"[\s,/(-]*(?:dn|size|-)?[\s-]*")


def _print_sizes(line: Line, construction: Label, limit: int, origin: Origin) -> int:
    """The sizes right behind a construction ("DN16 5/8"); two that differ are both taken, and asked back. Its end."""
    at = construction.end
    for m in line.measures:
        if m.taken or m.is_range or not at <= m.start < limit:
            continue
        gap = line.low[at : m.start]
        if (
            m.measures not in ("", "length")
            or len(gap) > 12
            or not _BEFORE_A_SIZE.fullmatch(gap)
            or not _layline_size(line, m, gap, construction.data, origin)
        ):
            break
        at = m.end
    return at


def _bare_print(line: Line) -> None:
    """A construction without its standard: a dash grown onto it, and a pressure beside it."""
    made = [label for label in line.labels if label.kind == "construction"]
    if not made:
        return
    behind = next((m for m in line.measures if m.start >= made[-1].end), None)
    if behind is not None and line.low[made[-1].end : behind.start + 1].lstrip().startswith("-"):
        _print_sizes(line, made[-1], len(line.low), Origin.STATED)
    _bare_pressure(line, made[-1])


def _bare_pressure(line: Line, made: Label) -> None:
    """A line that is nothing but a construction, its size and a pressure: said of the line, or read off the hose?"""
    some = [m for m in line.measures if m.measures == "pressure" and not m.is_range]
    if len(some) != 1 or line.asked or len(line.words) > 9 or line.words[0] == "need":
        return
    m = some[0]
    cued = any(c.tag in CATALOGUE and CATALOGUE[c.tag].measures == "pressure" for c in line.cues)
    if cued or line.low[m.end :].strip(" .") or not _SIZE_OF_A_PRINT.fullmatch(line.low[made.end : m.start]):
        return
    said = Heard(
        "working_pressure", units.to_si(m.low, m.unit), m.unit, line.said(m.start, m.end), start=m.start, end=m.end
    )
    readings = (said, replace(said, name="old_rating", origin=Origin.READ))
    why = "the pressure in the line, or the one printed on the hose?"
    line.open(("working_pressure", "old_rating"), why, m.first, m.last, readings, m.end)
    m.taken = True


def _pressure(line: Line, m: Measure) -> bool:
    if any(f.name == "old_rating" for f in line.facts):
        m.taken = True  # the same rating in the other unit
        return True
    return take(line, "old_rating", m, origin=Origin.READ)


def _layline_size(line: Line, m: Measure, gap: str, construction: str, origin: Origin) -> bool:
    if any(f.name == "marked_size" for f in line.facts):
        m.taken = True
        return True
    dashed = (
        m.minus
        or (gap.rstrip().endswith("-") and construction.startswith("saej"))
        or re.fullmatch(r"0\d", line.tokens[m.last].text) is not None
    )
    number = abs(m.low)
    if dashed and number in DASHES and construction in TUBE_DASH:
        m.taken = True
        line.facts.append(
            Heard("marked_size", float(number), "dash", line.said(m.start, m.end), origin, start=m.start, end=m.end)
        )
        return True
    bore = bore_of(m, dash=dashed, dn="dn" in gap)
    if bore is None:
        if m.unit == "" and number in DASHES | {6, 10, 13, 19, 25, 31, 38, 51}:
            readings = tuple(
                Heard("bore", b, said=line.said(m.start, m.end))
                for b in {bore_of(m, dash=True), bore_of(m, dn=True)}
                if b
            )
            if len(readings) == 1:
                line.facts.append(replace(readings[0], origin=origin, start=m.start, end=m.end))
            else:
                line.open(("bore",), "DN or dash?", m.first, m.last, readings)
            m.taken = True
            return True
        return False
    m.taken = True
    line.facts.append(Heard("bore", bore, m.unit, line.said(m.start, m.end), origin, start=m.start, end=m.end))
    return True
