"""Which pictures show at a glance how far need and rating lie apart?

One for each of pressure, temperature and velocity, drawn from numbers the record holds; without numbers no picture.
"""

from __future__ import annotations

from dataclasses import dataclass

from interview.language.show import psi_borne
from interview.record.documents.page import Picture
from interview.record.documents.words import PART_WORDS, number, psi
from interview.record.figure import FAINT, INK, MARK, Figure, Item, Label, Stroke
from interview.record.model import Record

WIDTH = 520.0
COLUMNS = 46  # of a bar in a terminal


@dataclass(frozen=True, slots=True)
class Bar:
    """One line of a picture: from `low` to `high` on its scale; `need` bars are filled, ratings are outlined."""

    label: str
    low: float
    high: float
    need: bool
    weakest: bool = False
    printed: float | None = None  # what the row prints in psi, of a rating that has such a row


def gauges(record: Record) -> list[Picture]:
    shown = []
    for title, unit, bars in (
        ("Pressure", "bar", _pressures(record)),
        ("Temperature", "°C", _temperatures(record)),
        ("Velocity in the line", "m/s", _velocities(record)),
    ):
        if any(b.need for b in bars) and any(not b.need for b in bars):
            shown.append(_picture(title, unit, bars, record.home))
    return shown


def _number(record: Record, name: str) -> float | None:
    line = record.facts.get(name)
    if line is None or isinstance(line.value, bool):
        return None
    return float(line.value) if isinstance(line.value, (int, float)) else None


def _findings(record: Record, unit: str, topic: str) -> list[tuple[str, float, float]]:
    chosen = record.chosen
    if chosen is None:
        return []
    return [
        (f.check, f.need_number, f.have_number)
        for f in chosen.findings
        if f.topic == topic and f.unit == unit and f.need_number is not None and f.have_number is not None
    ]


def _pressures(record: Record) -> list[Bar]:
    bars = []
    for name, label in (("working_pressure", "works at"), ("surge_pressure", "highest spike")):
        if (value := _number(record, name)) is not None:
            assumed = " (assumed)" if record.facts[name].origin == "assumed" else ""
            bars.append(Bar(f"{label}{assumed}", 0.0, value, True))
    required = record.need.get("pressure")
    if not bars and required is not None and (value := getattr(required, "value", None)) is not None:
        bars.append(Bar("needed", 0.0, float(value), True))
    if record.assembly is not None:
        for part in record.assembly.parts:
            if part.rating is not None and part.rating.unit == "bar":
                weakest = part.part == record.assembly.limited_by
                label = f"{PART_WORDS.get(part.part, part.part)} carries"
                bars.append(Bar(label, 0.0, part.rating.value, False, weakest, part.psi))
    return bars


def _temperatures(record: Record) -> list[Bar]:
    fluid = _number(record, "fluid_temperature_min"), _number(record, "fluid_temperature_max")
    air = _number(record, "ambient_temperature_min"), _number(record, "ambient_temperature_max")
    bars = []
    for label, (low, high) in (("the fluid", fluid), ("air at the hose", air)):
        if high is not None:
            bars.append(Bar(label, high if low is None else low, high, True))
    found = _findings(record, "degC", "temperature")
    hot = [have for name, _, have in found if name in ("fluid_hot", "ambient_hot")]
    cold = [have for name, _, have in found if name in ("fluid_cold", "ambient_cold")]
    if hot and cold:
        bars.append(Bar("the hose bears", max(cold), min(hot), False))
    return bars


def _velocities(record: Record) -> list[Bar]:
    bars: list[Bar] = []
    for _, need, have in _findings(record, "m/s", "size")[:1]:
        bars += [Bar("in this bore", 0.0, need, True), Bar("house limit", 0.0, have, False)]
    return bars


def _picture(title: str, unit: str, bars: list[Bar], home: str) -> Picture:
    low = min(0.0, *(b.low for b in bars))
    high = max(b.high for b in bars) or 1.0
    span = (high - low) or 1.0
    told = [_told(bar, unit, home) for bar in bars]
    says = f"{title}: " + "; ".join(f"{bar.label} {words}" for bar, words in zip(bars, told, strict=True)) + "."
    zero = _number_in(0.0, unit, home) if low < 0 else ""
    return Picture(_text(title, bars, told, low, span), _figure(title, bars, told, low, span, zero, says), says)


def _told(bar: Bar, unit: str, home: str) -> str:
    """Its figures in the reader's unit; a rating in psi never above what its row prints."""
    if unit == "bar" and home == "us" and not bar.need:
        return f"{psi_borne(bar.high, bar.printed):,} psi"
    high = _number_in(bar.high, unit, home)
    if unit == "°C" and bar.low != bar.high:
        return f"{_number_in(bar.low, unit, home).rpartition(' ')[0]} to {high}"
    return high


def _number_in(value: float, unit: str, home: str) -> str:
    if home == "us" and unit == "bar":
        return f"{psi(value)} psi"
    if home == "us" and unit == "°C":
        value, unit = round(value * 1.8 + 32), "°F"
    elif home == "us" and unit == "m/s":
        value, unit = float(f"{value / 0.3048:.3g}"), "ft/s"
    return f"{number(value)} {unit}".replace("-", "−")


def _text(title: str, bars: list[Bar], told: list[str], low: float, span: float) -> str:
    out = [title]
    for bar, figures in zip(bars, told, strict=True):
        first = round((bar.low - low) / span * COLUMNS)
        last = max(first + 1, round((bar.high - low) / span * COLUMNS))
        body = ("█" if bar.need else "░") * (last - first)
        words = f"{figures}{' ◄ least' if bar.weakest else ''}"
        room = 76 - 19 - first - len(body)
        out.append(f"{bar.label[:18]:<19}{' ' * first}{body}".rstrip())
        if len(words) + 1 <= room:
            out[-1] += f" {words}"
        else:
            out.append(f"{'':<19}{words}")
    return "\n".join(out) + "\n"


def _figure(title: str, bars: list[Bar], told: list[str], low: float, span: float, zero: str, says: str) -> Figure:
    left, room = 118.0, 300.0
    items: list[Item] = [Label(8, 12, title, 10, bold=True)]
    y = 20.0
    for bar, figures in zip(bars, told, strict=True):
        x1 = left + (bar.low - low) / span * room
        x2 = max(x1 + 2, left + (bar.high - low) / span * room)
        ink = MARK if bar.weakest else INK
        box = ((x1, y), (x2, y), (x2, y + 9), (x1, y + 9))
        items.append(Stroke(box, ink, 1.2, True, FAINT if bar.need else None))
        items.append(Label(left - 6, y + 8, bar.label, 9, "end", ink=ink))
        words = f"{figures}{' – the least' if bar.weakest else ''}"
        items.append(Label(x2 + 5, y + 8, words, 9, bold=bar.weakest, ink=ink))
        y += 15
    if zero:
        x = left - low / span * room
        items.append(Stroke(((x, 18), (x, y)), FAINT, 0.6, dash=(2, 2)))
        items.append(Label(x, y + 8, zero, 7.5, "middle", ink=FAINT))
        y += 10
    return Figure(WIDTH, y + 4, tuple(items), title, says)
