"""Does it fit the place? The room to bend, and the length of a straight run.

The bend radius of the tables is to the inside of the bend: EN 853:2015 6.2 (seen). Length change under pressure
+2/-4 %: EN 854:2015 6.1.2 (seen).
"""

from __future__ import annotations

from interview.engineering.errors import EngineeringError
from interview.engineering.geometry import minimum_spacing, straight_run_length
from interview.engineering.moving import loop_length
from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.checks.pressure import shown
from interview.selection.finding import Answer, Finding, Remark, Verdict
from interview.selection.needs import UNKNOWN, Needs


def judge_bend(needs: Needs, candidate: Candidate) -> Answer:
    radius = candidate.size.bend_radius
    evidence = candidate.size.evidence.get("bend_radius")
    if needs.bend == UNKNOWN:
        if radius is not None:
            return Remark("bend", "routing", "bend_declined" if needs.bend_declined else "bend_unknown", evidence,
                          {"radius": radius})
        return None
    if radius is None:
        return Finding("bend", "routing", Verdict.OPEN, "bend_no_row", "length", shown(needs.bend), None, evidence=evidence)
    low, high = needs.bend
    if low is not None and low >= radius:
        verdict = Verdict.FITS
    elif high is not None and high < radius:
        verdict = Verdict.FAILS
    else:
        verdict = Verdict.OPEN
    least = low if low is not None else high
    return Finding("bend", "routing", verdict, "bend", "length", radius, least,
                   least / radius - 1 if least is not None else None, evidence=evidence,
                   hangs_on=("bend_radius_available",) if verdict is Verdict.OPEN else ())


def judge_length(needs: Needs, candidate: Candidate) -> Answer:
    """The length asked for against the least the machine's own distances need, made at its shortest tolerance."""
    least, reason, data = least_length(needs, candidate)
    if reason == "u_too_narrow":
        return Finding("length", "routing", Verdict.FAILS, reason, "length", data["needs"], data["spacing"], data=data)  # type: ignore[arg-type]
    length = needs.known.low("overall_length")
    if least is None or length is None:
        return None
    shortest = length - tolerance_of(needs, candidate, length)[0]
    evidence = candidate.construction.evidence.get("length_change")
    if shortest < least:
        # A length is cut, not chosen: too short a wish is corrected on the record, it does not condemn the hose.
        return Remark("length", "routing", "length_too_short", evidence, {**data, "asked": length, "least": least})
    return Finding("length", "routing", Verdict.FITS, reason, "length", least, length, shortest / least - 1, evidence=evidence,
                   data=data)


def tolerance_of(needs: Needs, candidate: Candidate, length: float) -> tuple[float, float]:
    """Minus and plus in m by the home standards of the units spoken."""
    home = needs.rules.home_standards["us" if needs.us else "metric"].length_tolerance
    try:
        minus, plus, _ = load_tables().length_tolerance(length, candidate.size.dn, home)
    except ValueError:  # the published bands end below the largest hose: only the length itself is held
        return 0.0, 0.0
    return minus, plus


def least_length(needs: Needs, candidate: Candidate) -> tuple[float | None, str, dict[str, object]]:
    """Least overall length in m for the route, its reason id and data; None where the route or its distance is not said.

    Straight run: distance / (1 - shortening). U-bend and moving loop: bend at the spacing or the least radius, straight
    parts behind the fittings, half the travel (fixed end opposite mid-stroke), shortened. SAE J343 spacing; DGUV 113-020
    straight part. The exposed length of the ends comes on top and is the fitting maker's figure.
    """
    known, size = needs.known, candidate.size
    distance = known.high("port_distance")
    change = candidate.construction.length_change
    shrink = -min(change[0], 0.0) if change is not None else 4.0
    route = known.text("clearance_geometry")
    travel = known.high("travel") or 0.0
    data: dict[str, object] = {"shrink": shrink}
    if route == "straight_run" and distance is not None:
        return straight_run_length(distance, shrink / 100), "straight_run", data
    if route != "u_bend" or size.bend_radius is None or size.od_max is None:
        return None, "", data
    rule = needs.rules.straight_before_bend
    straight = max(rule.outside_diameters * size.od_max, rule.bores * size.nominal_bore)
    narrowest = known.low("port_distance")
    if narrowest is not None and narrowest < minimum_spacing(size.bend_radius, size.od_max):
        return None, "u_too_narrow", {**data, "spacing": narrowest, "needs": minimum_spacing(size.bend_radius, size.od_max)}
    try:
        free = loop_length(size.bend_radius, size.od_max, travel, straight, spacing=distance)
    except EngineeringError:
        return None, "", data
    return free / (1 - shrink / 100), "u_bend", {**data, "travel": travel}


CHECKS = (
    check("bend", "routing", "bend_radius_available", judge_bend),
    check("length", "routing", "port_distance overall_length clearance_geometry travel", judge_length),
)
