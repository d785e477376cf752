"""What does a short answer mean, given what was asked? Yes and no, a choice by its word, a bare number, a name."""

from __future__ import annotations

import re
from dataclasses import replace

from interview.catalogue import CATALOGUE, FactSpec, Kind
from interview.language.end_sizes import FAMILIES
from interview.language.line import Line
from interview.language.measures import Measure, counts_else
from interview.language.model import SAID, Heard
from interview.language.sizes import DASHES
from interview.language.taking import take
from interview.language.wording import denied
from interview.language.years import is_year

_YES = re.compile(
    r"^\W*(?:(?:yes|yeah|yep|yup|aye|correct|sure|true|y|of course|definitely|certainly|indeed)\b|(?:it (?:does|is|has|"
    r"will)|they (?:do|are)|there (?:is|are))(?:,? (?:indeed|all right|alright|certainly|sometimes))?\W*(?:$|[,.;!]))"
)
_NO = re.compile(
    r"^\W*(?:no|nope|nah|n|false|never|not at all|not really|negative|it (?:doesn'?t|isn'?t)|there (?:isn'?t|"
    r"aren'?t)|none|not needed|not required)\b(?! idea| clue)"
)
_NONE = re.compile(
    r"^\W*(?:none|nothing|neither|no|nope|not any|nil|nowt|none of (?:those|them|these)|nothing like that)"
    r"\W*(?:of (?:those|them|these)|like that|at all)?\W*$"
)


# One word that answers the question and says nothing elsewhere; the fact by the end of its name, for either end.
_WORD_OF = {
    "_gender": {"nut": "female", "nuts": "female"},
    "shock": dict.fromkeys(("hammer", "hammers", "hammering", "bang", "bangs", "banging", "slams"), "severe"),
    "clearance_geometry": {"corner": "right_angle"},
}
# Machines that may well be of a regulated use: here "no" needs more than their name.
_PERHAPS_REGULATED = frozenset(
    ("roof bolter", "tunnel boring machine", "bucket truck", "car lift", "travel hoist", "hoist", "crane", "tractor",
     "bin lorry", "refuse truck", "gritter", "dump truck", "trailer", "log trailer", "tipping trailer")
)  # fmt: skip
_NO_MEANS = {"wear": "none", "motion": "fixed"}


def answer(line: Line) -> None:
    """Completes the asked facts from what the line has left."""
    if "regulated_use" in line.asked:
        _regulated(line)
    _taken_back(line)
    if len(line.asked) > 1 and _NONE.match(line.low) and not (line.facts or line.unclear):
        _none_of_several(line)
        return
    known = {f.name for f in line.facts} | {n for u in line.unclear for n in u.could_be}
    for name in line.asked:
        entry = CATALOGUE[name]
        if name in known:
            if entry.kind is Kind.MANY:
                _more_of_the_list(line, entry)
            continue
        if name.endswith("_size") and entry.kind is Kind.IDENT:
            _size(line, name)
        elif name == "medium":
            _medium(line)
        elif entry.kind is Kind.DAY:
            _day(line, name)
        elif entry.kind is Kind.FLAG:
            _flag(line, name)
        elif entry.kind in (Kind.CHOICE, Kind.MANY):
            _choice(line, entry)
        elif entry.kind is Kind.QUANTITY:
            _number(line, name)
        elif entry.kind is Kind.TEXT:
            _text(line, name)


_TELLING = {
    "brake": "road_brake",
    "brakes": "road_brake",
    "insulated": "insulated_boom",
    "insulating": "insulated_boom",
}


def _regulated(line: Line) -> None:
    """A use that ends the interview must not be missed: asked for it, one telling word of its name is enough."""
    for k, word in enumerate(line.words):
        if word in _TELLING and k not in line.used and denied(line, k) < 0:
            line.add("regulated_use", (_TELLING[word],), k, k)


_USE_WORDS = {
    "steering": ("steering", "steer"),
    "road_brake": ("brake", "brakes", "braking"),
    "person_lift": ("person", "people", "man", "men", "lift", "picker", "platform"),
    "insulated_boom": ("insulated", "insulating"),
    "food": ("food",),
    "ship": ("ship", "vessel"),
    "steam": ("steam",),
}


def _taken_back(line: Line) -> None:
    """ "Power steering hose, no, not steering": said and denied in one line, so it is asked back, and no stop."""
    for fact in [f for f in line.facts if f.name == "regulated_use" and isinstance(f.value, tuple)]:
        values = fact.value
        assert isinstance(values, tuple)
        kept = tuple(v for v in values if not _denied_use(line, fact, v))
        if kept == values:
            continue
        line.facts.remove(fact)
        if kept:
            line.facts.append(replace(fact, value=kept))
        first, last = line.tokens_in(fact.start, fact.end)
        line.open(("regulated_use",), "is it that, or not?", first, last, (replace(fact, value=values),))


def _denied_use(line: Line, fact: Heard, use: str) -> bool:
    words = _USE_WORDS.get(use, (use.replace("_", " "),))
    return any(
        word in words and not fact.start <= line.tokens[k].start < fact.end and denied(line, k) >= 0
        for k, word in enumerate(line.words)
    )


def _none_of_several(line: Line) -> None:
    """ "None" to a question of several kinds: it says nothing of a figure or a yes, only that a list is empty."""
    kinds = {CATALOGUE[name].kind for name in line.asked}
    lists = [name for name in line.asked if CATALOGUE[name].kind is Kind.MANY]
    if kinds == {Kind.FLAG}:
        for name in line.asked:
            line.add(name, False, *_whole(line))
    elif len(lists) == 1 or kinds == {Kind.MANY}:
        for name in lists:
            line.add(name, ("none",) if "none" in CATALOGUE[name].choices else (), *_whole(line))


_ENDS_SIZE = re.compile(
    r"\s*(?:it'?s |its |a |size |dash |#)*(-?\d{1,2}(?:[ -]\d+/\d+)?(?:/\d{1,2})?|\d{1,2}\s?(?:ll|l|s)|"
    r"m\d{2}x\d(?:\.\d)?|half)(?: ?inch| in|\")?\W*"
)
_DASH_ALONE = re.compile(r"(?:^|[,;])\s*(?:size |dash )?-(\d{1,2})\s*(?=[,;]|$)")
_SOON = re.compile(r"\W*(asap|a\.s\.a\.p\.?|as soon as (?:possible|you can)|now|right away|yesterday|straight away)\W*")
_YEAR_MONTH = re.compile(r"\W*(\d{2})/?(\d{2})\W*")


def _size(line: Line, name: str) -> None:
    """A size alone: its family is known to whoever asked."""
    found = _ENDS_SIZE.fullmatch(line.low)
    if found is None:
        dash = _DASH_ALONE.search(line.low)  # "-12, its maker states 250 bar"
        if dash is not None and int(dash[1]) in DASHES:
            line.add(name, f"-{dash[1]}", *line.tokens_in(*dash.span(1)))
            line.spend(*dash.span(1))
        return
    text = found[1]
    if text.isdigit() and int(text) in DASHES and int(text) >= 6:
        text = f"-{text}"
    size = "1/2" if text == "half" else re.sub(r"\s", "-" if "/" in text else "", text)
    if size[-1] in "ls" and not any(size.upper() in FAMILIES[f"cone24_{series}"] for series in ("L", "S", "LL")):
        return
    line.add(name, size.upper() if size[-1] in "ls" or size[0] == "m" else size, *_whole(line))


def _medium(line: Line) -> None:
    low = line.low.strip(" .!")
    if re.fullmatch(r"(?:it'?s |its |just |plain |only |clean )*water", low):
        line.add("medium", "water", *_whole(line))
    elif re.search(r"\b(?:hydraulic|mineral) (?:oil|fluid)\b|^oil$", low):
        readings = tuple(Heard("medium", m, said=line.said(0, len(line.text))) for m in ("hm", "hl", "hv", "hh"))
        line.open(("medium",), "which class stands on the label?", *_whole(line), readings)
    elif re.search(r"\b(?:bio|ester|biodegradable|eco)\b", low) and not any(m.tag == "dont_know" for m in line.marks):
        readings = tuple(Heard("medium", m, said=line.said(0, len(line.text))) for m in ("hees", "hetg", "hepr"))
        line.open(("medium",), "which kind of bio oil?", *_whole(line), readings)


def _day(line: Line, name: str) -> None:
    soon = _SOON.fullmatch(line.low)
    if soon is not None and name == "needed_by":
        line.add(name, f"{SAID}{soon[1]}", *_whole(line))
        return
    pair = _YEAR_MONTH.fullmatch(line.low)
    if pair is not None and name != "needed_by":
        a, b = int(pair[1]), int(pair[2])
        dates = [f"20{y:02d}-{m:02d}" for y, m in ((a, b), (b, a)) if 1 <= m <= 12 and y < 60]
        if dates and is_year(year := pair[1] + pair[2]):
            dates.append(year)
        readings = tuple(Heard(name, d, said=line.said(0, len(line.text))) for d in dict.fromkeys(dates))
        if readings:
            line.open((name,), "a year, or which year and which month?", *_whole(line), readings)


def _whole(line: Line) -> tuple[int, int]:
    return 0, max(0, len(line.tokens) - 1)


_YES_LAST = re.compile(r"[^.;!?]*,\s*(?:yes|yeah|yep|yup|aye)\W*$")
_TAPER = {"taper": True, "tapered": True, "tapering": True, "parallel": False, "straight": False}


def _flag(line: Line, name: str) -> None:
    if any(m.tag == "dont_know" for m in line.marks):
        return
    if name.endswith("_tapered"):
        said = {_TAPER[w] == (denied(line, k) < 0) for k, w in enumerate(line.words) if w in _TAPER}
        if said:
            if len(said) == 1:
                line.add(name, said.pop(), *_whole(line))
            return
    if len(line.asked) > 1 and not _bare_word(line):
        return  # which part of the question a "yes" before other words answers, nobody can tell
    if _NO.match(line.low):
        if not any(f.start == line.tokens[0].start and f.name != name for f in line.facts):  # "no injury" is another no
            line.add(name, False, 0, 0)
    elif _YES.match(line.low):
        line.add(name, True, 0, 0)
    elif _YES_LAST.match(line.low) and not any(denied(line, k) >= 0 for k in range(1, len(line.words))):
        line.add(name, True, *_whole(line))


_A_YES_OR_NO = re.compile(
    r"\W*(?:(?:yes|yeah|yep|yup|aye|no|nope|nah|it (?:does|is|did|has)(?: not|n't)?|not really|of course|definitely|"
    r"certainly|never|y|n|true|false|correct|please|sure)\W*)+$"
)


def _bare_word(line: Line) -> bool:
    """A yes or no that is the whole line, to a question with one part that takes it."""
    flags = [name for name in line.asked if CATALOGUE[name].kind is Kind.FLAG]
    return len(flags) == 1 and _A_YES_OR_NO.fullmatch(line.low) is not None


def _choice(line: Line, entry: FactSpec) -> None:
    low = line.low.strip(" .!")
    if len(line.asked) == 1 and _NO.match(line.low) and entry.name in _NO_MEANS:
        line.add(entry.name, _NO_MEANS[entry.name], *_whole(line))
        return
    if (
        entry.kind is Kind.MANY
        and len(line.asked) == 1
        and (
            (re.match(r"\W*(?:no|none|nope)\s*(?:,|\.|$)", line.low) is not None and not line.facts)
            or _only_a_machine(line)
        )
    ):
        line.add(entry.name, ("none",) if "none" in entry.choices else (), 0, 0)
        return
    telling = next((words for end, words in _WORD_OF.items() if entry.name.endswith(end)), {})
    told = {telling[w]: k for k, w in enumerate(line.words) if w in telling and denied(line, k) < 0}
    if len(told) == 1:
        value, k = told.popitem()
        one = k > 0 and (number := line.tokens[k - 1].number) is not None and number.form == "words"
        line.add(entry.name, value, k - one, k)
        return
    if entry.name == "job_kind" and any(f.name == "failure_sign" for f in line.facts):
        line.add("job_kind", "failed_hose", *_whole(line))
        return
    if entry.name.endswith("_form") and (
        bend := re.fullmatch(
            r"\W*(?:a |an |it'?s )*(90|45)\s?(?:°|deg(?:rees?)?)?(?: (?:elbow|bend|one))?\W*", line.low
        )
    ):
        line.add(entry.name, f"elbow{bend[1]}", *_whole(line))
        return
    if (
        entry.name == "motion"
        and re.search(r"\bmoves?\b|\bmoving\b", low)
        and not re.search(r"n't|\bnot\b|\bno\b(?!\W*(?:,|but\b))", low)
    ):
        readings = tuple(Heard("motion", m, said=line.said(0, len(line.text))) for m in ("flexing", "travelling"))
        line.open(("motion",), "does it bend to and fro, or travel in a chain?", *_whole(line), readings)
        return
    if entry.kind is Kind.MANY and _NONE.match(line.low) and len(line.asked) == 1:
        line.add(entry.name, ("none",) if "none" in entry.choices else (), *_whole(line))
        return
    found = [c for c in entry.choices if re.search(rf"\b{re.escape(c)}\b|\b{re.escape(c.replace('_', ' '))}\b", low)]
    found = [c for c in found if not any(c != d and c in d for d in found)]
    if entry.name.endswith("_seals_at") and not _ON_THE_THREAD.search(line.low):
        found = [c for c in found if c != "thread" and not (c == "bore" and line.measures)]
    if not found or any(m.tag == "dont_know" for m in line.marks):
        return
    if entry.kind is Kind.MANY:
        found = [c for c in found if not _denied_choice(line, c)]
        if found:
            line.add(entry.name, tuple(found), *_whole(line))
    elif len(found) == 1:
        negated = re.search(rf"\b(?:not|no|n't)\b[^,;]*\b{re.escape(found[0].replace('_', ' '))}\b", low)
        word = re.search(rf"\b{re.escape(found[0])}\b|\b{re.escape(found[0].replace('_', ' '))}\b", line.low)
        if not negated and word is not None:
            line.add(entry.name, found[0], *line.tokens_in(*word.span()))


def _more_of_the_list(line: Line, entry: FactSpec) -> None:
    """The flame of "sparks, flame": a word of the list beside one that a phrase has read."""
    for choice in entry.choices:
        for word in re.finditer(
            rf"(?:^|[,;]|\band\b)\W*({re.escape(choice.replace('_', ' '))})\b\W*(?=$|[,;])", line.low
        ):
            first, last = line.tokens_in(*word.span(1))
            if choice != "none" and first not in line.used and denied(line, first) < 0:
                line.add(entry.name, (choice,), first, last)


def _denied_choice(line: Line, choice: str) -> bool:
    word = re.search(rf"\b{re.escape(choice)}\b|\b{re.escape(choice.replace('_', ' '))}\b", line.low)
    return word is not None and choice != "none" and denied(line, line.tokens_in(*word.span())[0]) >= 0


# A thread that is measured or named seals nowhere yet.
_ON_THE_THREAD = re.compile(
    r"^\W*(?:(?:it|it's|seals?|just|only|on|in|at|by|with|the|nothing|but|is|must be|bare|plain|tapered?) )*threads?"
    r"(?: itself| only| alone)?\W*$|\bseal(?:s|ed|ing)? (?:on|in|at|by|with) (?:the |its )?(?:tapered? )?threads?\b|"
    r"\b(?:nothing but|only|just) (?:the |its )?threads?\b(?! [\w.]*\d)"
)
_JUST = re.compile(
    r"\W*(?:no|nope|nah|nothing like that|none of (?:those|these|them))\W+"
    r"(?:(?:it'?s|its|that'?s|just|only|an?|the|ordinary|normal|plain) ?)+"
)


def _only_a_machine(line: Line) -> bool:
    """ "No, it's just a baler": the denial, a machine of our list, and not a word more."""
    found = _JUST.match(line.low)
    named = next((f for f in line.facts if f.name == "machine"), None)
    return (
        found is not None
        and named is not None
        and len(line.facts) == 1
        and str(named.value).lower() not in _PERHAPS_REGULATED
        and line.low[found.end() :].strip(" .!") == str(named.value).lower()
    )


def _counts(name: str) -> bool:
    return CATALOGUE[name].measures in ("rate", "hours", "years", "number", "time")


def _worded(line: Line, m: Measure) -> bool:
    """The "one" of "one corner" and of "one, 600" is an answer in words and no figure."""
    whole = (line.tokens[0].start, line.tokens[-1].end)
    return any(f.start <= m.start and m.end <= f.end and (f.start, f.end) != whole for f in line.facts)


def _number(line: Line, name: str) -> None:
    if name == "bore" and re.fullmatch(r"\W*(?:it'?s |an |one |a |about )*inch\W*(?:hose)?\W*", line.low):
        line.add("bore", 16.0, *_whole(line), unit="in")
        return
    left = [m for m in line.measures if not m.taken and not _worded(line, m)]
    same = [a for a in line.asked if CATALOGUE[a].kind is Kind.QUANTITY and not any(f.name == a for f in line.facts)]
    if len(left) == 1 and (len(same) == 1 or left[0].measures == CATALOGUE[name].measures):
        m = left[0]
        flow = CATALOGUE[name].measures == "flow" and _A_MINUTE.match(line.low, m.end) is not None
        if m.minus and m.unit == "" and any(a.endswith("_size") for a in line.asked):
            return  # a dash number is the size that was asked for too
        if m.unit == "other" or (m.unit == "" and not _counts(name) and counts_else(line.low, m.end) and not flow):
            return
        if take(line, name, m, asked=True):
            return
        if m.unit == "" and name != "bore" and CATALOGUE[name].measures in ("number", "grade", "size"):
            line.facts.append(Heard(name, m.low, "", line.said(m.start, m.end), start=m.start, end=m.end))


def _left_over(line: Line) -> str:
    """The one stretch of which nothing was taken; the words of another answer are no name."""
    taken = [(f.start, f.end) for f in line.facts] + [(u.start, u.end) for u in line.unclear]
    pieces = [m.span() for m in re.finditer(r"[^,;]+", line.low)]
    free = [(a, b) for a, b in pieces if not any(a < end and start < b for start, end in taken)]
    if len(free) == 1:
        return line.text[slice(*free[0])].strip(" .;,")
    rest = list(line.text)
    for start, end in taken:
        rest[start:end] = " " * (end - start)
    named = _ON_A.search("".join(rest).rstrip(" .;,!"))  # "pressure line on the bale squeezer"
    return named[1] if named is not None and not free else ""


_ON_A = re.compile(
    r"\b(?:on|off|for|from|of) (?:the|an?|my|our|his|their|this|that) ([a-z][\w -]{2,40}?)"
    r"(?: (?:in|on|at|by) (?:the|an?))?$",
    re.IGNORECASE,
)


_A_MINUTE = re.compile(r"\s*(?:a|per|each|/)\s*min(?:ute)?\b")


_ASKING = re.compile(r"\W*(?:what|which|why|who|where|when|how|do you|does it|is it|is that|should i|can i|sorry)\b")
_PRINTED = re.compile(r"\d|\b[A-Z]{2,}\b")  # a print on a hose has a figure in it, or capitals


def _text(line: Line, name: str) -> None:
    text = line.text.strip(" .;")
    spoken = max((f.end - f.start for f in line.facts if CATALOGUE[f.name].kind is not Kind.TEXT), default=0)
    if name != "layline" and ((len(line.asked) > 1 and (line.facts or line.unclear)) or spoken > 0.5 * len(text)):
        text = _left_over(line)
    if not text or len(text) > 120 or any(m.tag == "dont_know" for m in line.marks) or re.fullmatch(r"\W*", text):
        return
    if name == "cleanliness" or re.search(
        r"\b(?:no|not|can't|cannot|couldn't|don't|gone|worn|illegible|unreadable|isn't|nothing|none)\b", line.low
    ):
        return
    if _NO.match(line.low) or _YES.match(line.low) or (line.facts and len(line.words) > 6):
        return
    if _ASKING.match(line.low) or line.low.rstrip().endswith("?") or (name == "layline" and not _PRINTED.search(text)):
        return
    text = re.sub(r"^(?:it'?s|its|the|this is|a|an|for|name is|called)\s+(?:a |an |the )?", "", text, flags=re.I)
    line.add(name, text, *_whole(line))
