"""What does a specification record hold? The JSON of the contract, typed, and what the documents need beside it.

Values are in the JSON units of the fact catalogue (bar, degC, mm, L/min, dash). A record is immutable: a revision is a
new record.
"""

from __future__ import annotations

from dataclasses import dataclass

from pydantic import BaseModel, ConfigDict, Field

COLD = ("fluid_cold", "ambient_cold", "fluid_floor")  # checks against a cold end: the low side of a need governs


class Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, ser_json_inf_nan="constants")


class Quantity(Part):
    value: float
    unit: str


class RangeQuantity(Part):
    low: float | None
    high: float | None
    unit: str


class FactLine(Part):
    """One fact as it stands: value in the JSON unit, origin, the words said, and why (computed, assumed)."""

    value: object
    unit: str
    origin: str
    said: str = ""
    unit_said: str = ""  # the unit it was said in
    because: str = ""
    label: str = ""
    shown: str = ""  # in the user's units, the other beside it
    turn: int = 0
    hedged: bool = False
    governs: str = ""  # set where sayings conflict: what the others said


@dataclass(frozen=True, slots=True)
class FindingLine:  # hundreds of each record: a model costs five times what this does to make
    check: str
    topic: str
    verdict: str  # fits | fails | open
    need: str
    have: str
    margin: float | None
    why: str
    source: str
    tag: str = ""
    thin: bool = False
    need_number: float | None = None  # for the pictures: need and have as numbers in `unit`
    have_number: float | None = None
    unit: str = ""


@dataclass(frozen=True, slots=True)
class CandidateLine:
    construction: str
    bore: float
    verdict: str
    findings: tuple[FindingLine, ...]
    twins: tuple[str, ...] = ()
    stock_item: str | None = None  # the item of the shop's shelf that has figures of its own


class Choice(Part):
    construction: str
    bore: float
    stock_item: str | None = None
    because: tuple[str, ...] = ()  # which step of the order of preference decided
    twins: tuple[str, ...] = ()
    runners_up: tuple[str, ...] = ()  # in words
    name: str = ""  # the hose in words: standard, type, bore


class PartRating(Part):
    part: str  # hose | end_a | end_b | adapter
    what: str
    rating: Quantity | None  # None: not known, never a pass
    source: str
    psi: float | None = None  # what the row prints in psi for it; None where the row prints none


class AssemblyLine(Part):
    rating: Quantity | None
    limited_by: str | None
    proof_pressure: Quantity | None
    parts: tuple[PartRating, ...] = ()
    next_stronger: str = ""
    notes: tuple[str, ...] = ()


class CautionLine(Part):
    id: str
    text: str


class AdviceLine(Part):
    check: str
    text: str
    source: str = ""


class AssumptionLine(Part):
    fact: str
    value: object
    why: str
    confirm_by: str
    shown: str = ""


class NeedLine(Part):
    """How a need came about: the computation in words."""

    name: str
    shown: str
    because: str


class Build(Part):
    """What a build sheet prints beside the rest. None where not known. Never a crimp diameter."""

    overall_length_mm: float | None = None
    cut_length_mm: float | None = None  # only from the user's own cut-off figures
    length_tolerance_mm: tuple[float, float] | None = None  # minus, plus
    tolerance_source: str = ""
    measuring_points: str = ""
    end_angle_deg: float | None = None
    angle_text: str = ""
    bend_radius_mm: float | None = None
    straight_before_bend_mm: float | None = None
    od_max_mm: float | None = None
    test_pressure_bar: float | None = None
    cleanliness: str = ""
    marking: tuple[str, ...] = ()
    age_rules: tuple[str, ...] = ()
    maker_must_supply: tuple[str, ...] = ()
    seals: tuple[str, ...] = ()  # at end A and end B, where nobody named one; "" where the end is not known either


class TestDone(Part):
    """A test somebody entered as done: when, by whom, with what. Its result is written on paper by the tester."""

    done_on: str  # ISO date
    tester: str = ""
    medium: str = ""
    gauge: str = ""
    standard: str = ""
    pieces: int | None = None


class Record(Part):
    """The specification record; `model_dump(mode="json")` is the contract's Record JSON with more beside it."""

    outcome: str  # specified | provisional | referred | unmatched
    ready_for: str  # none | quote | build
    missing_for_build: tuple[str, ...]
    facts: dict[str, FactLine]
    asked: tuple[str, ...]
    need: dict[str, Quantity | RangeQuantity | None]
    choice: Choice | None
    candidates: tuple[CandidateLine, ...]
    assembly: AssemblyLine | None
    cautions: tuple[CautionLine, ...]
    advice: tuple[AdviceLine, ...]
    assumptions: tuple[AssumptionLine, ...]
    open: tuple[str, ...]
    sources: tuple[str, ...]
    # beside the contract
    headline: str = ""  # the result in one plain sentence
    referral: str = ""  # where to go instead, after a stop
    nearest: str = ""  # unmatched: the nearest candidate and what blocks it
    needs: tuple[NeedLine, ...] = ()
    why_not: tuple[str, ...] = ()  # rejected constructions at the chosen bore, each with its reason
    open_words: tuple[str, ...] = ()  # the open points in words, each with how to close it
    memory_values: tuple[str, ...] = ()  # values that rest on memory, to be confirmed against the current edition
    house_rules: tuple[str, ...] = ()  # the rules used, named
    build: Build = Field(default_factory=Build)
    test: TestDone | None = None  # only where a test was entered as done
    job: str = "failed_hose"
    home: str = "metric"
    made: str = ""  # ISO date and time, from the caller
    tool_version: str = ""
    tables_version: str = ""

    @property
    def chosen(self) -> CandidateLine | None:
        """The candidate that was chosen: the shelf item itself where it has figures of its own, else its row."""
        if self.choice is None:
            return None
        pick, item = (self.choice.construction, self.choice.bore), self.choice.stock_item
        these = [c for c in self.candidates if (c.construction, c.bore) == pick]
        own = [c for c in these if c.stock_item is not None and c.stock_item == item]
        return next((c for c in (*own, *these) if c.stock_item in (None, item)), None)
