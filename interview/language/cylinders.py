"""Which lengths are a cylinder's bore and rod, and which are the bore of its hose?"""

from __future__ import annotations

import re

from interview.language import units
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.pairing import Cue
from interview.language.taking import take

_THINNEST = 0.25  # of the bore; thinner rods are not made (practice), and 24 inches before a 1 inch rod are its stroke


def across_the_piston(line: Line, i: int) -> bool:
    """ "2.5 inch cylinder, 1-1/4 rod": a cylinder is called by its bore where a thinner rod follows."""
    m, rest = line.measures[i], line.measures[i + 1 : i + 2]
    named = re.match(r" (?:bore )?(?:cylinder|ram)\b", line.low[m.end :]) is not None
    return named and any(
        _THINNEST * m.low <= x.low < m.low
        and (not x.unit or x.measures == "length")
        and re.match(r" ?rod\b", line.low[x.end :])
        for x in rest
    )


def cylinder_pair(line: Line, one: Measure, two: Measure) -> None:
    """ "100/56 cylinder": bore and rod, the larger first."""
    unit = one.unit or two.unit or ("in" if one.low < 13 and line.home == "us" else "mm")
    if units.measures(unit) != "length" or one.low <= two.low:
        return
    one.unit, two.unit = unit, unit
    take(line, "cylinder_bore", one)
    take(line, "cylinder_rod", two)


def fraction_before(line: Line, cue: Cue) -> bool:
    """ "Hose on the bucket cylinder, 3/8 bore": no cylinder is that small, and hoses are called by fractions."""
    return "hose" in line.words and any(
        m.form == "frac" and m.unit in ("", "in") and 0 <= cue.first - m.last <= 2 for m in line.measures
    )
