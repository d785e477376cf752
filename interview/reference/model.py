"""What does a row of a reference table hold?

Frozen rows, SI floats, and beside every group of values the evidence they rest on. None means "not known", never zero.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

PSI = 6894.757293168361  # Pa: pound-force and inch are exact (NIST SP 811 B.9)


class Tag(StrEnum):
    """How a value was obtained, from firm to soft."""

    STANDARD = "standard"
    MAKER = "maker"  # the maker's own document, as the shop has entered it
    RESTATED = "restated"
    HANDBOOK = "handbook"
    COMPUTED = "computed"
    PRACTICE = "practice"
    MEMORY = "memory"


NO_SOURCE = "from memory, no source at hand"
IN_WORDS = {
    "not available": NO_SOURCE,
    "from memory": NO_SOURCE,
    "4 x WP": "four times the working pressure",
    "4 x WP used as floor": "four times the working pressure, taken as the least",
    "4 x working pressure": "four times the working pressure",
    "iso11237 R17 (-4 to -6 recalled)": "ISO 11237 R17 (-4 to -6 recalled)",
}


def source_said(source: str, tag: str = "") -> str:
    """Source and tag in one; words that are themselves the tag stand alone.

    >>> source_said("EN 857 table 1", "memory"), source_said("not available", "memory")
    ('EN 857 table 1 (memory)', 'from memory, no source at hand')
    """
    source = IN_WORDS.get(source, source)
    itself = source.startswith("common practice") or "from memory" in source
    return source if not tag or itself else f"{source} ({tag})"


@dataclass(frozen=True, slots=True)
class Evidence:
    """Source and tag of one value or group of values."""

    tag: Tag
    source: str
    restatements: int | None = None
    confidence: str | None = None  # low | medium; None: not doubted
    note: str = ""

    @property
    def said(self) -> str:
        return source_said(self.source, self.tag)


COMMON_PRACTICE = Evidence(Tag.PRACTICE, "common practice, no source")


@dataclass(frozen=True, slots=True)
class Window:
    """A temperature window in degree Celsius."""

    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Twin:
    """A counterpart in another standard. `id` None: it has no entry of its own."""

    ref: str
    id: str | None
    relation: str


@dataclass(frozen=True, slots=True)
class HoseSize:
    """One construction at one bore. Pressures in pascal, lengths in metre.

    `bore` is the true bore in sixteenths of an inch (to the half); `marked_dash` what is printed, None where the size
    has no dash. `wp_select` is the figure to select by; `wp` and `wp_psi` the rounded pair the standard prints.
    """

    construction: str
    bore: float
    marked_dash: float | None
    dn: int
    inch: str
    nominal_bore: float
    id_min: float | None
    id_max: float | None
    od_min: float | None
    od_max: float | None
    wp: float
    wp_psi: float
    wp_psi_stated: bool
    wp_select: float
    proof: float | None
    burst_min: float | None
    bend_radius: float | None
    flags: tuple[str, ...] = ()
    evidence: Mapping[str, Evidence] = field(default_factory=dict)  # working_pressure, burst, bend_radius, od, id

    @property
    def psi_printed(self) -> float | None:
        """The working pressure its row prints in psi; None where the row prints none."""
        return self.wp_psi if self.wp_psi_stated else None


@dataclass(frozen=True, slots=True)
class Construction:
    """A hose construction of a published standard."""

    id: str
    standard: str
    type: str
    status: str
    reinforcement: str  # textile_braid | wire_braid | wire_spiral | wire_helix | fibre_braid | ptfe_wire_braid
    layers: str
    reinforcement_text: str
    tube: str
    cover: str
    twins: tuple[Twin, ...]
    temperature: Mapping[str, Window | None]  # oil, water_based, water
    media: frozenset[str]  # ISO 6743-4 symbols the standard's statement covers, lower case
    excluded: frozenset[str]  # symbols it names as not covered, or which follow from "ester based" (lower case)
    excluded_words: tuple[str, ...]
    ask: frozenset[str]  # neither covered nor excluded: the hose maker must say (lower case)
    impulse_cycles: float | None
    impulse_required: bool | None  # False: the standard asks for no impulse test; None: not known
    impulse_percent: Mapping[float, float]  # bore -> percent of maximum working pressure
    vacuum: Mapping[float, float]  # bore -> pascal below atmospheric; a bore that is missing has no rating
    non_conductive_option: bool | None
    conductive_tube: bool | None
    length_change: tuple[float, float] | None  # percent at working pressure, low and high
    legacy_wp: Mapping[float, float]  # marked dash -> pascal, of hose marked before the standard changed
    proof_ratio: float | None
    burst_ratio: float | None
    evidence: Mapping[str, Evidence]  # reinforcement, temperature, media, exclusions, impulse, vacuum, electrical, …
    sizes: tuple[HoseSize, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class EndRating:
    """A pressure rating of one column of a connection size; pascal."""

    column: str  # rigid | swivel | adjustable | light | heavy | iso | sae
    pressure: float
    psi: float | None
    psi_stated: bool
    of: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class ConnectionSize:
    """One size of a connection family; lengths in metre, pitch in metre."""

    family: str
    size: str  # the family's own id: "-8", "18L", "1/2", "M22x1.5"
    dash: float | None
    thread: str | None
    pitch: float | None
    male_od: tuple[float, float] | None
    female_id: tuple[float, float] | None
    ratings: tuple[EndRating, ...]
    details: Mapping[str, object]  # the other columns of the table as they stand (mm, N·m)
    evidence: Mapping[str, Evidence]


@dataclass(frozen=True, slots=True)
class ConnectionFamily:
    """A family of hose-end connections."""

    id: str
    names: tuple[str, ...]
    standards: tuple[str, ...]
    seal: Mapping[str, object]
    thread: Mapping[str, object]
    notes: Mapping[str, str]
    warning_ids: tuple[str, ...]
    sizes: tuple[ConnectionSize, ...]

    @property
    def metal_seat(self) -> bool:
        """True where no soft element seals (the seat is metal, or the thread itself)."""
        element = self.seal.get("element")
        return element is None or element == "sealant"

    def size(self, size: str) -> ConnectionSize | None:
        wanted = normal_size(size)
        return next((row for row in self.sizes if normal_size(row.size) == wanted), None)


def normal_size(size: str) -> str:
    """Size ids ignore case; `8` and `-8` are one, as the contract says."""
    text = str(size).strip().lower()
    return text[1:] if text.startswith("-") else text


@dataclass(frozen=True, slots=True)
class Fluid:
    """A medium. `family` tells which temperature column of a hose governs."""

    id: str  # lower case
    iso_class: str | None
    group: str  # column of the compatibility matrix
    family: str  # oil | water_based | water | gas | other
    mineral: bool
    name: str
    counter_names: tuple[str, ...]
    scope: str  # in_scope | in_scope_with_conditions | stop_and_refer
    rule: str | None  # id of the refer rule
    questions: tuple[str, ...]
    temperature: Window | None  # the fluid's own limits
    density_15: tuple[float, float, float] | None  # typical, low, high; kg/m3
    viscosity_index: tuple[float, float, float] | None
    pour_point: tuple[float, float, float] | None
    bulk_modulus: tuple[float, float, float] | None  # pascal
    evidence: Mapping[str, Evidence]
    notes: tuple[str, ...] = ()
    viscosity_40: tuple[float, float, float] | None = None  # m2/s, where the class is not a grade of ISO 3448
    viscosity_100: tuple[float, float, float] | None = None


@dataclass(frozen=True, slots=True)
class ReferRule:
    """Why a use or medium is not this tool's, and who rules it."""

    id: str
    title: str
    why: str
    governed_by: tuple[str, ...]
    advice: str
    evidence: Evidence


@dataclass(frozen=True, slots=True)
class Material:
    """A polymer or metal of seals, tubes and ends. Temperatures in degree Celsius."""

    id: str
    kind: str  # polymer | metal
    name: str
    counter_names: tuple[str, ...]
    parts: tuple[str, ...]
    temperature: Window | None
    evidence: Evidence | None
    notes: tuple[str, ...] = ()
    cold_evidence: Evidence | None = None  # of the lower limit, which for a seal may rest on less than the upper


@dataclass(frozen=True, slots=True)
class Cell:
    """One material against one fluid group. `evidence` speaks for the verdict, `CAP` for `max_c`."""

    material: str
    group: str
    verdict: str  # good | limited | not_suitable | no_data (the table's own words)
    max_c: float | None
    evidence: Evidence
    note: str = ""


CAP = Evidence(
    Tag.PRACTICE,
    "common practice, no source: our own cautious setting, the lowest cap of fluid, material and pair",
)
