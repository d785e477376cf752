"""Which facts do the words themselves say: the phrases, their denials, and the codes?"""

from __future__ import annotations

import re

from interview.facts import Origin
from interview.language.labels import grade_of
from interview.language.line import Line
from interview.language.model import Heard
from interview.language.phrasebook import Entry, phrasebook
from interview.language.prints import layline_span

_DENY = frozenset(
    "no not isn't doesn't don't never without nothing none nobody wasn't won't haven't hasn't ain't didn't aren't "
    "neither nor can't nowhere forget skip cancel needn't shouldn't hardly".split()
)
_STOPS = frozenset({",", ".", ";", ":", "!", "?", "but", "(", ")"})
_IF = frozenset("if when would should might could case may will".split())
_OIL = {
    "aw": "hm",
    "hlp": "hm",
    "hlpd": "hm",
    "hm": "hm",
    "hvlp": "hv",
    "hvi": "hv",
    "hv": "hv",
    "hl": "hl",
    "hees": "hees",
    "hetg": "hetg",
    "hepr": "hepr",
    "hepg": "hepg",
    "hfc": "hfc",
    "hfdu": "hfdu",
    "hfdr": "hfdr",
    "hr": "hr",
    "hg": "hg",
    "hh": "hh",
    "atf": "atf",
    "ep": "gear_oil",
    "clp": "gear_oil",
    "pag": "hepg",
    "pao": "hs",
}
_FAILED = frozenset({"failure_sign", "job_kind", "repeat_failure"})


def denied(line: Line, i: int) -> int:
    """The token that denies a phrase beginning at `i`: up to four words before it, no break between. -1: none."""
    for k in range(i - 1, max(-1, i - 7), -1):
        word = line.words[k]
        if word in _STOPS:
            return -1
        if word in _DENY:
            if word == "no" and k and line.words[k - 1] in _STOPS and k + 1 < i and line.words[k + 1] in _STOPS:
                return -1
            return k
        if word in ("and", "only", "just", "because", "then") or (k < i - 4 and "or" not in line.words[k:i]):
            return -1
    return -1


def hear_phrases(line: Line) -> None:
    """Facts that phrases say."""
    index = phrasebook().facts
    words = line.words
    found: list[tuple[float, int, int, Entry]] = []
    for i in range(len(words)):
        if line.masked[i] or i in line.used or words[i] not in index.first:
            continue
        for entry, end in index.all(words, i):
            weak = entry.gives == (("failure_sign", ("burst",)),)
            found.append((i - end + (1.5 if weak else 0.0), i, end, entry))
    found.sort(key=lambda f: f[:3])
    chosen: list[tuple[int, int, Entry, set[str]]] = []
    covered: dict[int, list[Entry]] = {}
    for _, i, j, entry in found:
        over = [covered.get(k, []) for k in range(i, j)]
        names = {name for name, _ in entry.gives}
        others = {name for some in over for other in some for name, _ in other.gives}
        if (
            any(k in line.used for k in range(i, j))
            or all(over)
            or (names <= others and names != {"regulated_use"})  # every use that ends the interview counts
            or (others and j - i < 3 and not names & others)
        ):
            continue
        for k in range(i, j):
            covered.setdefault(k, []).append(entry)
        chosen.append((i, j, entry, others - {"regulated_use"}))
    for i, j, entry, others in sorted(chosen, key=lambda c: c[0]):
        _say(line, entry, i, j, others)
    for k, word in enumerate(words):  # "burst, 3/4, 3000 psi"
        if word == "burst" and line.clause(k) == (k, k + 1) and k not in line.used:
            line.add("failure_sign", ("burst",), k, k)


# "return my call", "ship it to me": what follows shows that the word is a verb here
_NOT_BEFORE = {
    "return": frozenset("my your the it them this that you a by on me in".split()),
    "twisted": frozenset("by through 30 45 60 90 120 135 150 180 225 270 315".split()),
    "diesel": frozenset("spills spill tank engine pump smell powered leaks gets generator truck on".split()),
    "ship": frozenset("it to them this by out these me us".split()),
}  # fmt: skip


def _say(line: Line, entry: Entry, i: int, j: int, without: set[str]) -> None:
    if j - i == 1 and j < len(line.words) and line.words[j] in _NOT_BEFORE.get(line.words[i], ()):
        return
    if (
        line.words[i] == "outside"
        and j - i == 1
        and (
            (
                i
                and (
                    line.words[i - 1] in ("the", "its", "mm", "inch", "in", '"')
                    or line.tokens[i - 1].number is not None
                )
            )
            or line.words[j : j + 1] in (["of"], ["diameter"], ["is"], ["was"])
        )
    ):
        return
    if line.words[i] in ("nitrogen", "n2") and "accumulator" in line.words:  # its gas side, not the line's medium
        return
    names = {name for name, _ in entry.gives}
    if (
        names & _FAILED
        and any(w in _IF for w in line.words[max(0, i - 4) : i])
        and not any(w in _STOPS for w in line.words[max(0, i - 3) : i])
    ):
        return
    if line.words[i] in _DENY or any(w in _DENY for w in line.words[i:j]):
        at = -1
    else:
        at = denied(line, i)
        if at < 0:
            at = _denied_after(line, j)
    if at >= 0:
        first, last = min(at, i), max(j - 1, at if at > j else 0)
        for name, value in entry.denied:
            line.add(name, value, first, last)
        for name, value in entry.gives:
            if isinstance(value, bool) and not entry.denied:
                line.add(name, not value, first, last)
        line.used.update(range(first, last + 1))
        return
    for name, value in entry.gives:
        if name not in without:
            line.add(name, value, i, j - 1)


def _denied_after(line: Line, j: int) -> int:
    """An accumulator? No."""
    if j + 1 < len(line.words) and line.words[j] in (":", "?") and line.words[j + 1] in ("no", "none"):
        return j + 1
    if j < len(line.words) and line.words[j] == "free":
        return j
    return -1


def hear_codes(line: Line) -> None:
    """Oil codes, constructions, cleanliness and what a layline carries."""
    layline = layline_span(line)
    for label in line.labels:
        first, last = line.tokens_in(label.start, label.end)
        if denied(line, first) >= 0 and label.kind in ("oil", "construction", "vg", "engine"):
            continue
        if label.kind == "oil":
            letters = re.match(r"[a-z]+", label.data)
            assert letters is not None
            medium = _OIL.get(letters.group())
            if medium:
                line.add("medium", medium, first, last)
            else:
                could = tuple(
                    Heard("medium", m, said=line.said(label.start, label.end)) for m in ("hees", "hetg", "hepr")
                )
                line.open(("medium",), "which kind of bio oil?", first, last, could)
            line.add("viscosity_grade", float(grade_of(label.data)), first, last)
        elif label.kind == "vg":
            line.add("viscosity_grade", float(grade_of(label.data)), first, last)
        elif label.kind == "engine":
            line.add("medium", "engine_oil", first, last)
        elif label.kind == "construction":
            line.add("old_construction", label.data, first, last, origin=Origin.READ if layline else Origin.STATED)
        elif label.kind == "construction_unclear":
            readings = tuple(
                Heard("old_construction", f"saej517-100r14{t}", said=line.said(label.start, label.end)) for t in "ab"
            )
            line.open(("old_construction",), "type A or type B?", first, last, readings)
        elif label.kind == "clean":
            line.add("cleanliness", label.data, first, last)
        elif label.kind in ("thread", "cone") and first not in line.used:
            end = next((a[:5] for a in line.asked if a.startswith(("end_a_", "end_b_"))), "end_a")
            line.open(
                (f"{end}_family",),
                "which connection has that thread?" if label.kind == "thread" else "which end is that?",
                first,
                last,
            )
