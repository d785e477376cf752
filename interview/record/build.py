"""What does a build need written down? Length with tolerance and points, angle, radius, test pressure, marking."""

from __future__ import annotations

from math import ceil

from interview.dialogue.session import Session
from interview.engineering.angle import difference, in_words, mirrored, tolerance
from interview.engineering.errors import EngineeringError
from interview.engineering.lengths import cut_length
from interview.facts import Known, tidy
from interview.record.model import Build
from interview.reference.connections import Connections
from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate
from interview.selection.checks.routing import least_length, seat_to_seat, straight_part, tolerance_of
from interview.selection.judge import Judgement
from interview.selection.needs import Needs
from interview.selection.outcome import BENT, Standing

ROUNDING = 1e-9  # m: far below what any tape reads
BETWEEN_FITTINGS = "hose between the fittings only: the exposed length of both ends, from their maker, comes on top"


def build_of(session: Session, standing: Standing, index: int | None) -> Build:
    """The build block of the record; empty after a stop or where nothing was chosen."""
    if index is None or standing.assembly is None:
        return Build()
    judgement, known = standing.judgement, standing.judgement.needs.known
    candidate = judgement.bench.candidates[index]
    rules = judgement.bench.rules
    size = candidate.size
    home_rule = rules.home_standards[session.home]
    length = known.high("overall_length")
    band, source = None, ""
    needed = order_length(judgement.needs, candidate, session.home)
    from_machine = needed is not None and (
        length is None or (length < needed and not reaches(judgement.needs, candidate, session.home))
    )
    if from_machine:
        length = needed
    if length is not None:
        try:
            minus, plus, evidence = judgement.bench.tables.length_tolerance(length, size.dn, home_rule.length_tolerance)
            band, source = (tidy(minus * 1e3), tidy(plus * 1e3)), f"{evidence.source} ({evidence.tag.value})"
        except ValueError:  # the published bands end below the largest hose
            source = "the published bands do not reach this size: agree one with the customer"
    angle = known.value("end_angle")
    angle = angle if isinstance(angle, float) else None
    straight = straight_part(judgement.needs, candidate) if size.od_max is not None else None
    proof = standing.assembly.proof
    rating = standing.assembly.rating
    radius = max((r for c in judgement.sold_as(index) if (r := c.size.bend_radius) is not None), default=None)
    return Build(
        overall_length_mm=None if length is None else tidy(length * 1e3),
        length_tolerance_mm=band,
        tolerance_source=source,
        cut_length_mm=_cut_length(length, known),
        measuring_points=BETWEEN_FITTINGS
        if from_machine and not seat_to_seat(judgement.needs)
        else measuring_points(known, judgement.bench.connections),
        end_angle_deg=angle,
        angle_text=angle_text(angle, length, known["end_angle"].because if angle is not None else ""),
        bend_radius_mm=None if radius is None else tidy(radius * 1e3),
        straight_before_bend_mm=None if straight is None else tidy(round(straight * 1e3, 1)),
        od_max_mm=None if size.od_max is None else tidy(size.od_max * 1e3),
        test_pressure_bar=None if proof is None else tidy(proof / 1e5),
        cleanliness=known.text("cleanliness") or rules.cleanliness_default,
        marking=(
            "assembler's mark",
            f"maximum working pressure of the assembly: {tidy(rating / 1e5):g} bar"
            if rating
            else "maximum working pressure of the assembly: open",
            "year and month of assembly",
        ),
        age_rules=(
            f"hose not older than {rules.ages.hose_at_build:g} years at assembly",
            f"assembly not longer than {rules.ages.assembly_in_store:g} years in store",
            f"in service not longer than {rules.ages.service:g} years from assembly "
            f"({rules.ages.service_severe:g} under severe duty); {rules.ages.source}",
        ),
        seals=tuple(_seal(judgement, index, end) for end in ("end_a", "end_b")),
        maker_must_supply=(
            "that this hose and these fittings were tested together",
            "crimp data for exactly this pair, with its edition",
            "insertion depth and skive or no skive",
            "cut-off length of each fitting",
        ),
    )


def _seal(judgement: Judgement, index: int, end: str) -> str:
    """The seal an end wants where nobody named one: the kind by its family, the material by the house rule."""
    family = judgement.bench.connections.families.get(judgement.needs.known.text(f"{end}_family") or "")
    if family is None:
        return ""
    if family.seal["usual_seal"] is None:
        return f"no soft seal: {family.seal['method']}"
    ruled = next((str(r.data["seal"]) for r in judgement.remarks(index) if r.check == "seal_choice"), "")
    return f"{family.seal['element']}{f', {ruled} by house rule' if ruled else ''}, to be confirmed"


def order_length(needs: Needs, candidate: Candidate, home: str) -> float | None:
    """The length to order from the machine's distances, m: the first step that does when made at its own short side.

    Steps of 5 mm, or of an eighth of an inch where lengths were said in inches: our own bound.
    """
    least, _, _ = least_length(needs, candidate)
    if least is None:
        return None
    step = 3.175e-3 if needs.us else 5e-3
    steps = ceil(round(least / step, 6))
    while steps * step - short_side(needs, candidate, home, steps * step) < least - ROUNDING:
        steps += 1
    return round(steps * step, 9)


def reaches(needs: Needs, candidate: Candidate, home: str) -> bool:
    """Whether the length that was asked for still does when it is made at its short side."""
    least, asked = least_length(needs, candidate)[0], needs.known.low("overall_length")
    if least is None or asked is None:
        return False
    return asked - short_side(needs, candidate, home, asked) >= least - ROUNDING


def short_side(needs: Needs, candidate: Candidate, home: str, length: float) -> float:
    """How much shorter an assembly of that length may be made, m: the wider of the printed and the checked band."""
    checked = tolerance_of(needs, candidate, length)[0]
    kind = needs.rules.home_standards[home].length_tolerance
    try:
        return max(checked, load_tables().length_tolerance(length, candidate.size.dn, kind)[0])
    except ValueError:  # the published bands end below the largest hose
        return checked


def measuring_points(known: Known, connections: Connections) -> str:
    """Between which points the length is measured: sources differ, so both are written down."""
    a, b = (_point(known, end, connections) for end in ("end_a", "end_b"))
    return f"along the hose from {a} of end A to {b} of end B"


def _point(known: Known, end: str, connections: Connections) -> str:
    family = connections.families.get(known.text(f"{end}_family") or "")
    place = str(family.seal["position"]) if family is not None else ""
    word = {
        "face": "the face",
        "thread": "the end of the thread",
        "base": "the shoulder",
        "shoulder": "the shoulder",
    }.get(place, "the seat")
    return f"the centre of {word}" if known.text(f"{end}_form") in BENT else word


def _cut_length(length: float | None, known: Known) -> float | None:
    """Overall length less the two cut-offs the user gave, mm; None without them, or where they leave no hose."""
    offs = (known.high("end_a_cut_off"), known.high("end_b_cut_off"))
    if length is None or offs[0] is None or offs[1] is None:
        return None
    try:
        return tidy(round(cut_length(length, offs[0], offs[1]) * 1e3, 1))
    except EngineeringError:
        return None


def angle_text(angle: float | None, length: float | None, because: str = "") -> str:
    """The angle as the bench needs it: number, clock, tolerance, the mirrored piece, and how it was worked out."""
    if angle is None:
        return ""
    text = f"{angle:g} degrees counter-clockwise, looking along the hose from the near end: {in_words(angle)}"
    if length is not None:
        text += f"; within {tolerance(length):g} degrees either way"
    other = mirrored(angle)
    if difference(angle, other) >= 1e-6:
        text += f"; the piece for the other side of a mirrored machine is {other:g}"
    return f"{text}; {because}" if because else text
