"""Which words and numbers does a line hold, and where?

One pass over the text, linear in its length. The normalised text has the length of the original, so that every place
found in it is a place in what was typed. Numbers are read here (fractions, mixed, thousands, words) and nowhere else.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

_SAME = {
    "–": "-",
    "−": "-",
    "‐": "-",
    "‑": "-",
    "‒": "-",
    "—": ";",
    "“": '"',
    "”": '"',
    "″": '"',
    "„": '"',
    "’": "'",
    "‘": "'",
    "′": "'",
    "`": "'",
    "\u00a0": " ",
    "\u202f": " ",
    "\u2009": " ",
    "×": "x",
    "…": ".",
    "º": "°",
    "∅": "o",
    "Ø": "o",
    "\t": " ",
    "\n": ";",
    "\r": " ",
    "⅓": " ",
    "*": " ",
    "≈": "~",
}
_TABLE = str.maketrans(_SAME | {chr(c): " " for c in list(range(32)) + list(range(127, 160)) if chr(c) not in "\t\n\r"})
_VULGAR = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅛": 0.125, "⅜": 0.375, "⅝": 0.625, "⅞": 0.875}

_TOKEN = re.compile(
    r"(?P<mixed>(?<![\d./])(?<!code )(?<!code)(?<!cd )(?<!-)(?<!dn)(?<!dn )\d{1,3}(?:[ -]|\s?&\s?|"
    r"\s?and\s)(?P<mn>\d{1,2})/(?P<md>2|4|8|16|32|64)(?![\d/]))"
    r"|(?P<vulgar>(?:\d{1,4}[ -]?)?[½¼¾⅛⅜⅝⅞])"
    r"|(?P<frac>(?<![\d./])(?P<fn>\d{1,2})/(?P<fd>2|4|8|16|32|64)(?![\d/]))"
    r"|(?P<thou>(?<![\d.,])[1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?(?![\d,]))"
    r"|(?P<dec>\d+\.\d+|(?<![.\d])\.\d+|\d+,\d+(?![\d,]))"
    r"|(?P<int>\d+)"
    r"|(?P<word>[a-zß-öø-ÿµ]+(?:'[a-z]+)?)"
    r"|(?P<punct>[^\s])"
)
_ONES = dict(
    zip(
        "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen".split(),
        range(20),
        strict=True,
    )
) | {"nought": 0}
_TENS = {w: 10 * (i + 2) for i, w in enumerate("twenty thirty forty fifty sixty seventy eighty ninety".split())}
_TENS["fourty"] = 40
_FRACTION_WORDS = {
    "half": 2,
    "halves": 2,
    "quarter": 4,
    "quarters": 4,
    "eighth": 8,
    "eighths": 8,
    "sixteenth": 16,
    "sixteenths": 16,
}
NUMBER_WORDS = (
    frozenset(_ONES)
    | frozenset(_TENS)
    | frozenset(_FRACTION_WORDS)
    | {"hundred", "thousand", "point", "minus", "dozen"}
)
_SOME = frozenset("couple few several many some by per odd the".split())
_APOSTROPHE = {
    "dont": "don't", "doesnt": "doesn't", "isnt": "isn't", "didnt": "didn't", "wont": "won't", "cant": "can't",
    "wasnt": "wasn't", "arent": "aren't", "aint": "ain't", "havent": "haven't", "hasnt": "hasn't", "cannot": "can't",
    "couldnt": "couldn't", "wouldnt": "wouldn't",
}  # fmt: skip


@dataclass(slots=True)
class Number:
    """A number as read. `alt` is the other reading of a comma (3,000 as 3.0); None where there is only one."""

    value: float
    form: str  # int | dec | frac | mixed | thou | words | spoken
    alt: float | None = None
    minus: bool = False


@dataclass(slots=True)
class Token:
    """A word, a number or a punctuation mark, in lower case. `glued`: nothing stands between it and the last one."""

    kind: str  # w | n | p
    text: str
    start: int
    end: int
    number: Number | None = None
    glued: bool = False


def normalise(text: str) -> str:
    """Lower case, one kind of dash and quote, no control characters; same length as the original."""
    plain = text.translate(_TABLE)
    low = plain.lower()
    if len(low) == len(plain):
        return low
    return "".join(c.lower() if len(c.lower()) == 1 else c for c in plain)


def tokenise(low: str) -> list[Token]:
    """All tokens of a normalised text."""
    out: list[Token] = []
    last_end = -1
    for found in _TOKEN.finditer(low):
        kind = found.lastgroup
        if kind in ("mn", "md"):
            kind = "mixed"
        elif kind in ("fn", "fd"):
            kind = "frac"
        start, end = found.span()
        text = found.group()
        if kind == "word":
            out.append(Token("w", _plain_word(text), start, end, glued=start == last_end))
        elif kind == "punct":
            if not (text == "-" and 0 < start and low[start - 1].isalpha() and low[end : end + 1].isalpha()):
                out.append(Token("p", text, start, end, glued=start == last_end))
        else:
            number = _read(kind or "int", found)
            before = low[start - 1 : start]
            number.minus = before == "-" and (start < 2 or low[start - 2] in " (,;:=.~/")
            out.append(Token("n", text, start, end, number, glued=start == last_end))
        last_end = end
    return _join_words(out)


def _plain_word(word: str) -> str:
    at = word.find("'")
    if at < 0:
        return _APOSTROPHE.get(word, word)
    return word if word.endswith("n't") else word[:at]


def _read(kind: str, found: re.Match[str]) -> Number:
    text = found.group()
    if kind == "mixed":
        whole = re.match(r"\d+", text)
        assert whole is not None
        return Number(int(whole.group()) + int(found["mn"]) / int(found["md"]), "mixed")
    if kind == "vulgar":
        digits = text[:-1].strip(" -")
        return Number((int(digits) if digits else 0) + _VULGAR[text[-1]], "mixed" if digits else "frac")
    if kind == "frac":
        return Number(int(found["fn"]) / int(found["fd"]), "frac")
    if kind == "thou":
        plain = float(text.replace(",", ""))
        alt = float(text.replace(",", ".")) if text.count(",") == 1 and "." not in text else None
        return Number(plain, "thou", alt)
    if kind == "dec":
        if "," in text:
            return Number(float(text.replace(",", ".")), "dec")
        alt = float(text.replace(".", "")) if re.fullmatch(r"[1-9]\d{0,2}\.\d{3}", text) else None
        return Number(float(text), "dec", alt)
    return Number(float(text[:300]), "int")


def _join_words(tokens: list[Token]) -> list[Token]:
    """Numbers in words become one number token that keeps its words."""
    out: list[Token] = []
    i = 0
    while i < len(tokens):
        token = tokens[i]
        if token.kind == "w" and (
            token.text in _ONES
            or token.text in _TENS
            or token.text in _FRACTION_WORDS
            or token.text == "a"
            or (token.text in ("hundred", "thousand") and not (i and tokens[i - 1].kind == "n"))
        ):
            got = _words(tokens, i)
            if got is not None:
                number, j = got
                words = " ".join(t.text for t in tokens[i:j])
                out.append(Token("n", words, token.start, tokens[j - 1].end, number))
                i = j
                continue
        out.append(token)
        i += 1
    return out


def _small(tokens: list[Token], i: int) -> tuple[int, int] | None:
    """1 to 99 in words."""
    if i >= len(tokens) or tokens[i].kind != "w":
        return None
    word = tokens[i].text
    if word in _ONES:
        return _ONES[word], i + 1
    if word in _TENS:
        after = tokens[i + 1].text if i + 1 < len(tokens) else ""
        if 0 < _ONES.get(after, 0) < 10:
            return _TENS[word] + _ONES[after], i + 2
        return _TENS[word], i + 1
    return None


def _text(tokens: list[Token], i: int) -> str:
    return tokens[i].text if i < len(tokens) else ""


def _words(tokens: list[Token], i: int) -> tuple[Number, int] | None:
    first = tokens[i].text
    if first == "a":
        after = _text(tokens, i + 1)
        if after in ("hundred", "thousand"):
            start: tuple[int, int] | None = (1, i + 1)
        elif after in _FRACTION_WORDS and after not in ("quarters",):
            return Number(1 / _FRACTION_WORDS[after], "frac"), i + 2
        else:
            return None
    elif first in ("hundred", "thousand"):  # "hundred eighty bar"; of "a couple hundred" it is no figure
        some = _text(tokens, i - 1) if i else ""
        start = None if some in _SOME or (some == "of" and i > 1 and _text(tokens, i - 2) in _SOME) else (1, i)
    elif first in _FRACTION_WORDS:
        if first in ("halves", "quarters", "eighths", "sixteenths", "eighth", "sixteenth"):
            return None
        return Number(1 / _FRACTION_WORDS[first], "frac"), i + 1
    else:
        start = _small(tokens, i)
    if start is None:
        return None
    value, j = start
    part = _FRACTION_WORDS.get(_text(tokens, j))
    if part and 0 < value < part:
        return Number(value / part, "frac"), j + 1
    total = float(value)
    form = "words"
    if _text(tokens, j) == "hundred":
        total, j = _hundreds(tokens, value * 100, j + 1)
    elif (spoken := _small(tokens, j)) is not None and 1 <= value <= 9 and spoken[0] >= 10:
        total, j, form = value * 100.0 + spoken[0], spoken[1], "spoken"
    elif (
        (spoken := _small(tokens, j)) is not None
        and 10 <= value <= 99
        and spoken[0] >= 10
        and value % 10 + (value < 20)
    ):
        total, j, form = value * 100.0 + spoken[0], spoken[1], "spoken"
    if _text(tokens, j) in ("thousand", "thou", "grand"):
        total, j = total * 1000, j + 1
        rest = _words(tokens, j) if j < len(tokens) and tokens[j].text in _ONES | _TENS else None
        if rest is not None and rest[0].value < 1000:
            total, j = total + rest[0].value, rest[1]
    if _text(tokens, j) == "and":
        k = j + 2 if _text(tokens, j + 1) == "a" else j + 1
        part = _FRACTION_WORDS.get(_text(tokens, k))
        few = _small(tokens, k)
        if part and k == j + 2:
            total, j = total + 1 / part, k + 1
        elif few and (part := _FRACTION_WORDS.get(_text(tokens, few[1]))) and few[0] < part:
            total, j = total + few[0] / part, few[1] + 1
        if _text(tokens, j) in ("thousand", "hundred") and total % 1:
            total, j = total * (1000 if _text(tokens, j) == "thousand" else 100), j + 1
    if _text(tokens, j) == "point":
        digits = ""
        k = j + 1
        while (few := _small(tokens, k)) is not None and few[0] < 10:
            digits, k = digits + str(few[0]), few[1]
        if digits:
            total, j = total + float(f"0.{digits}"), k
    return Number(total, form), j


def _hundreds(tokens: list[Token], total: float, j: int) -> tuple[float, int]:
    k = j + 1 if _text(tokens, j) == "and" else j
    few = _small(tokens, k)
    return (total + few[0], few[1]) if few is not None else (total, j)
