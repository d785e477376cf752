"""What was read off the end in hand, and can it be so? Readings in SI, and the refusal of impossible ones."""

from __future__ import annotations

import math
from dataclasses import dataclass

MM = 1e-3
INCH_MM = 25.4
USUAL_TPI = (28.0, 27.0, 24.0, 20.0, 19.0, 18.0, 16.0, 14.0, 12.0, 11.5, 11.0)
POSITIONS = {
    "face": "face",
    "base": "base",
    "thread base": "base",
    "shoulder": "shoulder",
    "nose": "nose",
    "bore": "bore",
    "bore of male": "bore",
    "cone": "cone",
    "bottom": "bottom",
    "bottom of port": "bottom",
    "thread": "thread",
    "none": "none",
}
CONES = {"convex": "convex", "nose": "convex", "concave": "concave", "hollow": "concave"}
YES = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}


class BadReading(ValueError):
    """A reading that cannot be; one sentence that says what is wrong and what was likely meant."""


@dataclass(frozen=True, slots=True)
class Readings:
    """What a caliper, a pitch gauge, a seat gauge and a look say. Lengths in metre; None: not read.

    `diameter` is over the crests of a male, inside a female. `seat_angle` may be the full cone or one side.
    `seal_position` is face, base, shoulder, nose, bore, cone, bottom, thread or none; `cone` is convex or concave, of
    the half in hand; `recess` is the straight recess behind the cone of a male, or the nose of a female.
    `pitch_sure`: counted over ten threads, so that neighbours on the pitch gauge are out.
    """

    gender: str | None = None
    diameter: float | None = None
    pitch: float | None = None
    tpi: float | None = None
    taper: bool | None = None
    seat_angle: float | None = None
    flank: float | None = None
    cone: str | None = None
    seal_position: str | None = None
    recess: float | None = None
    head: float | None = None
    head_thickness: float | None = None
    bolt_long: float | None = None
    bolt_short: float | None = None
    clamped: bool | None = None
    pitch_sure: bool | None = None

    @property
    def counted_pitch(self) -> float | None:
        """The pitch in metre, from whichever way it was read."""
        if self.pitch is not None:
            return self.pitch
        return None if self.tpi is None else INCH_MM * MM / self.tpi

    @property
    def sure_of_pitch(self) -> bool:
        """True where it was counted, or where two readings of it agree."""
        return self.pitch_sure if self.pitch_sure is not None else self.pitch is not None and self.tpi is not None

    @property
    def of_a_thread(self) -> bool:
        return any(v is not None for v in (self.diameter, self.pitch, self.tpi))

    @property
    def of_a_flange(self) -> bool:
        return any(v is not None for v in (self.head, self.head_thickness, self.bolt_long, self.bolt_short))


# What can be is our own bound, round about what the tables have: it catches a slip of unit or point, nothing else.
LENGTHS = {  # reading: (words, smallest, largest mm that can be, smallest and largest that the tables have)
    "diameter": ("thread diameter", 4.0, 160.0, 6.7, 64.0),
    "head": ("flange head", 20.0, 200.0, 30.0, 153.0),
    "head_thickness": ("thickness of the flange head", 4.0, 45.0, 6.7, 26.0),
    "bolt_long": ("long screw spacing", 25.0, 200.0, 38.0, 153.0),
    "bolt_short": ("short screw spacing", 12.0, 150.0, 17.0, 93.0),
    "recess": ("recess behind the cone", 2.0, 60.0, 4.0, 51.0),
}


def check(readings: Readings) -> None:
    """Raises BadReading for a reading that cannot be, with the likely meaning."""
    for name, (words, low, high, least, most) in LENGTHS.items():
        value = getattr(readings, name)
        if value is not None:
            _length(words, value / MM, low, high, least, most)
    if readings.pitch is not None:
        _pitch(readings.pitch / MM)
    if readings.tpi is not None:
        _tpi(readings.tpi)
    if readings.pitch is not None and readings.tpi is not None:
        other = INCH_MM / readings.tpi
        if abs(readings.pitch / MM - other) > 0.05:
            raise BadReading(
                f"a pitch of {readings.pitch / MM:g} mm and {readings.tpi:g} threads an inch ({other:.3f} mm) "
                "contradict each other; count once more over ten threads and give one of them"
            )
    if readings.seat_angle is not None and not 0.0 < readings.seat_angle < 180.0:
        raise BadReading(
            f"a seat of {readings.seat_angle:g}° cannot be; seats have 24, 60, 74, 84 or 90° across, "
            "half of that to one side"
        )
    if readings.flank is not None and min(abs(readings.flank - a) for a in (55.0, 60.0)) > 2.0:
        raise BadReading(f"a flank angle of {readings.flank:g}° is no thread of the tables; the blades have 55° or 60°")
    for name, value, known in (
        ("gender", readings.gender, ("male", "female")),
        ("seal position", readings.seal_position, tuple(POSITIONS)),
        ("cone", readings.cone, tuple(CONES)),
    ):
        if value is not None and value not in known:
            raise BadReading(f"{value!r} is no {name}; it may be {', '.join(known)}")
    if all(getattr(readings, name) is None for name in Readings.__dataclass_fields__ if name != "gender"):
        raise BadReading("nothing was read; give at least the thread diameter, the pitch, or the head of a flange")


def _length(words: str, mm: float, low: float, high: float, least: float, most: float) -> None:
    if low <= mm <= high:
        return
    text = f"a {words} of {mm:.6g} mm cannot be"
    if not math.isfinite(mm):
        raise BadReading(f"the {words} is no number; give it in millimetre, as the caliper shows it")
    if mm <= 0.0:
        raise BadReading(f"{text}; a length is above zero, give it in millimetre as the caliper shows it")
    if least <= mm * INCH_MM <= most:
        raise BadReading(f"{text}; as inches it would be {mm * INCH_MM:.2f} mm, give that")
    if least <= mm * 1e3 <= most:
        raise BadReading(f"{text}; as metres it would be {mm * 1e3:.2f} mm, give that")
    if mm > high and least <= mm / 10.0 <= most:
        raise BadReading(f"{text}; the tables end at {most:g} mm, a slipped point would make it {mm / 10.0:g} mm")
    raise BadReading(f"{text}; the tables have {least:g} to {most:g} mm, measure it again")


def _pitch(mm: float) -> None:
    if 0.5 <= mm <= 4.0:
        return
    if not math.isfinite(mm) or mm <= 0.0:
        raise BadReading(f"a pitch of {mm:g} mm cannot be; it is the distance from crest to crest, 0.9 to 2.4 mm")
    text = f"a pitch of {mm:.6g} mm is far from any hose thread (0.9 to 2.4 mm)"
    if (2.0 * mm).is_integer() and any(abs(mm - usual) <= 0.26 for usual in USUAL_TPI):
        raise BadReading(f"{text}; {mm:g} threads an inch would be {INCH_MM / mm:.3f} mm, give it as threads per inch")
    if 0.85 <= mm * INCH_MM <= 2.4:
        raise BadReading(f"{text}; as inches from crest to crest it would be {mm * INCH_MM:.3f} mm, give that")
    if 0.85 <= mm / 10.0 <= 2.4:
        raise BadReading(f"{text}; over ten threads it would be {mm / 10.0:g} mm for one, give that")
    raise BadReading(f"{text}; count ten threads and divide by ten")


def _tpi(count: float) -> None:
    if 5.0 <= count <= 48.0:
        return
    if not math.isfinite(count) or count <= 0.0:
        raise BadReading(f"{count:g} threads an inch cannot be; count the crests beside one inch of a rule")
    if 0.85 <= count <= 2.4:
        raise BadReading(
            f"{count:g} threads an inch is far from any hose thread (11 to 28); as a pitch {count:g} mm is usual, "
            "give it as pitch"
        )
    raise BadReading(f"{count:g} threads an inch is far from any hose thread (11 to 28); count them again")


def readings_from_mm(**options: object) -> Readings:
    """Readings from named options in millimetre and degrees, as typed: numbers or text, `taper` and the like yes or no.

    Unknown names are refused; an empty or missing option was not read.

    >>> readings_from_mm(gender="male", diameter="26.4", taper="no").taper
    False
    """
    lengths = {"pitch", *LENGTHS}
    found: dict[str, object] = {}
    for raw, value in options.items():
        name = raw.replace("-", "_")
        if name not in Readings.__dataclass_fields__:
            raise BadReading(f"{raw!r} is no reading; there are {', '.join(Readings.__dataclass_fields__)}")
        if value is None or value == "":
            continue
        if name in ("taper", "clamped", "pitch_sure"):
            flag = value if isinstance(value, bool) else YES.get(str(value).strip().lower())
            if flag is None:
                raise BadReading(f"{raw} is {value!r}; yes or no is wanted")
            found[name] = flag
        elif name in ("gender", "cone", "seal_position"):
            found[name] = str(value).strip().lower().replace("_", " ")
        else:
            try:
                figure = float(str(value).strip().removesuffix("mm").removesuffix("°").strip())
            except ValueError:
                raise BadReading(
                    f"{raw} is {value!r}; a plain number is wanted, in "
                    f"{'millimetre' if name in lengths else 'threads an inch' if name == 'tpi' else 'degrees'}"
                ) from None
            found[name] = figure * MM if name in lengths else figure
    readings = Readings(**found)  # type: ignore[arg-type]
    check(readings)
    return readings
