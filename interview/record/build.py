"""What does a build need written down? Length with tolerance and points, angle, radius, test pressure, marking, ages."""

from __future__ import annotations

from math import ceil

from interview.dialogue.session import Session
from interview.facts import tidy
from interview.record.model import Build
from interview.selection.candidates import Candidate
from interview.selection.checks.routing import least_length, tolerance_of
from interview.selection.needs import Needs
from interview.selection.outcome import Standing


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
    tolerance, source = None, ""
    needed = order_length(judgement.needs, candidate)
    if needed is not None and (length is None or length < needed):
        length = needed
    if length is not None:
        minus, plus, evidence = judgement.bench.tables.length_tolerance(length, size.dn, home_rule.length_tolerance)
        tolerance, source = (tidy(minus * 1e3), tidy(plus * 1e3)), f"{evidence.source} ({evidence.tag.value})"
    angle = known.high("end_angle")
    straight = None
    if size.od_max is not None:
        straight = max(
            rules.straight_before_bend.outside_diameters * size.od_max,
            rules.straight_before_bend.bores * size.nominal_bore,
        )
    proof = standing.assembly.proof
    rating = standing.assembly.rating
    return Build(
        overall_length_mm=None if length is None else tidy(length * 1e3),
        length_tolerance_mm=tolerance,
        tolerance_source=source,
        measuring_points="seat to seat along the hose; a bent end to the centre of its seat",
        end_angle_deg=angle,
        angle_text=_angle_text(angle),
        bend_radius_mm=None if size.bend_radius is None else tidy(size.bend_radius * 1e3),
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
        maker_must_supply=(
            "that this hose and these fittings were tested together",
            "crimp data for exactly this pair, with its edition",
            "insertion depth and skive or no skive",
            "cut-off length of each fitting",
        ),
    )


def order_length(needs: Needs, candidate: Candidate) -> float | None:
    """The length to order from the machine's own distances, m: the least, plus the short side of its tolerance, up to 5 mm."""
    least, _, _ = least_length(needs, candidate)
    if least is None:
        return None
    return ceil(round((least + tolerance_of(needs, candidate, least)[0]) * 1e3, 6) / 5) * 5 / 1e3


def _angle_text(angle: float | None) -> str:
    if angle is None:
        return ""
    hour = round(((180 - angle) % 360) / 30) or 12
    return (
        f"{angle:g} degrees counter-clockwise: near end's outlet pointing down, looking along the hose, the far outlet points to "
        f"{hour} o'clock"
    )
