"""Which fact is each number of a line? Pressures, lengths, flows and the rest; temperatures have their own module."""

from __future__ import annotations

import itertools
import re

from interview.language import units
from interview.language.by_form import bind_by_form
from interview.language.convert import believable, bore_of
from interview.language.cylinders import fraction_before
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.pairing import Cue, pair, without_frames
from interview.language.set_aside import of_another
from interview.language.sizes import DASHES
from interview.language.taking import THREADED, take
from interview.language.uncued import ask_which, driven, take_uncued
from interview.language.wording import denied

_GROUPS: dict[str, tuple[str, ...]] = {
    "pressure": (
        "working_pressure",
        "surge_pressure",
        "relief_setting",
        "old_rating",
        "end_a_rating",
        "end_b_rating",
        "adapter_a_rating",
        "adapter_b_rating",
        "pressure_loss_limit",
        "pump_inlet_limit",
        "vacuum",
    ),
    "length": (
        "bore",
        "overall_length",
        "port_distance",
        "travel",
        "bend_radius_available",
        "heat_source_distance",
        "line_length",
        "lift",
        "altitude",
        "cylinder_bore",
        "cylinder_rod",
        "end_a_thread_diameter",
        "end_a_thread_pitch",
    ),
    "flow": ("flow_rate", "pump_flow"),
    "displacement": ("pump_displacement",),
    "speed": ("pump_speed",),
    "time": ("valve_closing_time",),
    "years": ("wanted_life",),
    "hours": ("hours_per_year",),
    "angle": ("end_angle", "end_a_seat_angle"),
    "number": ("viscosity_index", "marked_size"),
}


# A bare number may take these by a cue close to it; every other cue needs a number with a unit.
_BARE = frozenset(
    {
        "working_pressure",
        "surge_pressure",
        "relief_setting",
        "old_rating",
        "viscosity_index",
        "marked_size",
        "end_a_rating",
        "cylinder_bore",
        "cylinder_rod",
    }
)


def _bare_cost(tag: str) -> float:
    return 1.6 if tag != "working_pressure" else 0.7


def bind(line: Line) -> None:
    """Turns the measures of a line into facts and open points."""
    bind_by_form(line)
    _in_turn(line)
    for kind, tags in _GROUPS.items():
        _bind_kind(line, kind, tags)
    take_uncued(line)


def _says_the_line(line: Line, cue: Cue) -> bool:
    """The "burst pressure" of "hose burst pressure 1/2": what broke, and which line it is."""
    start, end = line.tokens[cue.first].start, line.tokens[cue.last - 1].end
    return any(f.name == "line_function" and start < f.end and f.start < end for f in line.facts)


def _bind_kind(line: Line, kind: str, tags: tuple[str, ...]) -> None:
    some = [
        m
        for m in line.measures
        if not m.taken
        and (m.measures == kind or (m.unit in ("", "'", "other") and m.measures in ("", "foot_or_minute")))
    ]
    if not some:
        return
    cylinder = (
        line.has_mark("cylinder") or "cylinder_bore" in line.asked or ("rod" in line.words and "bore" in line.words)
    )
    if kind == "pressure":  # no pressure is a bare fraction: "pressure hose 3/8"
        some = [m for m in some if m.unit or (m.form not in ("frac", "mixed") and m.low >= 0)]
    some = [
        m for m in some if m.unit or not any(c.first <= m.first < c.last and c.last - c.first > 1 for c in line.cues)
    ]
    cues = [
        c
        for c in line.cues
        if (
            c.tag in tags
            or (c.tag == "not_ours" and not _says_the_line(line, c))
            or (c.tag == "flooded" and kind == "length")
        )
        and (c.tag.endswith("_rating") or not any(k in line.end_used for k in range(c.first, c.last)))
        and not (c.tag in ("cylinder_bore", "cylinder_rod") and not cylinder)
    ]
    if cylinder:
        for c in cues:
            if (
                c.tag == "bore"
                and line.words[c.first : c.last] == ["bore"]
                and "hose" not in line.words[max(0, c.first - 2) : c.last + 2]
                and not fraction_before(line, c)
            ):
                c.tag = "cylinder_bore"
    if any(a.endswith("_thread_diameter") for a in line.asked) and "hose" not in line.words:
        cues = [c for c in cues if c.tag != "bore"]  # what is measured inside is the thread that was asked for
    cues = _without_echo([c for c in cues if not _denied_alone(line, c)])
    if not cues or not some:
        return
    units_of = frozenset(
        k for m in some for k in range(m.last + 1, min(m.last + 6, len(line.words))) if line.tokens[k].start < m.end
    )
    cues = without_frames(line.words, some, cues, units_of)
    pairs = pair(line.words, some, cues, lambda tag, m: _fits(tag, m) and not _of_an_end(line, tag, m), units_of)
    for index, (cue, price) in pairs.items():
        measure = some[index]
        if measure.unit == "" and ((cue.tag not in _BARE and cue.tag != "not_ours") or price > _bare_cost(cue.tag)):
            dashed = (
                measure.form in ("frac", "mixed")
                or measure.minus
                or line.words[measure.first - 1 : measure.first] in (["#"], ["dash"])
            )
            if cue.tag == "bore" and dashed and price < 2.8:
                pass
            elif cue.tag in line.asked and price < 1.2:
                pass
            elif cue.tag == "pump_speed" and price < 1.2 and 100 <= measure.low <= 6000 and _turning(line, cue):
                pass
            elif cue.tag in ("flow_rate", "pump_flow") and price < 1.2 and _flow_said(line, measure):
                pass
            elif not (cue.tag in ("overall_length", "port_distance") and price < 1.2):
                continue
        if cue.tag == "not_ours":
            if price < 1.3 and measure.measures in (
                "",
                "pressure",
                "length",
                "other",
                "speed",
                "hours",
                "years",
                "time",
                kind,
            ):
                measure.taken = True
            continue
        if cue.tag == "lift" and line.words[cue.first : cue.last] == ["lift"] and "suction" not in line.words:
            if "lift" not in line.asked and not _of_lift_alone(line, measure, cue):
                continue
        if cue.tag == "old_rating" and line.words[cue.first] in ("rated", "rating", "marked", "stamped"):
            _rated(line, measure, cue)
            continue
        if cue.tag == "valve_closing_time" and cue.tag not in line.asked and of_another(line, cue):
            continue
        if cue.tag == "flooded":
            measure.low, measure.high = -measure.high, -measure.low
            take(line, "lift", measure, cue)
            continue
        if cue.tag == "pump_speed" and not driven(line, measure):
            measure.taken = True
            continue
        if cue.tag == "overall_length" and "line_length" in line.asked and "overall_length" not in line.asked:
            take(line, "line_length", measure, cue)  # the suction line is "1.8 m long"
            continue
        take(line, cue.tag, measure, cue)


def _denied_alone(line: Line, cue: Cue) -> bool:
    """The spikes of "210 with no spikes": there are none, so that no number before them is theirs."""
    if cue.tag != "surge_pressure" or denied(line, cue.first) < 0:
        return False
    _, b = line.clause(cue.first)
    return not any(cue.last <= m.first < b for m in line.measures)


def _of_lift_alone(line: Line, measure: Measure, cue: Cue) -> bool:
    """ "3ft lift", and not a word more: a lift that is a machine has no length before it."""
    return line.clause(cue.first) == (measure.first, cue.last) and measure.measures == "length"


def _turning(line: Line, cue: Cue) -> bool:
    """ "She turns at 1750": said of nothing but a shaft, where "runs at 2500" may be a pressure."""
    return bool(
        {"turn", "turns", "turning", "spins", "spinning", "rotating", "driven", "speed", "revs"}
        & set(line.words[cue.first : cue.last])
    )


def _flow_said(line: Line, measure: Measure) -> bool:
    """ "40 gpm at the pump, the line gets 20": a flow with its unit before, nothing behind that it could count."""
    if line.words[measure.last + 1 : measure.last + 2] not in ([], [","], ["."], [";"], ["!"]):
        return False
    return measure.form in ("int", "dec", "words") and any(
        m.measures == "flow" and m.start < measure.start for m in line.measures
    )


def _rated(line: Line, measure: Measure, cue: Cue) -> None:
    """ "Rated 250 bar": the hose, an adapter or an end, by what the sentence speaks of."""
    a, b = line.clause(cue.first, frozenset({".", ";"}))
    words = set(line.words[a:b])
    name = next((a for a in line.asked if a.endswith("_rating")), None)
    after = line.low[measure.end :].split(maxsplit=1)[:1]
    if name is not None:
        take(line, name, measure, cue, asked=True)
    elif after and after[0].strip(" ,;.") in ("fitting", "fittings", "coupling", "couplings", "ends"):
        take(line, "end_a_rating", measure, cue)
    elif words & {"adapter", "adaptor", "adapters", "adaptors"}:
        take(line, "adapter_a_rating", measure, cue)
    elif words & {"hose", "hoses", "wire", "old", "one", "print"} or cue.last - cue.first > 2:
        take(line, "old_rating", measure, cue)
    elif "relief_setting" in line.asked and words & {"valve", "relief", "spring", "cartridge"}:
        take(line, "relief_setting", measure, cue)  # "stamped 3000 on the valve"
    elif words & {"fitting", "fittings", "coupling", "couplings", "flange", "swivel", "coupler"}:
        take(line, "end_a_rating", measure, cue)
    else:
        ask_which(line, measure, ("old_rating", "end_a_rating"))


def _fits(tag: str, measure: Measure) -> bool:
    """A length that is no bore leaves the word hose to another number."""
    if tag == "cylinder_bore" and measure.measures == "length":
        return believable(tag, units.to_si(measure.low, measure.unit))
    return tag != "bore" or bore_of(measure) is not None or (measure.unit == "" and measure.low in DASHES)


def _of_an_end(line: Line, tag: str, m: Measure) -> bool:
    """The 3/8 of "1/2 inch hose 3/8 fitting" is no bore."""
    behind = line.low[m.end :].split(maxsplit=1)[:1]
    return tag == "bore" and bool(behind) and behind[0].strip(" ,;.") in THREADED - _OF_NO_END


_OF_NO_END = frozenset("full empty way of pipe plug union tee port ports".split())


def _without_echo(cues: list[Cue]) -> list[Cue]:
    """Of overlapping cues the longest stays."""
    out: list[Cue] = []
    for cue in sorted(cues, key=lambda c: (c.first, -(c.last - c.first))):
        if out and cue.first < out[-1].last:
            if cue.last - cue.first > out[-1].last - out[-1].first:
                out[-1] = cue
            continue
        out.append(cue)
    return out


def _in_turn(line: Line) -> None:
    """ "Working/peak 200/300 bar": two cues and two numbers in the same order."""
    cues = sorted((c for c in line.cues if c.tag in _GROUPS["pressure"]), key=lambda c: c.first)
    for c, d in itertools.pairwise(cues):
        if d.first - c.last != 1 or line.words[c.last] not in ("/", "and", "&"):
            continue
        some = [m for m in line.measures if not m.taken and 0 <= m.first - d.last <= 2][:1]
        if not some:
            continue
        at = line.measures.index(some[0])
        both = line.measures[at : at + 2]
        if (
            len(both) == 2
            and both[1].measures == "pressure"
            and re.fullmatch(r"\s*(?:/|and|&)\s*", line.low[both[0].end : both[1].start])
        ):
            both[0].unit = both[0].unit or both[1].unit
            take(line, c.tag, both[0])
            take(line, d.tag, both[1])
