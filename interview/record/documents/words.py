"""How is a value of the record worded on paper?

Text that came from a customer is data: control characters and invisible direction marks leave, line breaks become
spaces, and what is too long for a page is cut with a note. Escaping for one form of paper belongs to that form.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from interview.catalogue import CATALOGUE, TOPICS
from interview.language.show import show_rating
from interview.record.model import AssemblyLine, FactLine, Quantity, RangeQuantity, Record
from interview.selection.assembly import printed_psi

PSI_PER_BAR = 1e5 / 6894.757293168361  # NIST SP 811: 1 psi = 6894.757 293 168 361 Pa
MM_PER_INCH = 25.4

ORIGIN_WORDS = {
    "stated": "the customer said so",
    "read": "read off (print, plate, manual or gauge)",
    "measured": "measured",
    "copied": "copied from the old hose",
    "computed": "worked out",
    "assumed": "ASSUMED",
    "unknown": "asked, not known",
}
OUTCOME_WORDS = {
    "specified": "Specified: on what was said, no check is open and nothing is assumed",
    "provisional": "Provisional: it rests on the assumptions and open points listed",
    "referred": "Referred: this is not for the counter",
    "unmatched": "Unmatched: nothing in the tables makes an assembly that fits",
}
SPECIFIED_BY_RULE = (
    "Specified: on what was said, no check is open; what house rules put in stands under what is assumed, "
    "to be confirmed"
)
READY_WORDS = {"none": "nothing yet", "quote": "a quote, not for building", "build": "building"}
VERDICT_WORDS = {"fits": "fits", "fails": "FAILS", "open": "OPEN"}
PART_WORDS = {"hose": "the hose", "end_a": "end A", "end_b": "end B", "adapter": "the adapter"}
JOB_WORDS = {
    "failed_hose": "a hose to replace one that failed",
    "sample": "a hose like the sample",
    "new_line": "a hose for a new line",
    "repeat": "a hose as supplied before",
}
LONGEST = 600
FORM_WORDS = {"elbow45": "45° elbow", "elbow90": "90° elbow"}
SNAKE = re.compile(r"^[a-z]+(_[a-z]+)+$")
PLAIN_WORD = re.compile(r"^[a-zé]+(-[a-zé]+)*(?=[\s,:;.]|$)")  # not an id, which holds digits


def clean(text: object, longest: int = LONGEST) -> str:
    """Customer text on one line, fit to print; cut with a note where it is longer than a page can bear."""
    kept: list[str] = []
    for char in str(text):
        category = unicodedata.category(char)
        if category in ("Cc", "Zl", "Zp"):
            kept.append(" ")
        elif category not in ("Cf", "Cs", "Co", "Cn"):
            kept.append(char)
    line = " ".join("".join(kept).split())
    if len(line) <= longest:
        return line
    return f"{line[:longest].rstrip()} … (cut here; {len(line)} characters in the record)"


def number(value: float, digits: int = 4) -> str:
    """Significant digits without an exponent: 206.8, 1205, 0.35."""
    if value == 0:
        return "0"
    rounded = float(f"{value:.{digits}g}")
    if rounded == int(rounded):
        return str(int(rounded))
    return f"{rounded:.10f}".rstrip("0").rstrip(".")


def signed(value: float) -> str:
    return f"{'+' if value >= 0 else '−'}{number(abs(value))}"


def psi(bar: float) -> str:
    """Pressure in whole psi; a hair beside a multiple of 50 is that multiple (413.6 bar is twice the print of 3000)."""
    exact = bar * PSI_PER_BAR
    near = round(exact / 50) * 50
    return f"{near if near and abs(near - exact) < 2 else exact:,.0f}"


def pressure(bar: float, home: str = "metric") -> str:
    return _both(f"{number(bar)} bar", f"{psi(bar)} psi", home)


def _both(metric: str, inch: str, home: str) -> str:
    """The reader's unit first, the other beside it."""
    first, second = (inch, metric) if home == "us" else (metric, inch)
    return f"{first} ({second})"


def rating(bar: float, home: str = "metric", printed: float | None = None) -> str:
    """What a part bears, rounded down; `printed` is the figure its row prints in psi."""
    return show_rating(bar * 1e5, home, printed)


def assembly_psi(assembly: AssemblyLine) -> float | None:
    """What the row of the limiting part prints in psi; None where it prints none, or more than another part bears."""
    if assembly.rating is None:
        return None
    rated = [(part, part.rating.value) for part in assembly.parts if part.rating is not None]
    found = [i for i, (p, bar) in enumerate(rated) if p.part == assembly.limited_by and bar == assembly.rating.value]
    return printed_psi([(bar * 1e5, part.psi) for part, bar in rated], found[0]) if found else None


def inches(mm: float) -> str:
    """Inches to the nearest sixteenth, as a rule reads; two decimals where a sixteenth would hide the figure."""
    sixteenths = round(mm / MM_PER_INCH * 16)
    if abs(mm) < 12:
        return f"{mm / MM_PER_INCH:.2f} in"
    whole, rest = divmod(abs(sixteenths), 16)
    sign = "−" if sixteenths < 0 else ""
    if not rest:
        return f"{sign}{whole} in"
    below = 16
    while rest % 2 == 0:
        rest, below = rest // 2, below // 2
    return f"{sign}{f'{whole} ' if whole else ''}{rest}/{below} in"


def length(mm: float, home: str = "metric") -> str:
    return _both(f"{number(mm, 6)} mm", inches(mm), home)


def tolerance(band: tuple[float, float], home: str = "metric") -> str:
    """Minus and plus as printed beside a length; the band is given as two millimetre figures."""
    minus, plus = abs(band[0]), abs(band[1])
    metric = f"+{number(plus)} / −{number(minus)} mm"
    if home == "us":
        return f"+{plus / MM_PER_INCH:.2f} / −{minus / MM_PER_INCH:.2f} in ({metric})"
    return metric


def quantity(value: float, unit: str, home: str = "metric") -> str:
    if unit == "bar":
        return pressure(value, home)
    if unit == "mm":
        return length(value, home)
    if unit == "degC":
        return _both(f"{number(value)} °C", f"{number(round(value * 1.8 + 32))} °F", home)
    if unit == "dash":
        if value * 2 != int(value * 2):  # worked out from the flow: between the sizes that are made
            return _both(f"{number(value * MM_PER_INCH / 16, 3)} mm", f"{number(value / 16, 3)} in", home)
        whole, rest = divmod(Fraction(value) / 16, 1)
        return f"-{number(value)} ({' '.join(str(part) for part in (whole, rest) if part)} in)"
    if unit == "VG":
        return f"ISO VG {number(value)}"
    named = {"deg": "°", "1/h": "an hour", "year": "years"}.get(unit, unit)
    return f"{number(value)}{'' if unit == 'deg' else ' '}{named}".strip()


def one_need(need: Quantity | RangeQuantity | None, home: str = "metric") -> str:
    """A need in words; None is not known."""
    if need is None:
        return "not known"
    if isinstance(need, Quantity):
        return quantity(need.value, need.unit, home)
    if need.low is None and need.high is None:
        return "not known"
    if need.low is not None and need.low == need.high:
        return quantity(need.low, need.unit, home)
    if need.low is None:
        return f"up to {quantity(need.high or 0.0, need.unit, home)}"
    if need.high is None:
        return f"{quantity(need.low, need.unit, home)} or more"
    return f"{quantity(need.low, need.unit, home)} to {quantity(need.high, need.unit, home)}"


def outcome(record: Record) -> str:
    """The result; that nothing is assumed is said only where nothing is."""
    if record.outcome == "specified" and record.assumptions:
        return SPECIFIED_BY_RULE
    return OUTCOME_WORDS.get(record.outcome, clean(record.outcome))


def fact_label(name: str, line: FactLine) -> str:
    if line.label:
        return clean(line.label)
    return CATALOGUE[name].label if name in CATALOGUE else clean(name.replace("_", " "))


def fact_shown(line: FactLine, home: str = "metric") -> str:
    """The value in words: as the engine worded it, else from the JSON value."""
    if line.shown:
        return clean(line.shown)
    value = line.value
    if value is None:
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, (int, float)):
        return quantity(float(value), line.unit, home)
    if isinstance(value, (list, tuple)):
        return clean(", ".join(str(v).replace("_", " ") for v in value)) or "none of these"
    if isinstance(value, dict):
        low, high = value.get("low"), value.get("high")
        return one_need(RangeQuantity(low=low, high=high, unit=line.unit), home)
    text = FORM_WORDS.get(str(value), clean(value))
    return text.replace("_", " ") if SNAKE.match(text) else text  # a choice, not words of the customer


def shown(record: Record, name: str) -> str:
    """One fact in words; empty where the record does not hold it or nobody knew."""
    line = record.facts.get(name)
    return fact_shown(line, record.home) if line is not None and line.value is not None else ""


def hose(record: Record) -> str:
    """The hose in words, or by its ids where the record holds no words for it; empty where none was chosen."""
    choice = record.choice
    if choice is None:
        return ""
    named = [p.what for p in record.assembly.parts if p.part == "hose"] if record.assembly else []
    return choice.name or (named[0] if named else f"{choice.construction}, bore {quantity(choice.bore, 'dash')}")


def by_topic(record: Record) -> list[tuple[str, list[tuple[str, FactLine]]]]:
    """The facts grouped by topic, in the order of the catalogue."""
    groups: dict[str, list[tuple[str, FactLine]]] = {topic: [] for topic in TOPICS}
    order = {name: place for place, name in enumerate(CATALOGUE)}
    for name in sorted(record.facts, key=lambda n: (order.get(n, len(order)), n)):
        topic = CATALOGUE[name].topic if name in CATALOGUE else "delivery"
        groups[topic].append((name, record.facts[name]))
    return [(topic, lines) for topic, lines in groups.items() if lines]


def margin(value: float | None, thin: bool = False) -> str:
    if value is None:
        return "—"
    if value >= 9:  # a percentage of that size says nothing
        return f"{number(value + 1, 2)} times"
    return f"{signed(round(value * 100, 1))} %{' (thin)' if thin else ''}"


def times(value: float | None) -> str:
    """The margin of an order of magnitude: how many times over, in two digits."""
    return "—" if value is None else f"about {number(value + 1, 2)} times"


def degrees(need: float, limit: float, home: str = "metric", *, cold: bool = False, thin: bool = False) -> str:
    """What is to spare up to a limit in degrees Celsius, as a difference: a ratio of them means nothing."""
    spare = need - limit if cold else limit - need
    celsius, fahrenheit = f"{signed(round(spare, 1))} °C", f"{signed(round(spare * 1.8))} °F"
    return _both(celsius, fahrenheit, home) + (" (thin)" if thin else "")


def capital(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"


def sentence(text: str) -> str:
    """Begins with a capital, unless it begins with an id, and ends with a full stop."""
    text = text.strip()
    if PLAIN_WORD.match(text):
        text = capital(text)
    return text if not text or text[-1] in ".!?…:" else f"{text}."
