"""Who is the customer, which machine is it, what is on the tag?"""

from __future__ import annotations

import re

from interview.language.line import Line
from interview.language.model import Heard

_TAG = re.compile(
    r"\b(?:line |hose |asset )?(?:tag(?:ged)?|line (?:no|number|tag)|hose (?:no|number)|asset(?: (?:no|number))?|"
    r"position)\.?(?: is|:| no\.?| number)?\s+#?((?=[a-z0-9./_-]*\d)[a-z0-9][a-z0-9./_-]*)"
)


_CUSTOMER = re.compile(
    r"(?:\bcustomer(?:'s| is|:)?(?: called| name is)?\s+|\baccount(?: name)?(?: is|:)\s+|\b(?:it's|its|this is|i'm|"
    r"here is|speaking)\s+(?:[A-Za-z]+\s+){0,3}?(?:from|at|of|with|for)\s+|\bcompany(?: is|:| name is)?\s+|"
    r"\b(?:calling|ringing|phoning) from\s+|\bname's\s+)"
    r"((?:the )?[A-Z][\w&'-]*(?:\s+(?:[A-Z&][\w&'-]*|of|and|the))*)"
)


_COMPANY = re.compile(
    r"\b((?:[A-Z][\w'-]+\s+){1,4}(?:Ltd|Limited|Inc|LLC|GmbH|Co-op|Co|Company|Sons|Brothers|Bros|Farms?|Sawmills?|"
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


_MACHINE_PART = re.compile(
    rf"(?:^|[,.;:] |\b{_LEAD} )(?:an? |the |my |our )?((?:{_MACHINES}) (?:boom|jib|mast|bucket|slew|outrigger))\b"
)
_MACHINE_LISTED = re.compile(
    rf"\bmachine:? (?:an? |the )?((?:{_MACHINES}))\b|(?:^|[,.;:] )machine ((?!one|side|end|ports?\b|"
    r"\d|rated|down|runs|has|in|on|at|is|not|was|makes|does|stood|standing|oil|shop|press|tool)"
    r"[a-z][a-z0-9 -]{2,40}?)(?=[,.;]|$| customer\b)"
)


def hear_names(line: Line) -> None:
    """Customer, machine and tag: only where a word says that this is what follows."""
    tag = _TAG.search(line.low)
    if tag is not None:
        _name(line, "line_tag", tag.start(1), tag.end(1))
    customer = _CUSTOMER.search(line.text) or _COMPANY.search(line.text)
    if customer is not None:
        start, end = customer.span(1)
        _name(line, "customer", start, end)
        # The yard or the shed of a firm's name is not where the hose sits; a regulated use in it still counts.
        line.facts = [f for f in line.facts if not (f.name == "surroundings" and start <= f.start and f.end <= end)]
    machine = _MACHINE.search(line.low)
    named = _MACHINE_NAMED.search(line.low)
    span = None
    if machine is not None:
        span = machine.span(1) if machine[1] else machine.span(2)
    if named is not None and (span is None or named.start() <= span[0]):
        span = named.span(1)
    part = _MACHINE_PART.search(line.low)
    if part is not None and (span is None or span[0] == part.start(1)):
        span = part.span(1)
    if span is None and (listed := _MACHINE_LISTED.search(line.low)) is not None:
        span = listed.span(1) if listed[1] else listed.span(2)
    if span is not None and not (customer is not None and customer.start(1) <= span[0] < customer.end(1)):
        _name(line, "machine", *span)


def _name(line: Line, name: str, start: int, end: int) -> None:
    if any(f.name == name for f in line.facts):
        return
    text = line.text[start:end].strip(" ,.;")
    line.facts.append(Heard(name, text, "", text, start=start, end=end))
    first, last = line.tokens_in(start, end)
    if name != "machine":
        line.used.update(range(first, last + 1))
        line.spend(start, end)
