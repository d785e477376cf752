"""Which date is it that a line names, and can it be computed?"""

from __future__ import annotations

import re

from interview.catalogue import CATALOGUE, Kind
from interview.language.line import Line
from interview.language.model import SAID, Heard
from interview.language.years import hear_years

_DATE_FACTS = ("hose_date", "assembly_date", "fitted_date", "needed_by")


def hear_dates(line: Line) -> None:
    """Dates by the word nearest to each; a date whose day and month could be swapped is asked back."""
    layline_date = next((f for f in line.facts if f.name == "hose_date"), None)
    cues = [c for c in line.cues if c.tag in _DATE_FACTS]
    for label in line.labels:
        if label.kind not in ("date", "month", "quarter", "weekday", "day_unclear"):
            continue
        if layline_date is not None and label.start == layline_date.start:
            continue
        first, last = line.tokens_in(label.start, label.end)
        name = ""
        best = 7.0
        for cue in cues:
            gap = first - cue.last if cue.last <= first else (cue.first - last + 1 if cue.first > last else 0)
            between = line.words[cue.last : first] if cue.last <= first else line.words[last + 1 : cue.first]
            cost = (
                gap
                + 4.0 * sum(w in (",", ";", ".") for w in between)
                + (1.5 if cue.first > last else 0.0)
                - 0.4 * (cue.last - cue.first)
            )
            if cost < best:
                best, name = cost, cue.tag
        asked = next((a for a in line.asked if CATALOGUE[a].kind is Kind.DAY), "")
        if not name:
            name = asked
        if not name and label.kind == "quarter":
            name = "hose_date"
        if not name and label.kind == "weekday":
            text = label.data
            name = (
                "needed_by"
                if re.match(r"(?:by|before|for|next|this (?!week|month)|tomorrow|end of|come)", text)
                and not line.has_mark("injury")
                else ""
            )
        if not name:
            if label.kind in ("date", "month", "day_unclear"):
                line.open(_DATE_FACTS, "which date is that?", first, last)
            continue
        if label.kind == "day_unclear":
            readings = tuple(Heard(name, d, "", line.said(label.start, label.end)) for d in label.data.split())
            line.open((name,), "day and month, or month and day?", first, last, readings)
        elif label.kind == "weekday":
            said = re.sub(r"^(?:by|on|before|for|come|coming) (?:the )?", "", label.data)
            if name in ("hose_date", "assembly_date") and not asked:
                continue
            line.add(name, f"{SAID}{said}", first, last)
        else:
            line.add(name, label.data, first, last)
    hear_years(line, tuple(a for a in line.asked if CATALOGUE[a].kind is Kind.DAY))
