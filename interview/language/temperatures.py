"""Whose temperature is it, the fluid's or the air's, and the hottest or the coldest?"""

from __future__ import annotations

from interview.facts import Span
from interview.language import units
from interview.language.convert import FAR_OUT, OIL_F_FROM, bare_unit, believable
from interview.language.extremes import LINKS, extreme_of, same_breath
from interview.language.line import Line
from interview.language.measures import Measure, counts_else
from interview.language.model import Heard
from interview.language.pairing import Cue, pair
from interview.language.surroundings import hear_surroundings

NAMES = ("fluid_temperature_max", "fluid_temperature_min", "ambient_temperature_max", "ambient_temperature_min")
_HOTTEST_AIR = 55.0  # °C; the hottest open air ever measured is near it (practice), so what is hotter is no weather
_STARTS_AT = 30.0  # a running band that begins higher than this, in °C, says nothing of the coldest start


def bind_temperatures(line: Line) -> None:
    """All temperatures of a line."""
    cues = [
        c
        for c in line.cues
        if c.tag in ("fluid_temperature", "ambient_temperature")
        and not any(k in line.end_used for k in range(c.first, c.last))
    ]
    asked = [a for a in line.asked if a in NAMES]
    if asked and all(a.startswith("fluid") for a in asked):  # "65 in winter, 80 in summer" answers of the oil
        cues = [c for c in cues if not set(line.words[c.first : c.last]) <= _SEASONS]
    some = [
        m
        for m in line.measures
        if not m.taken
        and (
            m.measures == "temperature"
            or (m.unit in ("deg", "") and m.form not in ("frac", "mixed") and not counts_else(line.low, m.end))
        )
    ]
    if not some or not (cues or asked or any(m.measures == "temperature" or _plain_degrees(line, m) for m in some)):
        return
    pairs = pair(line.words, some, cues)
    topics: dict[int, Cue] = {
        i: c for i, (c, price) in pairs.items() if price < (6.0 if some[i].measures == "temperature" else 2.4)
    }
    last: Cue | None = None
    for i in range(len(some) - 2, -1, -1):  # "max 80 C, min -20 C oil"
        if (
            i not in topics
            and i + 1 in topics
            and topics[i + 1].first > some[i + 1].last
            and line.low[some[i].end : some[i + 1].start].strip(" -")
            and same_breath(line, some[i], some[i + 1])
        ):
            topics[i] = topics[i + 1]
    for i, m in enumerate(some):
        cue = topics.get(i)
        others = [c for c in cues if cue is not None and c.tag != cue.tag]
        around = (some[i - 1] if i else None, some[i + 1] if i + 1 < len(some) else None)
        extreme = extreme_of(line, m, cue, *around, others)
        if m.measures != "temperature":
            if cue is None and not (last is not None and extreme and same_breath(line, some[i - 1], m)) and not asked:
                if not _plain_degrees(line, m):
                    continue
                cue = _lone_topic(line, m, cues)
            if cue is not None and m.unit == "" and _elsewhere(line, m, cue):
                continue
        if (
            cue is None
            and last is not None
            and i
            and (extreme or m.measures == "temperature")
            and same_breath(line, some[i - 1], m)
        ):
            cue = last
        if cue is None and m.measures == "temperature" and _after_oil(line, m):
            cue = Cue("fluid_temperature", m.first, m.first)
        if cue is None and m.measures == "temperature":
            cue = _lone_topic(line, m, cues)
        if m.is_range and i not in topics and any(f.name == "fluid_temperature_max" for f in line.facts):
            # "Oil 80, -20 to 40": the oil is told, so the range beside it is the air's, where that was asked as well.
            air = set(NAMES[2:]) <= set(asked)
            cue = Cue("ambient_temperature", m.first, m.first) if air else None
        _one(line, m, cue, extreme, asked)
        if cue is not None:
            hear_surroundings(line, cue)
        last = cue or last
    _the_one_left(line, some, asked)
    _above_the_air(line)


_SEASONS = frozenset("winter winters summer summers night nights day frost heatwave mornings".split())
_TEMPERATURE = frozenset("temperature temperatures temp temps".split())


def _plain_degrees(line: Line, m: Measure) -> bool:
    """ "Temperature 65 degrees": said to be one, of what and in which unit is asked back."""
    return m.unit == "deg" and bool(_TEMPERATURE & set(line.words[slice(*line.clause(m.first))]))


def _after_oil(line: Line, m: Measure) -> bool:
    """HLP 68 at 65 C."""
    k = m.first - 1
    while k >= 0 and line.words[k] in ("at", "to", "up", "max", "about", "around", "-"):
        k -= 1
    return k >= 0 and (label := line.label_at.get(k)) is not None and label.kind in ("oil", "vg")


def _lone_topic(line: Line, m: Measure, cues: list[Cue]) -> Cue | None:
    """ "The oil runs hot, 85 C": one topic in the clause before, and nothing new since the comma."""
    steering = {k for x in line.marks if x.tag in ("hottest", "coldest") for k in range(x.first, x.last)}
    k = m.first - 1
    while k >= 0 and line.words[k] != ",":
        if line.words[k] not in LINKS and k not in steering:
            return None
        k -= 1
    if k < 0:
        return None
    a, _ = line.clause(k - 1)
    before = [c for c in cues if a <= c.first < k]
    if not before or len({c.tag for c in before}) > 1 or k - before[-1].last > 3:
        return None
    return before[-1]


def _elsewhere(line: Line, m: Measure, cue: Cue) -> bool:
    """A bare number after "oil" that another cue stands nearer to, or that follows a word of another trade."""
    between = [k for k in range(cue.last, m.first) if not (m.low < 0 and line.words[k] == "-")]
    own = any(
        c.first in between
        for c in line.cues
        if c.tag
        not in (
            "fluid_temperature",
            "ambient_temperature",
            "working_pressure",
            "quantity",
            "travel",
            "wanted_life",
            "line_length",
        )
    )
    verbs = {
        "to",
        "at",
        "runs",
        "gets",
        "hits",
        "is",
        "reaches",
        "about",
        "running",
        "max",
        "around",
        "up",
        "down",
        "sits",
        "goes",
        "can",
        "temp",
        "temperature",
        "of",
        "from",
        "minus",
        "hot",
        "never",
        "maximum",
        "between",
        "stays",
        "tops",
        "climbs",
        "say",
        "was",
        "be",
        "s",
    }
    return (
        own
        or (bool(between) and not any(line.words[k] in verbs for k in between))
        or (
            m.first < cue.first
            and any(
                w not in ("in", "at", "on", "the", "c", "f", "max", "min", "of")
                for w in line.words[m.last + 1 : cue.first]
            )
        )
    )


def _the_one_left(line: Line, some: list[Measure], asked: list[str]) -> None:
    """ "80 C, coldest -5, air 35": all but one of those asked are told, so the bare figure is that one."""
    left = [a for a in asked if not any(f.name == a for f in line.facts)]
    open_ = [u for u in line.unclear if any(n in NAMES for n in u.could_be)]
    if len(asked) < 2 or len(left) != 1 or len(open_) != 1:
        return
    m = next((m for m in some if m.start == open_[0].start and not m.is_range), None)
    value = next((f.value for f in open_[0].readings if f.name == left[0]), None)
    if m is None or not isinstance(value, float) or m.measures != "temperature":
        return
    beside = ("fluid", "ambient") if left[0] == "fluid_temperature_max" else (left[0].split("_")[0],)
    for f in line.facts:
        if (
            f.name in NAMES
            and f.name.startswith(beside)
            and isinstance(f.value, float)
            and (f.value > value) == left[0].endswith("max")
        ):
            return
    line.unclear.remove(open_[0])
    line.facts.append(next(f for f in open_[0].readings if f.name == left[0]))


def _above_the_air(line: Line) -> None:
    """ "150F 20F amb": the air is told, so the hotter figure beside it is the fluid's."""
    air = [f.value for f in line.facts if f.name.startswith("ambient_temperature") and isinstance(f.value, float)]
    if not air or any(f.name.startswith("fluid_temperature") for f in line.facts):
        return
    for u in [u for u in line.unclear if set(u.could_be) == {"fluid_temperature_max", "ambient_temperature_max"}]:
        fluid = next((r for r in u.readings if r.name == "fluid_temperature_max"), None)
        if fluid is not None and isinstance(fluid.value, float) and fluid.value > max(*air, _HOTTEST_AIR):
            line.unclear.remove(u)
            line.facts.append(fluid)
            return


def _one(line: Line, m: Measure, cue: Cue | None, extreme: str, asked: list[str]) -> None:
    topic = ""
    if cue is not None:
        topic = "fluid" if cue.tag == "fluid_temperature" else "ambient"
    unit = m.unit if m.measures == "temperature" else ""
    if not unit:
        near = [x.unit for x in line.measures if x.measures == "temperature" and x.start < m.start] or [
            x.unit for x in line.measures if x.measures == "temperature" and x.start > m.start
        ]
        said_as = {f.unit for f in line.facts if f.name in NAMES} if line.home == "us" else set()
        if not near and len(said_as) == 1:  # "oil 185, yard 0 to 105": the figure before could only be °F
            near = list(said_as)
        if near:
            unit = near[-1] if line.measures[0].start < m.start else near[0]
    if not topic and m.is_range and len({a.split("_")[0] for a in asked}) == 1:
        topic = asked[0].split("_")[0]
    names = _names(m, topic, extreme, unit, asked)
    belied = m.measures != "temperature" and names[:1] == ("fluid_temperature_max",) and _not_of_hot_oil(m.high, unit)
    if not unit or belied:
        settled = None
        if names and not belied:
            settled = bare_unit(names[0], m.high, line.home, asked=bool(set(names) & set(asked)))
        if settled is None:
            readings = tuple(
                Heard(n, v, u, line.said(m.start, m.end), hedged=m.hedged)
                for n in names
                for u in ("°C", "°F")
                for v in _parts(m, u, n)
            )
            line.open(
                names or NAMES,
                "°C or °F?",
                m.first,
                m.last,
                tuple(r for r in readings if believable(r.name, r.value)),
                m.end,
            )
            m.taken = True
            return
        unit = settled
    m.taken = True
    first = min(m.first, cue.first) if cue and abs(cue.first - m.first) < 8 else m.first
    last = max(m.last, cue.last - 1) if cue and abs(cue.first - m.first) < 8 else m.last
    start, end = min(line.tokens[first].start, m.start), max(line.tokens[last].end, m.end)
    heard = tuple(Heard(n, v, unit, line.said(start, end), hedged=m.hedged, corrects=m.corrects, start=start, end=end)
                  for n in names for v in _parts(m, unit, n))  # fmt: skip
    settled_names = (m.is_range and _band(m, topic)) or len(names) == 1
    if settled_names and all(believable(h.name, h.value) for h in heard):
        line.facts.extend(heard)
        if not extreme and not m.is_range:
            line.weak.update((h.name, h.start) for h in heard)
        line.used.update(range(first, last + 1))
        return
    why = FAR_OUT if settled_names else "the fluid's or the air's, hottest or coldest?"
    line.open(names, why, m.first, m.last, heard, m.end)


def _not_of_hot_oil(number: float, unit: str) -> bool:
    """ "Oil 60, air 100 F": the unit given next would make the hottest oil cold, and the other one does not."""
    return (unit == "°F" and units.to_si(number, unit) < _STARTS_AT) or (unit == "°C" and number >= OIL_F_FROM)


def _band(m: Measure, topic: str) -> bool:
    return m.is_range and bool(topic)


def _parts(m: Measure, unit: str, name: str) -> list[float | Span]:
    """The value for one fact: of a range the end that the fact is about."""
    if m.is_range:
        return [units.to_si(m.high if name.endswith("max") else m.low, unit)]
    value = units.to_si(m.low, unit)
    return [Span(value, None) if m.bound == "at_least" and name.endswith("max") else value]


def _names(m: Measure, topic: str, extreme: str, unit: str, asked: list[str]) -> tuple[str, ...]:
    celsius = units.to_si(m.high, unit) if unit else m.high
    if m.is_range:
        low = units.to_si(m.low, unit) if unit else m.low
        if topic == "fluid":
            return (
                ("fluid_temperature_max",) if low > _STARTS_AT else ("fluid_temperature_min", "fluid_temperature_max")
            )
        if topic == "ambient":
            return ("ambient_temperature_min", "ambient_temperature_max")
        if asked:
            which = asked[0].split("_")[0]
            return (
                (f"{which}_temperature_min", f"{which}_temperature_max")
                if low <= _STARTS_AT or which == "ambient"
                else (f"{which}_temperature_max",)
            )
        return NAMES
    if asked:
        fitting = [
            a
            for a in asked
            if (not topic or a.startswith(topic))
            and (not extreme or a.endswith("max" if extreme == "hottest" else "min"))
        ]
        if not topic and len(asked) == 1:
            return (asked[0],)
        if len(fitting) == 1:
            return (fitting[0],)
    if not extreme:
        if celsius <= 0:
            extreme = "coldest"
        elif topic == "fluid" or (topic == "ambient" and celsius >= 30):
            extreme = "hottest"
    ends = {"hottest": ("max",), "coldest": ("min",), "": ("max", "min") if topic else ("max",)}[extreme]
    topics = (topic,) if topic else ("fluid", "ambient")
    return tuple(f"{t}_temperature_{e}" for e in ends for t in topics)
