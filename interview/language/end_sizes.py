"""Which size id of a connection family does a number mean?

The ids are those of the connection tables. Inch thread sizes of the 37° flare are from SAE J514, of the face seal from
SAE J1453, of the 24° cone from ISO 8434-1; where a fraction is a tube and another size's thread, nothing is chosen.
"""

from __future__ import annotations

from dataclasses import dataclass

from interview.language.sizes import DN_TO_DASH, inch_text

_J514 = "2 3 4 5 6 8 10 12 14 16 20 24 32"
_PIPE = "1/8 1/4 3/8 1/2 3/4 1 1-1/4 1-1/2 2"
FAMILIES: dict[str, frozenset[str]] = {
    "flare37": frozenset(f"-{n}" for n in _J514.split()),
    "flare45": frozenset(f"-{n}" for n in "2 3 4 5 6 7 8 10 12 14 16".split()),
    "inverted_flare": frozenset(f"-{n}" for n in "2 3 4 5 6 7 8 10 12".split()),
    "flareless24_sae": frozenset(f"-{n}" for n in "4 5 6 8 10 12 14 16 20 24 32".split()),
    "orfs": frozenset(f"-{n}" for n in "4 6 8 10 12 16 20 24 32".split()),
    "orb_sae": frozenset(f"-{n}" for n in _J514.split()),
    "metric30_seat": frozenset(f"-{n}" for n in "4 6 8 10 12 16 20 24".split()),
    "cone24_L": frozenset(f"{n}L" for n in "6 8 10 12 15 18 22 28 35 42".split()),
    "cone24_S": frozenset(f"{n}S" for n in "6 8 10 12 14 16 20 25 30 38".split()),
    "cone24_LL": frozenset(f"{n}LL" for n in "4 5 6 8".split()),
    "mill24_french": frozenset("6 8 10 12 14 15 16 18 22 25 28 30 32 35 38 40".split()),
    "gaz24_french": frozenset("13.25 16.75 21.25 26.75 33.5 42.25".split()),
    "din60_metric": frozenset(f"DN{n}" for n in "4 6 8 10 13 16 20 25 32 40".split()),
    "iso6149": frozenset("M8x1 M10x1 M12x1.5 M14x1.5 M16x1.5 M18x1.5 M22x1.5 M27x2 M33x2 M42x2 M48x2 M60x2".split()),
    "iso9974": frozenset(
        "M10x1 M12x1.5 M14x1.5 M16x1.5 M18x1.5 M20x1.5 M22x1.5 M26x1.5 M27x2 M33x2 M42x2 M48x2".split()
    ),
    "metric_taper": frozenset(
        f"{n} keg" for n in "M10x1 M12x1.5 M14x1.5 M16x1.5 M18x1.5 M20x1.5 M22x1.5 M26x1.5".split()
    ),
    "flange_c61": frozenset((_PIPE + " 2-1/2 3 3-1/2 4 5").split()) - {"1/8", "1/4", "3/8"},
    "flange_c62": frozenset((_PIPE + " 2-1/2 3").split()) - {"1/8", "1/4", "3/8"},
    "bspp_cone60": frozenset((_PIPE + " 5/8").split()),
} | {
    name: frozenset(_PIPE.split())
    for name in ("npt", "nptf", "npsm_swivel", "bspp_port", "bspt", "jis_g_flare30", "jis_g_inverted30")
}
_DASHED = frozenset("flare37 flare45 inverted_flare flareless24_sae orfs orb_sae metric30_seat".split())
_INCHED = frozenset(
    "npt nptf npsm_swivel bspp_port bspt jis_g_flare30 jis_g_inverted30 bspp_cone60 flange_c61 flange_c62".split()
)
_THREADS: dict[str, dict[str, str]] = {
    "flare37": {
        "5/16-24": "-2",
        "3/8-24": "-3",
        "7/16-20": "-4",
        "1/2-20": "-5",
        "9/16-18": "-6",
        "3/4-16": "-8",
        "7/8-14": "-10",
        "1-1/16-12": "-12",
        "1-3/16-12": "-14",
        "1-5/16-12": "-16",
        "1-5/8-12": "-20",
        "1-7/8-12": "-24",
        "2-1/2-12": "-32",
    },
    "orfs": {
        "9/16-18": "-4",
        "11/16-16": "-6",
        "13/16-16": "-8",
        "1-14": "-10",
        "1-3/16-12": "-12",
        "1-7/16-12": "-16",
        "1-11/16-12": "-20",
        "2-12": "-24",
        "2-1/2-12": "-32",
    },
    "cone24_L": {
        "m12x1.5": "6L",
        "m14x1.5": "8L",
        "m16x1.5": "10L",
        "m18x1.5": "12L",
        "m22x1.5": "15L",
        "m26x1.5": "18L",
        "m30x2": "22L",
        "m36x2": "28L",
        "m45x2": "35L",
        "m52x2": "42L",
    },
    "cone24_S": {
        "m14x1.5": "6S",
        "m16x1.5": "8S",
        "m18x1.5": "10S",
        "m20x1.5": "12S",
        "m22x1.5": "14S",
        "m24x1.5": "16S",
        "m30x2": "20S",
        "m36x2": "25S",
        "m42x2": "30S",
        "m52x2": "38S",
    },
}
_THREADS["flareless24_sae"] = _THREADS["orb_sae"] = _THREADS["flare37"]


@dataclass(frozen=True, slots=True)
class Candidate:
    """A number that may be an end's size."""

    value: float
    unit: str = ""  # "", in, mm
    form: str = "int"
    dash: bool = False
    label: str = ""  # a thread or a cone size as written: 3/4-16, m18x1.5, 22L
    dn: bool = False


def size_ids(family: str, some: Candidate) -> tuple[str, ...]:
    """The ids a number can mean in a family: none, one, or the two between which it does not settle.

    >>> size_ids("flare37", Candidate(8)), size_ids("flare37", Candidate(0.75, "in", "frac"))
    (('-8',), ('-12', '-8'))
    """
    known = FAMILIES.get(family)
    if known is None:
        return ()
    if some.label:
        label = some.label.removesuffix("unf").removesuffix("un")
        direct = _THREADS.get(family, {}).get(label.lower())
        if direct:
            return (direct,)
        if label.upper() in known:
            return (label.upper(),)
        if label.startswith("m"):
            return tuple(k for k in known if k.lower().removesuffix(" keg") == label)
        if family in _INCHED and "-" in label:
            head = label.rsplit("-", 1)[0]
            return (head,) if head in known else ()
        return ()
    whole = some.value == int(some.value)
    number = str(int(some.value)) if whole else f"{some.value:g}"
    if family in _DASHED:
        if some.unit == "" and some.form in ("int", "words") and f"-{number}" in known:
            return (f"-{number}",)
        if some.unit == "mm" or some.dash:
            return ()
        inch = inch_text(some.value)
        tube = f"-{int(some.value * 16)}" if (some.value * 16) % 1 == 0 else ""
        tubes = [tube] if tube in known else []
        if family in ("flare37", "flareless24_sae", "orb_sae"):
            by_thread = [size for thread, size in _THREADS["flare37"].items() if thread.rsplit("-", 1)[0] == inch]
            if not tubes:
                return tuple(by_thread)
            return (tube, by_thread[0]) if by_thread and inch in ("3/4", "7/8") else (tube,)
        if family == "orfs" and not tubes:
            return tuple(size for thread, size in _THREADS["orfs"].items() if thread.rsplit("-", 1)[0] == inch)
        return tuple(tubes)
    if family in _INCHED:
        if some.dn or some.unit == "mm":
            dash = DN_TO_DASH.get(int(some.value))
            inch = inch_text(dash / 16) if dash else ""
        elif some.dash or (some.unit == "" and some.form in ("int", "words") and some.value > 5):
            inch = inch_text(some.value / 16)
        else:
            inch = inch_text(some.value)
        return (inch,) if inch in known else ()
    if some.unit == "in" or some.form in ("frac", "mixed"):
        return ()
    if family.startswith("cone24"):
        size = number + family.split("_")[1]
        return (size,) if size in known else ()
    if family == "din60_metric":
        return (f"DN{number}",) if f"DN{number}" in known else ()
    return (number,) if number in known else ()
