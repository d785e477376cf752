"""How large may a thread be? Limits of size from the formulas of the thread standards.

Diameters and pitches in metre. What a caliper can see is computed: the major diameter of a male, the minor diameter of
a female, for the usual classes. The constants of the standards are from memory unless a function says otherwise; the
connection tables, partly seen restated, are held against these functions by a test, within the rounding of the tables.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from math import radians, tan

from interview.engineering.errors import EngineeringError, outside

INCH = 0.0254
MM = 1e-3
UM = 1e-6
SHARP_60 = 1.08253175  # D1 = D - 1.0825 P: five eighths of the sharp height on each side (ISO 68-1, ASME B1.1)
WHITWORTH = 1.280654  # D1 = D - 1.2807 P: twice the thread height 0.640327 P of the 55° form (ISO 228-1, ISO 7-1)
TAPER = 1.0 / 16.0  # on the diameter: NPT and R threads alike
DIAMETER_SERIES = ("UNC", "UNF")  # series whose length of engagement is one diameter; the others take nine pitches

Limits = tuple[float, float]

PIPE_OD = {
    "1/8": 0.405,
    "1/4": 0.540,
    "3/8": 0.675,
    "1/2": 0.840,
    "3/4": 1.050,
    "1": 1.315,
    "1-1/4": 1.660,
    "1-1/2": 1.900,
    "2": 2.375,
}  # inch, outside diameter of the pipe (ASME B36.10M); seen restated four times
NPT_TPI = {
    "1/8": 27.0,
    "1/4": 18.0,
    "3/8": 18.0,
    "1/2": 14.0,
    "3/4": 14.0,
    "1": 11.5,
    "1-1/4": 11.5,
    "1-1/2": 11.5,
    "2": 11.5,
}  # ASME B1.20.1 table 2, seen restated four times
NPT_L1 = {
    "1/8": 0.1615,
    "1/4": 0.2278,
    "3/8": 0.240,
    "1/2": 0.320,
    "3/4": 0.339,
    "1": 0.400,
    "1-1/4": 0.420,
    "1-1/2": 0.420,
    "2": 0.436,
}  # inch, hand-tight engagement, ASME B1.20.1 table 2, memory
G_MAJOR = {
    "1/8": 9.728,
    "1/4": 13.157,
    "3/8": 16.662,
    "1/2": 20.955,
    "5/8": 22.911,
    "3/4": 26.441,
    "7/8": 30.201,
    "1": 33.249,
    "1-1/4": 41.910,
    "1-1/2": 47.803,
    "2": 59.614,
}  # mm, ISO 228-1 table 1, memory
G_TPI = {
    "1/8": 28.0,
    "1/4": 19.0,
    "3/8": 19.0,
    "1/2": 14.0,
    "5/8": 14.0,
    "3/4": 14.0,
    "7/8": 14.0,
    "1": 11.0,
    "1-1/4": 11.0,
    "1-1/2": 11.0,
    "2": 11.0,
}  # ISO 228-1 table 1, seen restated
G_TOLERANCE = {
    28.0: (0.214, 0.282),
    19.0: (0.250, 0.445),
    14.0: (0.284, 0.541),
    11.0: (0.360, 0.640),
}  # mm, major of the male, minor of the female, by pitch; ISO 228-1, memory
R_LENGTHS = {
    "1/8": (4.0, 6.5),
    "1/4": (6.0, 9.7),
    "3/8": (6.4, 10.1),
    "1/2": (8.2, 13.2),
    "3/4": (9.5, 14.5),
    "1": (10.4, 16.8),
    "1-1/4": (12.7, 19.1),
    "1-1/2": (12.7, 19.1),
    "2": (15.9, 23.4),
}  # mm, gauge length and useful thread, ISO 7-1 table 2, seen restated twice


def _checked(major: float, pitch: float) -> None:
    if not 1 * MM <= major <= 300 * MM:
        raise outside("thread diameter", major, "m", 1 * MM, 300 * MM)
    if not 0.2 * MM <= pitch <= 8 * MM or pitch > major / 2:
        raise outside("pitch", pitch, "m", 0.2 * MM, min(8 * MM, major / 2))


def _size(table: dict[str, float], size: str, what: str) -> float:
    if size not in table:
        raise EngineeringError(f"{size!r} is no {what} size of the list; it has {', '.join(table)}")
    return table[size]


def un_external(major: float, pitch: float, series: str = "UN") -> Limits:
    """Major diameter of an external UN thread, class 2A, smallest and largest, m.

    ASME B1.1 section 8 (memory), in inch: `Td2 = 0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3)`, allowance
    `0.3 Td2`, tolerance of the major diameter `0.060 P^(2/3)`. LE is D for UNC and UNF, 9 P for the other series.

    >>> [round(x / 1e-3, 2) for x in un_external(0.75 * 0.0254, 0.0254 / 16, "UNF")]
    [18.77, 19.01]
    """
    _checked(major, pitch)
    d, p = major / INCH, pitch / INCH
    engaged = d if series in DIAMETER_SERIES else 9.0 * p
    td2 = 0.0015 * d ** (1 / 3) + 0.0015 * engaged**0.5 + 0.015 * p ** (2 / 3)
    largest = d - 0.3 * td2
    return (largest - 0.060 * p ** (2 / 3)) * INCH, largest * INCH


def un_internal(major: float, pitch: float) -> Limits:
    """Minor diameter of an internal UN thread, class 2B, smallest and largest, m.

    ASME B1.1 section 8 (memory), in inch, 1/4 in and over, 4 threads an inch and finer:
    `D1 = D - 1.0825 P`, tolerance `0.25 P - 0.40 P^2`.

    >>> [round(x / 1e-3, 2) for x in un_internal(0.75 * 0.0254, 0.0254 / 16)]
    [17.33, 17.69]
    """
    _checked(major, pitch)
    if major < 0.25 * INCH:
        raise outside("thread diameter", major, "m", 0.25 * INCH, 300 * MM, "the formula of the larger sizes")
    d, p = major / INCH, pitch / INCH
    smallest = d - SHARP_60 * p
    return smallest * INCH, (smallest + 0.25 * p - 0.40 * p * p) * INCH


def metric_external(major: float, pitch: float) -> Limits:
    """Major diameter of an external metric thread, 6g, smallest and largest, m.

    ISO 965-1 (memory), in micrometre with P in millimetre: `es = -(15 + 11 P)`, `Td = 180 P^(2/3) - 3.15 P^(-1/2)`.
    The standard rounds both to preferred numbers; the difference is below 0.006 mm.

    >>> [round(x / 1e-3, 2) for x in metric_external(30e-3, 2e-3)]
    [29.68, 29.96]
    """
    _checked(major, pitch)
    p = pitch / MM
    largest = major - (15.0 + 11.0 * p) * UM
    return largest - (180.0 * p ** (2 / 3) - 3.15 * p**-0.5) * UM, largest


def metric_internal(major: float, pitch: float) -> Limits:
    """Minor diameter of an internal metric thread, 6H, smallest and largest, m.

    ISO 965-1 and ISO 724 (memory): `D1 = D - 1.0825 P`, tolerance in micrometre `230 P^0.7` from 1 mm pitch,
    `433 P - 190 P^1.22` below, P in millimetre; the standard rounds to preferred numbers (below 0.007 mm).

    >>> [round(x / 1e-3, 2) for x in metric_internal(30e-3, 2e-3)]
    [27.83, 28.21]
    """
    _checked(major, pitch)
    p = pitch / MM
    smallest = major - SHARP_60 * pitch
    return smallest, smallest + (230.0 * p**0.7 if p >= 1.0 else 433.0 * p - 190.0 * p**1.22) * UM


def g_external(size: str) -> Limits:
    """Major diameter of a parallel pipe thread G, class A or B, smallest and largest, m (ISO 228-1, memory).

    >>> [round(x / 1e-3, 2) for x in g_external("1/2")]
    [20.67, 20.95]
    """
    largest = _size(G_MAJOR, size, "G") * MM
    return largest - G_TOLERANCE[G_TPI[size]][0] * MM, largest


def g_internal(size: str) -> Limits:
    """Minor diameter of a parallel pipe thread G, smallest and largest, m: `D1 = d - 1.2807 P` (ISO 228-1, memory).

    >>> [round(x / 1e-3, 2) for x in g_internal("1/2")]
    [18.63, 19.17]
    """
    smallest = _size(G_MAJOR, size, "G") * MM - WHITWORTH * INCH / G_TPI[size]
    return smallest, smallest + G_TOLERANCE[G_TPI[size]][1] * MM


def npt_pitch_diameters(size: str) -> tuple[float, float]:
    """Pitch diameter of NPT at the small end E0 and at the hand-tight plane E1, m.

    ASME B1.20.1 (memory): `E0 = D - (0.05 D + 1.1) p` in inch, `E1 = E0 + L1 / 16`, D the outside diameter of the pipe.

    >>> [round(x / 0.0254, 4) for x in npt_pitch_diameters("1/2")]
    [0.7584, 0.7784]
    """
    d = _size(PIPE_OD, size, "NPT")
    small = d - (0.05 * d + 1.1) / NPT_TPI[size]
    return small * INCH, (small + NPT_L1[size] * TAPER) * INCH


def npt_external(size: str) -> Limits:
    """Diameter over the crests of an NPT male at its small end and at the pipe, m: `E0 + 0.8 p` to D (ASME B1.20.1).

    A range along the taper, not a tolerance.

    >>> [round(x / 1e-3, 2) for x in npt_external("1/2")]
    [20.72, 21.34]
    """
    small, _ = npt_pitch_diameters(size)
    return small + 0.8 * INCH / NPT_TPI[size], PIPE_OD[size] * INCH


def npt_internal(size: str) -> Limits:
    """Diameter inside an NPT female, deep in it and at its face, m: `E0 - 0.8 p` to `E1 - 0.8 p` (ASME B1.20.1).

    >>> [round(x / 1e-3, 2) for x in npt_internal("1/2")]
    [17.81, 18.32]
    """
    small, face = npt_pitch_diameters(size)
    height = 0.8 * INCH / NPT_TPI[size]
    return small - height, face - height


def npsm_basic(size: str) -> tuple[float, float]:
    """Basic major and minor diameter of NPSM, m: `E1 + 0.6495 p` and `E1 - 0.4330 p` (ASME B1.20.1, memory).

    The male is smaller than the basic major diameter by an allowance that is not computed here.

    >>> [round(x / 1e-3, 2) for x in npsm_basic("1/2")]
    [20.95, 18.99]
    """
    _, middle = npt_pitch_diameters(size)
    pitch = INCH / NPT_TPI[size]
    return middle + 0.6495 * pitch, middle - 0.4330 * pitch


def r_external(size: str) -> Limits:
    """Diameter over the crests of a taper pipe thread R at its small end and at the end of the useful thread, m.

    ISO 7-1: `d - gauge length / 16` to `d + (useful thread - gauge length) / 16`. A range along the taper.

    >>> [round(x / 1e-3, 2) for x in r_external("1/2")]
    [20.44, 21.27]
    """
    major = _size(G_MAJOR, size, "R")
    if size not in R_LENGTHS:
        raise EngineeringError(f"{size!r} is no R size of the list; it has {', '.join(R_LENGTHS)}")
    gauge, useful = R_LENGTHS[size]
    return (major - gauge * TAPER) * MM, (major + (useful - gauge) * TAPER) * MM


def rc_internal(size: str) -> Limits:
    """Diameter inside a taper pipe thread Rc, one gauge length deep and at its face, m (ISO 7-1).

    >>> [round(x / 1e-3, 2) for x in rc_internal("1/2")]
    [18.12, 18.63]
    """
    r_external(size)  # refuses a size that is not in the list
    face = G_MAJOR[size] * MM - WHITWORTH * INCH / G_TPI[size]
    return face - R_LENGTHS[size][0] * MM * TAPER, face


@dataclass(frozen=True, slots=True)
class Thread:
    """A parallel thread by its designation; basic sizes, m, flank angle in degrees."""

    form: str  # UN | M | G | NPSM
    series: str  # UNF, UN, UNS, UNEF; empty for the others
    size: str
    major: float
    pitch: float
    flank_deg: float

    @property
    def minor(self) -> float:
        """Basic minor diameter of the female, m."""
        if self.form == "NPSM":
            return npsm_basic(self.size)[1]
        return self.major - (WHITWORTH if self.form == "G" else SHARP_60) * self.pitch

    @property
    def pitch_diameter(self) -> float:
        """Basic pitch diameter, m."""
        if self.form == "NPSM":
            return npt_pitch_diameters(self.size)[1]
        return self.major - (WHITWORTH / 2 if self.form == "G" else 0.6495190) * self.pitch


UN_NAME = re.compile(r"((?:\d+-)?\d+/\d+|\d+)-([\d.]+) (UN[A-Z]*)$")
M_NAME = re.compile(r"M([\d.]+)x([\d.]+)$")
G_NAME = re.compile(r"G((?:\d+-)?\d+/\d+|\d+)(?: \(.*\))?$")
NPSM_NAME = re.compile(r"((?:\d+-)?\d+/\d+|\d+)-([\d.]+) NPSM$")


def inches(size: str) -> float:
    """A size in inch as written, m.

    >>> round(inches("1-1/16") / 1e-3, 4)
    26.9875
    """
    return float(sum((Fraction(part) for part in size.split("-")), Fraction(0))) * INCH


def parallel_thread(name: str) -> Thread | None:
    """The basic sizes that a designation names; None for a taper thread or a name of no known form.

    >>> round(parallel_thread("1-1/16-12 UN").pitch_diameter / 1e-3, 3)
    25.613
    >>> parallel_thread("1/4-18 NPT") is None
    True
    """
    if found := UN_NAME.match(name):
        return Thread("UN", found[3], found[1], inches(found[1]), INCH / float(found[2]), 60.0)
    if found := M_NAME.match(name):
        return Thread("M", "", found[1], float(found[1]) * MM, float(found[2]) * MM, 60.0)
    if (found := G_NAME.match(name)) and found[1] in G_MAJOR:
        return Thread("G", "", found[1], G_MAJOR[found[1]] * MM, INCH / G_TPI[found[1]], 55.0)
    if (found := NPSM_NAME.match(name)) and found[1] in NPT_TPI:
        return Thread("NPSM", "", found[1], npsm_basic(found[1])[0], INCH / NPT_TPI[found[1]], 60.0)
    return None


def loose_fit(male: Thread, female: Thread) -> tuple[float, float | None]:
    """Share of the female's thread height that a strange male reaches, and the turns until it binds (None: never).

    From basic sizes: `(d - D1) / (D - D1)`; the flank play `(D2 - d2) tan(flank / 2)`, the flank angle being that of
    the male, is used up by the difference of the pitches at each turn. An indicator of what may be screwed together
    by mistake, not a strength calculation. Both zero where the male does not reach the thread.

    >>> share, turns = loose_fit(parallel_thread("1-14 UNS"), parallel_thread("1-1/16-12 UN"))
    >>> round(share, 2), round(turns, 1)
    (0.31, 2.7)
    """
    share = (male.major - female.minor) / (female.major - female.minor)
    if share <= 0.0 or male.major > female.major:
        return 0.0, 0.0
    play = (female.pitch_diameter - male.pitch_diameter) * tan(radians(male.flank_deg / 2.0))
    difference = abs(male.pitch - female.pitch)
    if play < 0.0:
        return share, 0.0
    return share, None if difference < 1e-9 else play / difference
