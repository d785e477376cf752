"""How many, how often, how long, when, at which angle, and what is it called?"""

from __future__ import annotations

import re

from interview.facts import CATALOGUE, Kind, Span
from interview.language.convert import believable
from interview.language.line import Line
from interview.language.measures import Measure
from interview.language.model import SAID, Heard

_PER = {"minute": 60.0, "min": 60.0, "mins": 60.0, "hour": 1.0, "hr": 1.0, "second": 3600.0, "sec": 3600.0}
_CYCLES = frozenset(
    "cycle cycles stroke strokes times time lifts operations presses hits shifts tips loads bales pressings movements "
    "cycling pulses impulses".split()
)
_OFF = re.compile(
    r"\s*(?:x\s+)?(?:-?off\b|pcs\b|pieces?\b|of (?:them|these|those|'?em|the same)\b|nos\b|hoses\b|assemblies\b|"
    r"identical\b|units\b|sets?\b|"
    r"ea\b|each please\b|required\b|please\b|(?:[a-z0-9/.-]+ ){0,3}hoses\b|lengths?\b)"
)
_WANT = re.compile(
    r"(?:qty|quantity|quantities)(?: of| is|:)?\s*$|(?:need|want|make|order|do|supply|send|build|take|after)(?: me| "
    r"us| another| about| up)?\s*$"
)
_PLURAL = re.compile(
    r"\s*(?:$|[,.;!?]|off\b|please\b|of\b|for\b|by\b|made\b|like\b|the same\b|altogether\b|in total\b|this time\b)"
)
_HOURS_DAY = re.compile(r"\s*(?:a|per|each|every|/)\s?(?:day|shift)")
_HOURS_WEEK = re.compile(r"\s*(?:a|per|each|every|/)\s?week")
_YEAR = re.compile(r"\s*(?:a|per|each|every|/|in a)\s?(?:year|yr|annum)")
_WEEK = re.compile(r"\s*(?:a|per|each|/)\s?week")


def hear_counts(line: Line) -> None:
    """Counts, rates and duty; before numbers are bound to anything else."""
    for i, m in enumerate(line.measures):
        if m.taken:
            continue
        _rate(line, m) or _duty(line, i, m) or _quantity(line, m)
    for pattern, number in (
        (r"\bonce (?:a|per|every|each) (minute|hour|second)\b", 1.0),
        (r"\btwice (?:a|per|every|each) (minute|hour|second)\b", 2.0),
        (r"\bevery (minute|second)\b", 1.0),
    ):
        found = re.search(pattern, line.low)
        if found and not any(f.name == "cycle_rate" for f in line.facts):
            _put(line, "cycle_rate", number * _PER[found[1]], found.start(), found.end())
    _words_of_number(line)


def _put(line: Line, name: str, value: float, start: int, end: int, unit: str = "", m: Measure | None = None) -> bool:
    heard = Heard(
        name,
        value,
        unit,
        line.said(start, end),
        hedged=bool(m and m.hedged),
        corrects=bool(m and m.corrects),
        start=start,
        end=end,
    )
    if m is not None:
        m.taken = True
    if not believable(name, value):
        line.open(
            (name,), "is that figure right? It is far outside what is usual", *_tokens(line, start, end), (heard,)
        )
        return True
    line.facts.append(heard)
    line.used.update(range(_tokens(line, start, end)[0], _tokens(line, start, end)[1] + 1))
    return True


def _tokens(line: Line, start: int, end: int) -> tuple[int, int]:
    inside = [k for k, t in enumerate(line.tokens) if t.start < end and t.end > start]
    return (inside[0], inside[-1]) if inside else (0, 0)


def _rate(line: Line, m: Measure) -> bool:
    if m.is_range:
        return False
    words = line.words
    k = m.last + 1
    if m.unit == "":
        seen = False
        while (
            k < len(words) and k <= m.last + 3 and (words[k] in _CYCLES or words[k] in ("pressure", "full", "complete"))
        ):
            seen = seen or words[k] in _CYCLES
            k += 1
        if k + 1 < len(words) and words[k] in ("a", "per", "every", "each", "an", "/") and words[k + 1] in _PER:
            a, b = line.clause(m.first, frozenset({".", ";"}))
            near = seen or any(w in _CYCLES for w in words[a:b]) or "cycle_rate" in line.asked
            if near:
                return _put(line, "cycle_rate", m.low * _PER[words[k + 1]], m.start, line.tokens[k + 1].end, "1/h", m)
    elif m.unit in ("s", "min", "h") and m.first and words[m.first - 1] == "every":
        a, b = line.clause(m.first, frozenset({".", ";"}))
        if any(w in _CYCLES for w in words[a:b]) or "cycle_rate" in line.asked or "every" in words[a:b]:
            seconds = m.low * {"s": 1.0, "min": 60.0, "h": 3600.0}[m.unit]
            if seconds > 0:
                return _put(line, "cycle_rate", 3600.0 / seconds, line.tokens[m.first - 1].start, m.end, "1/h", m)
    return False


def _duty(line: Line, i: int, m: Measure) -> bool:
    if m.unit != "h":
        return False
    after = line.low[m.end : m.end + 24]
    if _YEAR.match(after) or re.match(r"\s*(?:annually|yearly|pa\b|p\.a)", after):
        if m.is_range or m.bound == "at_least":
            m.taken = True
            line.add(
                "hours_per_year",
                Span(m.low, m.high if m.is_range else None),
                m.first,
                m.last,
                unit="h",
                hedged=m.hedged,
            )
            return True
        return _put(line, "hours_per_year", m.low, m.start, m.end, "h", m)
    follower = line.measures[i + 1] if i + 1 < len(line.measures) else None
    day = _HOURS_DAY.match(after)
    if (
        follower is not None
        and follower.unit == "day"
        and follower.start - m.end < 24
        and (day or re.match(r"\s*(?:x|by)\s*$", line.low[m.end : follower.start]))
    ):
        tail = line.low[follower.end : follower.end + 20]
        if _WEEK.match(tail):
            weeks = line.measures[i + 2] if i + 2 < len(line.measures) else None
            if weeks is not None and weeks.unit == "week":
                weeks.taken = True
                follower.taken = True
                return _put(line, "hours_per_year", m.low * follower.low * weeks.low, m.start, weeks.end, "h", m)
            follower.taken = True
            m.taken = True
            readings = tuple(
                Heard("hours_per_year", m.low * follower.low * w, "h", line.said(m.start, follower.end))
                for w in (50.0, 52.0)
            )
            line.open(("hours_per_year",), "how many weeks a year?", m.first, follower.last, readings, follower.end)
            return True
        follower.taken = True
        return _put(line, "hours_per_year", m.low * follower.low, m.start, follower.end, "h", m)
    if day or _HOURS_WEEK.match(after):
        m.taken = True
        line.open(("hours_per_year",), "how many days (or weeks) a year?", m.first, m.last, (), m.end)
        return True
    return False


def _quantity(line: Line, m: Measure) -> bool:
    if m.unit not in ("",) or m.is_range or m.minus or m.form not in ("int", "words") or m.low < 1 or m.low > 5000:
        return False
    if any(f.name == "quantity" for f in line.facts) or m.first in line.used:
        return False
    before = line.low[max(0, m.start - 28) : m.start]
    after = line.low[m.end : m.end + 40]
    wanted = _WANT.search(before)
    if wanted and wanted.group().strip().startswith(("qty", "quantit")):
        return _put(line, "quantity", m.low, m.start, m.end, "", m)
    if re.match(
        r"\s*(?:wire|spiral|braid|ply|year|month|week|day|inch|end|both|weeks|of the (?:ends|fittings))", after
    ):
        return False
    if _OFF.match(after):
        strict = re.match(
            r"\s*(?:x\s+)?(?:-?off\b|pcs\b|pieces?\b|of (?:them|these|those|'?em)|nos\b|identical|hoses\b|assemblies)",
            after,
        )
        if strict or wanted:
            return _put(line, "quantity", m.low, m.start, m.end, "", m)
        if re.match(r"\s*(?:[a-z0-9/.-]+ ){1,3}hoses\b", after) and (
            m.start == 0 or line.low[: m.start].strip(" ,") == ""
        ):
            return _put(line, "quantity", m.low, m.start, m.end, "", m)
    if (
        wanted
        and not wanted.group().strip().startswith("for")
        and _PLURAL.match(after)
        and line.tokens[m.last].text != "one"
    ):
        return _put(line, "quantity", m.low, m.start, m.end, "", m)
    return False


def _words_of_number(line: Line) -> None:
    if any(f.name == "quantity" for f in line.facts):
        return
    found = re.search(
        r"\b(?:(half a dozen)|(two dozen)|((?:a|one) dozen)|((?:a|matched|one) pair of (?:them|these|hoses|those)|a "
        r"pair\b|in pairs)|(just (?:the )?one(?: of (?:them|these))?(?=$|[,.; ])))",
        line.low,
    )
    if found is None:
        return
    value = (6.0, 24.0, 12.0, 2.0, 1.0)[next(i for i, g in enumerate(found.groups()) if g)]
    if found[5] and re.match(r"\s*(?:end|side|wire|plane|way|direction)", line.low[found.end() :]):
        return
    for m in line.measures:
        if m.start < found.end() and m.end > found.start():
            m.taken = True
    _put(line, "quantity", value, found.start(), found.end())


_DATE_FACTS = ("hose_date", "assembly_date", "fitted_date", "needed_by")


def hear_dates(line: Line) -> None:
    """Dates by the word nearest to each; a date whose day and month could be swapped is asked back."""
    if any(f.name == "hose_date" for f in line.facts):
        layline_date = next(f for f in line.facts if f.name == "hose_date")
    else:
        layline_date = None
    cues = [c for c in line.cues if c.tag in _DATE_FACTS]
    for label in line.labels:
        if label.kind not in ("date", "month", "quarter", "weekday", "day_unclear"):
            continue
        if layline_date is not None and label.start == layline_date.start:
            continue
        tokens = [k for k in line.label_at if line.label_at[k] is label]
        if not tokens:
            continue
        first, last = min(tokens), max(tokens)
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


_DIRECTION = re.compile(r"\b(?:(counter[- ]?clockwise|anti[- ]?clockwise|ccw)|(clockwise|cw))\b")
_OPPOSED = re.compile(
    r"\b(?:opposite (?:ways|directions|each other)|pointing opposite|180 (?:degrees |deg |° ?)?(?:apart|opposed|to "
    r"each other|out)|opposed to each other|back to back elbows)\b"
)
_ALIKE = re.compile(
    r"\b(?:(?:both|elbows|ends) (?:pointing|point|face|facing|looking) the same (?:way|direction)|in line with each "
    r"other|0 degrees? between)\b"
)
_OCLOCK = re.compile(r"\b(\d{1,2}|three|six|nine|twelve|two|four|five|seven|eight|ten|eleven|one) o'?clock\b")


def hear_angle(line: Line) -> None:
    """The angle between two bent ends: counter-clockwise as it is, clockwise the rest of the circle, 180 either way."""
    if any(f.name == "end_angle" for f in line.facts):
        return
    opposed, alike = _OPPOSED.search(line.low), _ALIKE.search(line.low)
    if opposed is not None or alike is not None:
        found = opposed or alike
        assert found is not None
        for m in line.measures:
            if m.start < found.end() and m.end > found.start():
                m.taken = True
        _put(line, "end_angle", 180.0 if opposed else 0.0, found.start(), found.end(), "deg")
        return
    clock = _OCLOCK.search(line.low)
    if clock is not None and re.search(r"end|elbow|fitting|angle|orient", line.low):
        words = {
            "three": 3,
            "six": 6,
            "nine": 9,
            "twelve": 12,
            "one": 1,
            "two": 2,
            "four": 4,
            "five": 5,
            "seven": 7,
            "eight": 8,
            "ten": 10,
            "eleven": 11,
        }
        hour = words.get(clock[1]) or int(clock[1]) if not clock[1].isdigit() else int(clock[1])
        first, last = _tokens(line, clock.start(), clock.end())
        for m in line.measures:
            if m.start < clock.end() and m.end > clock.start():
                m.taken = True
        if hour == 6 or hour == 12:
            line.open(("end_angle",), "seen from which end, and counted from where?", first, last)
        else:
            readings = tuple(
                Heard("end_angle", float(a), "deg", line.said(clock.start(), clock.end()))
                for a in ((hour * 30) % 360, (360 - hour * 30) % 360)
            )
            line.open(("end_angle",), "clockwise or counter-clockwise, looking along the hose?", first, last, readings)
        return
    seats = [(c.first, c.last) for c in line.cues if c.tag == "end_a_seat_angle"]
    cues = [c for c in line.cues if c.tag == "end_angle" and not any(a <= c.first < b for a, b in seats)]
    for m in line.measures:
        if m.taken or m.unit not in ("deg", "") or m.is_range or not 0 <= m.low <= 360:
            continue
        near = any(abs(c.first - m.last) <= 5 or abs(m.first - c.last) <= 3 for c in cues)
        asked = "end_angle" in line.asked
        if (
            m.unit == ""
            and not asked
            and not (
                near
                and (
                    _DIRECTION.search(line.low)
                    or any(
                        "angle" in line.words[c.first : c.last] or "clocked" in line.words[c.first : c.last]
                        for c in cues
                    )
                )
            )
        ):
            continue
        if not (near or asked):
            continue
        turn = _DIRECTION.search(line.low)
        if m.low in (0.0, 180.0, 360.0):
            _put(line, "end_angle", m.low % 360, m.start, m.end, "deg", m)
        elif turn is not None:
            angle = m.low if turn[1] else 360.0 - m.low
            _put(line, "end_angle", angle, min(m.start, turn.start()), max(m.end, turn.end()), "deg", m)
        else:
            said = line.said(m.start, m.end)
            readings = tuple(Heard("end_angle", a, "deg", said) for a in (m.low, 360.0 - m.low))
            line.open(
                ("end_angle",),
                "clockwise or counter-clockwise, looking along the hose?",
                m.first,
                m.last,
                readings,
                m.end,
            )
            m.taken = True
        return


_TAG = re.compile(
    r"\b(?:line |hose |asset )?(?:tag(?:ged)?|line (?:no|number|tag)|hose (?:no|number)|asset(?: (?:no|number))?|"
    r"position)\.?(?: is|:| no\.?| number)?\s+#?((?=[a-z0-9./_-]*\d)[a-z0-9][a-z0-9./_-]*)"
)
_CUSTOMER = re.compile(
    r"(?:\bcustomer(?:'s| is|:)?(?: called| name is)?\s+|\baccount(?: name)?(?: is|:)\s+|\b(?:it's|its|this is|i'm|"
    r"here is|speaking)\s+(?:[A-Za-z]+\s+){0,3}?(?:from|at|of|with|for)\s+|\bcompany(?: is|:| name is)?\s+|"
    r"\b(?:calling|ringing|phoning) from\s+|\bname's\s+)"
    r"((?:the )?[A-Z][\w&'.-]*(?:\s+(?:[A-Z&][\w&'.-]*|of|and|the))*)"
)
_COMPANY = re.compile(
    r"\b((?:[A-Z][\w'-]+\s+){1,4}(?:Ltd|Limited|Inc|LLC|GmbH|Co|Company|Sons|Brothers|Bros|Farms?|Sawmills?|"
    r"Quarries|Quarry|Estates?|Haulage|Engineering|Contractors|Plant Hire|Recycling|Foundry|Joinery|Boatyard|"
    r"Vineyards?|Vines|Mills?|Stores|Brick|Tiles|Linen|Cider|Timber|Dairy|Creamery|Bakery|Forestry)(?:\s+(?:Ltd|"
    r"Limited|Co-op|Stores|Haulage))?)\b(?!\s+(?:line|hose|is))"
)
_MACHINES = (
    "mini excavator|excavator|digger|backhoe loader|backhoe|wheel loader|skid steer loader|skid steer|telehandler|"
    "forklift truck|forklift|fork truck|"
    "log splitter|wood splitter|log turner|harvester|forwarder|skidder|tractor|baler|combine|sprayer|mower|leaf "
    "trimmer|hedge cutter|hedge trimmer|"
    "tipping trailer|tipper|log trailer|trailer|dump truck|dumper|bin lorry|refuse truck|gritter|crane|deck winch|"
    "winch|travel hoist|hoist|"
    "brick press|clamp press|moulding press|molding press|injection moulder|injection molding machine|die casting "
    "machine|press brake|press|"
    "shear|baling press|compactor|crusher|conveyor|drill rig|drilling rig|piling rig|rig|paver|roller|grader|"
    "bulldozer|dozer|scraper|"
    "concrete pump|road sweeper|sweeper|lathe|milling machine|kiln car pusher|pusher|shredder|chipper|wood chipper|"
    "stump grinder|"
    "loader|scissor lift|cherry picker|car lift|dock leveller|dock leveler|power pack|test bench|test rig|grapple|"
    "trencher|ditcher|"
    "cherry picker|tunnel boring machine|roof bolter|feller buncher|saw line|sawmill carriage|palletiser|filter "
    "press|bucket truck|snow plough|snow plow"
)
_LEAD = r"(?:off|on|from|of|for|it's|its|is|got|have|with|our|my|the|a|an|this|fit|fits|by)"
_MACHINE = re.compile(
    rf"\b{_LEAD} (?:an? |the |my |our |his |their |old |big |this |that |little ){{0,3}}(?:[a-z]+(?:-[a-z]+)? "
    rf")??((?:{_MACHINES})s?)\b(?! (?:oil|fluid|line|hose|\d))"
    rf"|(?:^|[,.;:] )((?:{_MACHINES}))(?=\s*(?:[,.;]|$))"
)
_MACHINE_NAMED = re.compile(
    r"\bmachine(?:'s| is|:| is called) (?:an? |the )((?!one|\d|rated|down|runs|has|in|on|at|is|not|was|makes|does|"
    r"stood|standing)[a-z][a-z0-9 -]{2,40}?)(?=[,.;]|$| with | and | it | which )"
)


def hear_names(line: Line) -> None:
    """Customer, machine and tag: only where a word says that this is what follows."""
    tag = _TAG.search(line.low)
    if tag is not None:
        _name(line, "line_tag", tag.start(1), tag.end(1))
    customer = _CUSTOMER.search(line.text) or _COMPANY.search(line.text)
    if customer is not None:
        _name(line, "customer", customer.start(1), customer.end(1))
    machine = _MACHINE.search(line.low)
    named = _MACHINE_NAMED.search(line.low)
    span = None
    if machine is not None:
        span = machine.span(1) if machine[1] else machine.span(2)
    if named is not None and (span is None or named.start() <= span[0]):
        span = named.span(1)
    if span is not None and not (customer is not None and customer.start(1) <= span[0] < customer.end(1)):
        _name(line, "machine", *span)


def _name(line: Line, name: str, start: int, end: int) -> None:
    if any(f.name == name for f in line.facts):
        return
    text = line.text[start:end].strip(" ,.;")
    line.facts.append(Heard(name, text, "", text, start=start, end=end))
    first, last = _tokens(line, start, end)
    if name != "machine":
        line.used.update(range(first, last + 1))
        for m in line.measures:
            if start <= m.start < end:
                m.taken = True
