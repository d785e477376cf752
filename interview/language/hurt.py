"""Is somebody hurt? A jet of oil, a whipping hose or a prick felt along it, and a body it met.

Heard rather once too often than once too seldom: oil under the skin looks like nothing on the first day. Only a
plain "nobody was hurt" says that nobody is.
"""

from __future__ import annotations

import re

from interview.language.line import Line
from interview.language.model import Heard

_BODY = (
    r"(?:hands?|fingers?|fingertips?|thumbs?|palms?|wrists?|forearms?|arms?|legs?|feet|foot|face|eyes?|skin|knuckles?|"
    r"gloves?|cheek|neck|chest|belly|knees?|lips?|nose|ears?|head|shoulder|back)"
)
_WHOSE = r"(?:his|her|my|their|our|(?:mate|lad|man|bloke|fitter|driver|operator|brother|son|boss|guy|apprentice)'?s)"
_PEOPLE = (
    r"(?:him|her|them|me|us|somebody|someone|(?:(?:my|the|our|a|one of (?:the|my|our)) )?(?:mates?|lads?|man|men|bloke|"
    r"fitter|driver|operator|brother|dad|son|boss|helper|guys?|apprentice|worker|colleague|mechanic))"
)
_MET = (
    r"(?:got|hits?|caught|whipped|lashed|struck|smacked|sprayed|squirted|soaked|burnt|burned|scalded|cut|stung|slapped)"
)
_HARM = (
    r"(?:swollen|swelling|swelled|swole|numb|stung|stings?|stinging|throbb\w+|sore|hurts?|aches?|tingl\w+|pricks?|"
    r"pricked|pierced|punctured?|inject\w+|sprayed|squirted|jetted|shot (?:in|through|up)\w*|whipped|lashed|struck|"
    r"smacked|burnt|"
    r"burned|scalded|bleed\w*|bled|blood|red (?:dot|spot|mark)|wound\w*|jet|spray|squirt)"
)
_ADVERB = r"(?: (?!hoses?\b|samples?\b|one\b|fittings?\b|ends?\b)[\w']+)"
_IF = r"(?:would|could|might|may|will|can|if|to|must|should)"
_WORDS = tuple(
    re.compile(words)
    for words in (
        rf"\b{_WHOSE} (?:left |right |own |bare |whole |index )?{_BODY}\b[^.;!?]*\b{_HARM}\b",
        rf"\b{_HARM}\b[^.;!?]*\b{_WHOSE} (?:left |right |own |bare |whole |index )?{_BODY}\b",
        rf"\b(?:oil|fluid|diesel|grease|jet|spray|stream|emulsion)\b{_ADVERB}{{0,5}}? "
        rf"(?:in|into|under|through|on|onto|over|up|at|hit) {_WHOSE} (?:left |right |own |bare )?{_BODY}\b",
        rf"\b{_MET} (?:{_PEOPLE} )(?:right |straight |full )?(?:in|on|across|through|under|round) (?:the|his|her|"
        rf"my) {_BODY}\b",
        rf"\b(?:oil|fluid|jet|spray|stream|hoses?|line|fitting|coupling|it)\b{_ADVERB}{{0,4}}? {_MET} {_PEOPLE}\b"
        r"(?! (?:to|thinking|an?|one|out|back|here|into|this|that|some|in trouble|by surprise)\b)",
        r"\b(?:needle|pin)[ -]?(?:prick|stick)\w* (?:feeling|sensation)|\bneedle[ -]?(?:prick|stick)\w*\b|"
        r"\bpins and needles\b",
        r"\bfe(?:lt|el|els|eling) (?:a |an |it |the |some |something |like a |sort of |kind of )*(?:sharp |small |"
        r"tiny )*"
        r"(?:prick|sting|jab|stab|needle)\w*\b",
        rf"\b(?:pricked|stung|stabbed|jabbed) {_PEOPLE}\b|\b(?:i|he|she|they) (?:got |was |were |been )+(?:stung|"
        rf"pricked)\b",
        r"\bred (?:dot|spot|mark|pinprick)s?\b(?! (?:painted |printed )?on (?:the|a|its|each|it)\b)",
        rf"\bpuncture (?:mark|wound)s?\b|\bunder the skin\b|\b(?:can't|cannot|can not|"
        rf"couldn't) feel {_WHOSE} {_BODY}\b",
        r"\b(?:he|she|they|i|lad|mate|man|bloke|fitter|driver|operator|somebody|someone|who)(?:'s|'m|'re| is| was|"
        r" were| am|"
        r" are)?(?: still| now| badly)? (?:bleeding|bled|bleeds)\b(?! (?:the|it|air|off|down|out|oil|a|brakes)\b)|"
        r"\bbleeding (?:badly|a lot|hand|finger|face)\b|\bblood (?:everywhere|on|all over|from|running|coming)\b",
    )
)
_UNHURT = re.compile(
    r"\b(?:no (?:injur(?:y|ies)|casualties|one injured|one hurt)|(?:nobody|no ?one|none of (?:us|them|the lads)|"
    r"no body)(?:'s)?"
    r"(?: (?:was|is|were|got|has been|been|ever|has|have|here))* (?:hurt|injured|hit|sprayed|burnt|burned|harmed|"
    r"cut))\b"
)


def hear_hurt(line: Line) -> bool:
    """True where somebody was hurt. A plain denial is a fact, and its words say nothing else."""
    unhurt = [found.span() for found in _UNHURT.finditer(line.low)]
    spans = [
        (line.tokens[m.first].start, line.tokens[m.last - 1].end)
        for m in line.marks
        if m.tag == "injury" and not _nobody(line, line.tokens[m.first].start)
    ]
    spans += [
        found.span()
        for words in _WORDS
        for found in words.finditer(line.low)
        if not _nobody(line, found.start()) and not _supposed(found)
    ]
    spans = [(a, b) for a, b in spans if not any(a < end and start < b for start, end in unhurt)]
    if spans:
        start, end = min(spans)
        line.facts.append(Heard("injury", True, "", line.said(start, end), start=start, end=end))
        return True
    for start, end in unhurt:
        if not any(f.name == "injury" for f in line.facts):
            line.facts.append(Heard("injury", False, "", line.said(start, end), start=start, end=end))
        first, last = line.tokens_in(start, end)
        line.used.update(range(first, last + 1))
    return False


def _nobody(line: Line, at: int) -> bool:
    return re.search(r"\b(?:nobody|no ?one|none of (?:us|them))(?: [\w']+){0,2} $", line.low[:at]) is not None


_SUPPOSED = re.compile(rf"\b{_IF} (?:well |easily )?(?:get|hit|catch|spray|soak|burn|cut|squirt|\w+ed|hits?)\b|\bif\b")


def _supposed(found: re.Match[str]) -> bool:
    """What a jet would do to the driver has not been done to him."""
    return _SUPPOSED.search(found.group()) is not None
