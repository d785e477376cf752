"""Which family and which size does one piece about an end name?"""

from __future__ import annotations

from interview.language.end_pieces import OPEN_SERIES, Item, Piece
from interview.language.end_sizes import FAMILIES, Candidate, size_ids
from interview.language.labels import Label
from interview.language.line import Line


def family_of(piece: Piece, line: Line) -> str | None:
    labels = line.label_at
    family = piece.value("family")
    series = piece.value("series")
    if family is None and series in ("L", "S"):
        family = f"cone24_{series}"
    other = [i.says["series"] for i in piece.items if i.says.get("series") in ("L", "S", "LL")]
    if family is None and other:
        family = f"cone24_{other[0]}"
    if family is None and (series is None or series in OPEN_SERIES):
        cone = next(
            (labels[k].data for k in range(piece.first, piece.last) if k in labels and labels[k].kind == "cone"), ""
        )
        family = f"cone24_{cone[-1]}" if cone else None
    if family == "bspp_cone60" and _said_tapered(piece, line):
        family = "bspt"
    return family


def _said_tapered(piece: Piece, line: Line) -> bool:
    """BSP 1/2 male taper: plain "BSP", and behind its size and gender the word that tells the thread."""
    name = next(i for i in piece.items if "family" in i.says)
    if line.words[name.first : name.last] != ["bsp"]:
        return False
    of_the_end = {k for i in piece.items for k in range(i.first, i.last)}
    for k in range(name.last, piece.last):
        if line.words[k] in ("taper", "tapered"):
            return True
        if k not in of_the_end and line.tokens[k].number is None and line.words[k] not in _OF_A_SIZE:
            return False
    return False


def no_such_cone(piece: Piece, line: Line) -> Label | None:
    """A cone that no series has (15S, 16L): light or heavy cannot be told, and the heavy one is rated higher."""
    cones = [line.label_at[k] for k in range(piece.first, piece.last) if k in line.label_at]
    return next((c for c in cones if c.kind == "cone" and c.data not in FAMILIES[f"cone24_{c.data[-1]}"]), None)


_OF_A_SIZE = frozenset(("inch", "in", '"', "-", "/", "#", "dash", "thread"))
# Behind a number: what is measured is the hose, or another part of the end ("38 mm head", "50.8 between bolts").
_OF_NO_SIZE = frozenset(
    "hose bore long hoses wire oal off head across between spanner wrench hex af od diameter dia bolts bolt".split()
)
_GENDERS = {"f": "female", "m": "male"}


def size_of(piece: Piece, family: str, line: Line) -> tuple[tuple[str, ...], int, int, str] | None:
    """The size ids, their tokens, and a gender letter grown onto them: the nearest number that can be one."""
    tokens, words, labels, measures = line.tokens, line.words, line.label_at, line.measures
    taken = {k for i in piece.items if "noun" not in i.says for k in range(i.first, i.last)}
    anchor = next((i for i in piece.items if "family" in i.says or "series" in i.says), piece.items[0])
    options: list[tuple[int, tuple[str, ...], int, int, str]] = []
    for k in range(piece.first, piece.last):
        if k in labels and labels[k].kind in ("cone", "thread") and labels.get(k - 1) is not labels[k]:
            label = labels[k]
            ids = size_ids(family, Candidate(0, label=label.data))
            last = k
            while last + 1 < piece.last and tokens[last + 1].start < label.end:
                last += 1
            if ids:
                options.append((_distance(anchor, k, last, words), ids, k, last, ""))
    for m in measures:
        if m.first > 0 and words[m.first - 1] in ("code", "c", "cd"):
            continue
        if (
            not (piece.first <= m.first and m.last < piece.last)
            or m.taken
            or m.is_range
            or any(k in taken for k in range(m.first, m.last + 1))
        ):
            continue
        gender, unit, value = "", m.unit, abs(m.low)
        last = m.last
        text = line.low[tokens[m.last].end : m.end].strip()
        if text in ("f", "m", "s", "fem"):
            gender, unit = _GENDERS.get(text, ""), ""
        if unit == "'" or unit not in ("", "in", "mm"):
            continue
        while last + 1 < piece.last and tokens[last + 1].start < m.end:
            last += 1
        dash = m.minus or (m.first > 0 and words[m.first - 1] in ("dash", "#"))
        dn = m.first > 0 and words[m.first - 1] == "dn"
        if last + 1 < len(words) and words[last + 1] in _OF_NO_SIZE:
            continue
        ids = size_ids(family, Candidate(value, unit, m.form, dash, dn=dn))
        if ids:
            options.append((_distance(anchor, m.first, last, words), ids, m.first, last, gender))
    for k in range(piece.first, piece.last):
        if (
            words[k] == "inch"
            and k not in taken
            and not any(
                (m.first <= k <= m.last or m.start <= tokens[k].start < m.end) and m.first not in taken
                for m in measures
            )
        ):
            ids = size_ids(family, Candidate(1.0, "in"))
            if ids and not (k + 1 < len(words) and words[k + 1] in ("hose", "bore")):
                options.append((_distance(anchor, k, k, words), ids, k, k, ""))
    options = [o for o in options if o[0] < 90]
    if not options:
        return None
    best = min(options)
    gender = best[4]
    near = range(max(piece.first, anchor.first - 3), min(piece.last, best[3] + 3))
    if not gender:
        gender = next((_GENDERS[words[k]] for k in near if words[k] in _GENDERS and not line.masked[k]), "")
    return best[1], best[2], best[3], gender


def _distance(anchor: Item, first: int, last: int, words: list[str]) -> int:
    """After the name first, then before it; never across the word hose."""
    between = range(anchor.last, first) if first >= anchor.last else range(last + 1, anchor.first)
    if any(words[k] in ("hose", "bore", "long", "line", "bar", "psi") for k in between):
        return 99
    gap = len(between)
    return gap * 2 if first >= anchor.last else gap * 2 + 1
