"""Which words of a line are codes: a layline, an oil grade, a thread, a date, a phone number?

Codes are found before numbers are, so that a thread is not a length and a date is not a pressure.
"""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Label:
    """One code. `data` is what it says in the form its reader wants."""

    kind: str  # construction | date | month | quarter | day_unclear | weekday | oil | thread | cone | clean | none
    start: int
    end: int
    data: str = ""


_MONTHS = {m: i + 1 for i, m in enumerate("jan feb mar apr may jun jul aug sep oct nov dec".split())}
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|"
    r"nov(?:ember)?|"
    r"dec(?:ember)?)"
)
_DAY = r"(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri|sat(?:ur)?|sun)(?:day)?"
_ALL = re.compile(
    r"(?P<iso>\b(?:19|20)\d\d-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\d|3[01])\b)"
    r"|(?P<isomonth>\b(?:19|20)\d\d-(?:0[1-9]|1[0-2])(?![\d-]))"
    r"|(?P<isoquarter>\b(?:19|20)\d\d[- ]?q[1-4]\b)"
    r"|(?P<clean>\b\d{2}/\d{2}/\d{2}\b)"
    r"|(?P<slash>\b\d{1,2}[/.]\d{1,2}[/.](?:(?:19|20)\d\d|\d\d)\b(?![/.]\d))"
    r"|(?P<slashmonth>\b(?:0?[1-9]|1[0-2])/(?:19|20)\d\d\b)"
    r"|(?P<quarter>\b[1-4]q\s?(?:20|19)?\d\d\b|\bq[1-4][ /-]?(?:(?:19|20)\d\d|\d\d)\b)"
    r"|(?P<quarterwords>\b(?:first|second|third|fourth|last|1st|2nd|3rd|4th) quarter (?:of )?(?:(?:19|20)\d\d|'\d\d))"
    rf"|(?P<daymonth>\b\d{{1,2}}(?:st|nd|rd|th)? (?:of )?{_MONTH}(?:,? (?:(?:19|20)\d\d|'\d\d))?\b)"
    rf"|(?P<monthday>\b{_MONTH} \d{{1,2}}(?:st|nd|rd|th)?(?:,? (?:19|20)\d\d)\b|\b{_MONTH} \d{{1,2}}(?:st|nd|rd|th)\b)"
    rf"|(?P<month>\b{_MONTH}[ ,]{{1,2}}(?:of )?(?:(?:19|20)\d\d|'\d\d)\b)"
    rf"|(?P<weekday>\b(?:(?:next|this|coming|on|by|before|for|come) )?(?:{_DAY})(?: week| morning| afternoon| next| "
    rf"at the latest| first thing| lunchtime| evening)?\b"
    r"|\btomorrow(?: morning| afternoon| night| lunchtime)?\b|\bday after tomorrow\b|\btonight\b|\b(?:end of|next|"
    r"this) (?:the )?(?:week|month)\b"
    r"|\btoday\b|\bby (?:noon|lunchtime|close of play)\b|\bend of play\b)"
    r"|(?P<money>[£$€]\s?\d[\d,.]*)"
    r"|(?P<clock>\b\d{1,2}(?:[:.]\d\d)?\s?(?:am|pm)\b|\b\d{1,2}:\d\d\b|\b\d{1,2} o'?clock\b(?!.{0,30}(?:other|end|"
    r"elbow)))"
    r"|(?P<phone>\+\d[\d ()-]{7,}\d|\b0\d{2,4}[ -]\d{3,}(?:[ -]\d{2,})?\b|\b\d{3}[ -]\d{3}[ -]\d{4}\b|\b0\d{9,10}\b|"
    r"\b\d{3}-\d{4}\b)"
    r"|(?P<metric>\bm\s?\d{1,2}(?:[.,]\d+)?\s?x\s?\d(?:[.,]\d+)?\b)"
    r"|(?P<inchthread>\b(?:\d[ -])?\d{1,2}/\d{1,2}(?:\s?-|\s?x\s?)\s?(?:1[0-9]|2[0-8]|11\.5)\b(?!/)(?:\s?(?:unf?|"
    r"unc|unjf|uns|un)\b)?|\b1-1[24]\s?(?:unf?|uns|un)\b)"
    r"|(?P<en>\b(?:(?:din )?en|iso|din|sae|bs)\s?(?:en )?(?:iso )?(?:853|854|855|856|857|1436|4079|3949|3862|11237|"
    r"j517|18752)(?:[-/ ]\d{1,2})?(?::\s?\d{4})?\b)"
    r"|(?P<r100>\b(?:sae\s?)?100\s?r\s?\d{1,2}\s?(?:ats|at|a|b|s)?\b)"
    r"|(?P<entype>\b(?:type )?(?:[12]\s?s[nct]|[123]\s?te|4\s?s[hp])k?\b)"
    r"|(?P<rtype>\br(?:1[0-9]|[1-9])\s?(?:ats?|s)?\b(?!/))"
    r"|(?P<oil>\b(?:aw|hlpd?|hm|hvlp|hvi|hv|hl|hees|hetg|hepg|hepr|hfc|hfdu|hfdr|hr|hg|hh|atf|bio|ep|clp|pag|"
    r"pao)\s?-?\s?(?:iso\s?)?(?:vg\s?)?(?:10|15|22|32|46|68|100|150|220|320|460)\b(?!\s?(?:bar|psi|l/|lpm|mm|gpm|"
    r"deg|c\b|f\b)))"
    r"|(?P<vg>\b(?:iso\s?(?:vg\s?-?)?|vg\s?-?)\s?(?:2|3|5|7|10|15|22|32|46|68|100|150|220|320|460|680)\b"
    r"|\b(?:hydraulic (?:oil |fluid )?|hyd oil |mineral oil |oil |grade |viscosity (?:grade )?)(?:is )?(?:a "
    r")?(?:iso )?(?:22|32|46|68|100)\b(?!\s?(?:[°cf]\b|deg|bar|psi|l\b|l/|lit|lpm|gal|gpm|mm|in\b|hours|to\b|-|%|"
    r"and|max|at|[.,]\d|/))"
    r"|(?:(?<=glycol )|(?<=ester ))(?:22|32|46|68|100)\b(?!\s?(?:[°cf]\b|deg|bar|psi|l\b|l/|lit|lpm|gal|gpm|mm|in\b|"
    r"to\b|-|%|percent|per cent|[.,]\d|/))"
    r"|\b(?:22|32|46|68|100|150|220)\s?(?:grade|weight|wt|hydraulic|hyd|oil)\b)"
    r"|(?P<engine>\b(?:sae )?\d{1,2}w\s?-?\s?\d{0,2}\b(?!att))"
    r"|(?P<cone>\b(?:6|8|10|12|14|15|16|18|20|22|25|28|30|35|38|42)\s?-?(?:l|s)\b(?!\s?(?:/|per|a min|a m|of)))"
    r"|(?P<hour24>\b24/7\b)"
    r"|(?P<odd>\b(?:150|300|600)\s?(?:#|lbs?)\s?(?:rf |ansi |class )?flange"
    r"|\b\d+(?:\.\d+)?e[+-]?\d+\b|\b\d+\s?x\s?\d+\s?x\s?\d+\b|\b4x4\b|\b[a-z]{1,4}-?\d{3,}[a-z]*\b|"
    r"\b\d+[a-z]+\d+[a-z0-9]*\b(?!\"))"
)
_SAE = {
    "1": "saej517-100r1at",
    "2": "saej517-100r2at",
    "3": "saej517-100r3",
    "4": "saej517-100r4",
    "5": "saej517-100r5",
    "6": "saej517-100r6",
    "7": "saej517-100r7",
    "8": "saej517-100r8",
    "12": "saej517-100r12",
    "13": "saej517-100r13",
    "14a": "saej517-100r14a",
    "14b": "saej517-100r14b",
    "15": "saej517-100r15",
    "16": "saej517-100r16",
    "17": "saej517-100r17",
    "18": "saej517-100r18",
    "19": "saej517-100r19",
}
_EN = {
    "1sn": "en853-1sn",
    "1st": "en853-1st",
    "2sn": "en853-2sn",
    "2st": "en853-2st",
    "1te": "en854-1te",
    "2te": "en854-2te",
    "3te": "en854-3te",
    "4sp": "en856-4sp",
    "4sh": "en856-4sh",
    "1sc": "en857-1sc",
    "2sc": "en857-2sc",
}
_BY_STANDARD = {
    ("856", "12"): "en856-r12",
    ("856", "13"): "en856-r13",
    ("3862", "12"): "en856-r12",
    ("3862", "13"): "en856-r13",
    ("3862", "15"): "iso3862-r15",
    ("11237", "16"): "iso11237-r16s",
    ("11237", "17"): "iso11237-r17",
    ("11237", "19"): "iso11237-r19",
    ("4079", "3"): "iso4079-r3",
    ("4079", "6"): "iso4079-r6",
    ("854", "3"): "iso4079-r3",
    ("854", "6"): "iso4079-r6",
    ("3949", "7"): "iso3949-r7",
    ("3949", "8"): "iso3949-r8",
    ("3949", "18"): "iso3949-r18",
    ("855", "7"): "iso3949-r7",
    ("855", "8"): "iso3949-r8",
    ("1436", "1"): "iso1436-r1ats",
    ("1436", "2"): "iso1436-r2ats",
}


def _year(text: str) -> int:
    digits = re.sub(r"\D", "", text)
    if len(digits) == 4:
        return int(digits)
    return 2000 + int(digits) if int(digits) < 60 else 1900 + int(digits)


def _month_number(word: str) -> int:
    return _MONTHS[word[:3]]


def _read_date(kind: str, text: str) -> tuple[str, str]:
    """Kind and data of a date as written."""
    if kind == "iso":
        return "date", text
    if kind == "isomonth":
        return "month", text
    if kind == "isoquarter":
        return "quarter", f"{text[:4]}-Q{text[-1]}"
    if kind == "quarter":
        digit = re.search(r"[1-4](?=q)|(?<=q)[1-4]", text)
        assert digit is not None
        rest = text[2:] if text[1] == "q" else text[2:].lstrip(" /-")
        return "quarter", f"{_year(rest)}-Q{digit.group()}"
    if kind == "quarterwords":
        first = text.split()[0]
        number = {"first": 1, "1st": 1, "second": 2, "2nd": 2, "third": 3, "3rd": 3}.get(first, 4)
        return "quarter", f"{_year(text.split()[-1])}-Q{number}"
    if kind == "slash":
        one, two, year = re.split(r"[/.]", text)
        a, b = int(one), int(two)
        if a > 12 >= b and 1 <= b and a <= 31:
            return "date", f"{_year(year)}-{b:02d}-{a:02d}"
        if b > 12 >= a and 1 <= a and b <= 31:
            return "date", f"{_year(year)}-{a:02d}-{b:02d}"
        if a == b and 1 <= a <= 12:
            return "date", f"{_year(year)}-{a:02d}-{b:02d}"
        if 1 <= a <= 12 and 1 <= b <= 12:
            return "day_unclear", f"{_year(year)}-{a:02d}-{b:02d} {_year(year)}-{b:02d}-{a:02d}"
        return "none", ""
    if kind == "slashmonth":
        month, year = text.split("/")
        return "month", f"{year}-{int(month):02d}"
    words = re.sub(r"(?<=\d)(?:st|nd|rd|th)|,|\bof\b", " ", text).split()
    if kind == "month":
        return "month", f"{_year(words[1])}-{_month_number(words[0]):02d}"
    day, month = (words[0], words[1]) if kind == "daymonth" else (words[1], words[0])
    if not 1 <= int(day) <= 31:
        return "none", ""
    if len(words) == 3:
        return "date", f"{_year(words[2])}-{_month_number(month):02d}-{int(day):02d}"
    return "weekday", text


def find_labels(low: str, original: str, *, of_an_end: bool = False) -> list[Label]:
    """All codes of a line, in order. `of_an_end`: a hose end was asked about, so that 18l is a cone and no volume."""
    out: list[Label] = []
    standard = ""
    for found in _ALL.finditer(low):
        kind = found.lastgroup or ""
        text = found.group()
        start, end = found.span()
        data = text
        if kind in (
            "iso",
            "isomonth",
            "isoquarter",
            "slash",
            "slashmonth",
            "quarter",
            "quarterwords",
            "daymonth",
            "monthday",
            "month",
        ):
            kind, data = _read_date(kind, text)
        elif kind == "clean":
            kind, data = _clean(low, start, text)
        elif kind == "weekday":
            if (
                text in ("sun", "sat", "mon", "wed", "fri", "thu", "tue", "in the sun", "on sun")
                and original[start:end].islower()
            ):
                continue
            if text.split()[-1] in ("sun", "sat") and original[end - 3 : end].islower():
                continue
        elif kind in ("money", "clock", "phone", "hour24"):
            kind = "hour24" if kind == "hour24" else "none"
        elif kind in ("metric", "inchthread"):
            data = re.sub(r"\s", "", text).replace(",", ".")
            kind = "thread"
        elif kind == "en":
            digits = re.findall(r"\d+", text)
            standard = next(
                (
                    d
                    for d in digits
                    if d in ("853", "854", "855", "856", "857", "1436", "4079", "3949", "3862", "11237")
                ),
                "",
            )
            kind = "standard"
        elif kind in ("r100", "rtype"):
            number = re.search(r"r\s?(\d{1,2})\s?([ab]?)", text)
            assert number is not None
            key = number[1] + (number[2] if number[1] == "14" else "")
            data = _BY_STANDARD.get((standard, key)) or _SAE.get(key, "")
            kind = "construction" if data else "none"
            if key == "14":
                kind = "construction_unclear"
        elif kind == "entype":
            data = _EN.get(re.sub(r"\s|type", "", text)[:3], "")
            kind = "construction" if data else "none"
        elif kind == "cone":
            letter = original[end - 1]
            if (
                letter not in "LS"
                and not of_an_end
                and not re.search(r"dko|light|heavy|cone|din|series|24", low[max(0, start - 40) : end + 30])
            ):
                continue
            data = re.sub(r"[\s-]", "", text).upper()
        elif kind == "odd":
            kind = "none"
        out.append(Label(kind, start, end, data))
    return out


def _clean(low: str, start: int, text: str) -> tuple[str, str]:
    """18/16/13 is a cleanliness code where its numbers fall, or where the words say so; else a date."""
    numbers = [int(part) for part in text.split("/")]
    near = low[max(0, start - 40) : start + 40]
    if re.search(r"clean|4406|code|filter|contaminat", near) and numbers[0] >= numbers[1] >= numbers[2]:
        return "clean", text
    if numbers[0] >= numbers[1] >= numbers[2] and numbers[1] > 12:
        return "clean", text
    return _read_date("slash", text)


def grade_of(text: str) -> int:
    """The ISO VG number of an oil code."""
    found = re.findall(r"\d+", text)
    return int(found[-1])
