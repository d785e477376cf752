"""Does it fit the place? The room to bend, and the length its route needs.

The bend radius of the tables is to the inside of the bend: EN 853:2015 6.2 (seen). Length change under pressure
+2/-4 %: EN 854:2015 6.1.2 (seen).
"""

from __future__ import annotations

from interview.engineering.errors import EngineeringError
from interview.engineering.geometry import (
    bow_height,
    centreline_radius,
    minimum_spacing,
    offset_length,
    offset_projection,
    right_angle_length,
    straight_run_length,
)
from interview.engineering.moving import loop_length
from interview.reference.model import Evidence, Tag
from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate, widest_bend
from interview.selection.checks.base import check
from interview.selection.finding import Answer, Finding, Remark, Verdict
from interview.selection.needs import UNKNOWN, Needs, one_figure
from interview.selection.port_angle import PLACE, ports_apart

NAVEDTRA = Evidence(Tag.HANDBOOK, "NAVEDTRA 14105 on long hoses")
CLAMP_SPACING = 0.61  # m: 24 in at most from clamp to clamp (NAVEDTRA 14105, handbook)
LONG = 3 * CLAMP_SPACING  # from here up a run is called long (our own bound)
HANGS = 3.0  # m: from here up a hose hung free wants a grip for its weight (common practice, no source)
LEAST_BOW = 0.02  # m: less is lost beside the hose itself (our own bound)
ROUTES = ("u_bend", "right_angle", "offset")


def judge_bend(needs: Needs, candidate: Candidate) -> Answer:
    radius = candidate.size.bend_radius
    evidence = candidate.size.evidence.get("bend_radius")
    asked = needs.known.get("bend_radius_available")
    if asked is not None and asked.applies:  # a tight bend, and nobody knows how tight
        return Finding(
            "bend",
            "routing",
            Verdict.OPEN,
            "bend",
            "length",
            radius,
            None,
            evidence=evidence,
            hangs_on=("bend_radius_available",),
        )
    if needs.bend == UNKNOWN:
        if radius is not None:
            return Remark(
                "bend",
                "routing",
                "bend_declined" if needs.bend_declined else "bend_unknown",
                evidence,
                {"radius": widest_bend(candidate.id, candidate.bore, load_tables())},
            )
        return None
    if radius is None:
        return Finding(
            "bend", "routing", Verdict.OPEN, "bend_no_row", "length", one_figure(needs.bend), None, evidence=evidence
        )
    low, high = needs.bend
    if low is not None and low >= radius:
        verdict = Verdict.FITS
    elif high is not None and high < radius:
        verdict = Verdict.FAILS
    else:
        verdict = Verdict.OPEN
    least = low if low is not None else high
    return Finding(
        "bend",
        "routing",
        verdict,
        "bend",
        "length",
        radius,
        least,
        least / radius - 1 if least is not None else None,
        False,
        evidence,
        ("bend_radius_available",) if verdict is Verdict.OPEN else (),
    )


def judge_length(needs: Needs, candidate: Candidate) -> Answer:
    """The route's own room for this hose's bend, then the length asked for against the least the distances need."""
    evidence = candidate.construction.evidence.get("length_change")
    tight = too_tight(needs, candidate)
    if tight is not None:
        return tight
    least, reason, data = least_length(needs, candidate)
    length = needs.known.low("overall_length")
    if least is None or length is None:
        return None
    shortest = length - tolerance_of(needs, candidate, length)[0]
    if shortest < least:
        # A length is cut, not chosen: too short a wish is corrected on the record, it does not condemn the hose.
        return Remark("length", "routing", "length_too_short", evidence, {**data, "asked": length, "least": least})
    return Finding(
        "length",
        "routing",
        Verdict.FITS,
        reason,
        "length",
        least,
        length,
        shortest / least - 1,
        evidence=evidence,
        data=data,
    )


def too_tight(needs: Needs, candidate: Candidate) -> Finding | None:
    """The route against the tightest bend of this hose: fails where even the widest distance said leaves no room."""
    known, size = needs.known, candidate.size
    route = known.text("clearance_geometry")
    low, high = known.low("port_distance"), known.high("port_distance")
    if low is None or high is None or route not in ROUTES or (route != "u_bend" and not known.has("port_offset")):
        return None
    if size.bend_radius is None or size.od_max is None:
        return Finding("length", "routing", Verdict.OPEN, "no_outside", "length", None, low)
    straight = straight_part(needs, candidate)
    centre = centreline_radius(size.bend_radius, size.od_max)
    side = known.low("port_offset"), known.high("port_offset")
    if route == "u_bend":
        reason, least = "u_too_narrow", minimum_spacing(size.bend_radius, size.od_max)
        most = least
    elif route == "right_angle" and side[0] is not None and side[1] is not None:
        reason, least = "corner_too_tight", centre + straight
        most = least
        low, high = min(low, side[0]), min(high, side[1])
    elif route == "offset" and side[0] is not None and side[1] is not None:
        reason, least = "offset_too_short", offset_projection(side[0], centre, straight)
        most = offset_projection(side[1], centre, straight)
    else:
        return None
    if low >= most * (1 - 1e-9):
        return None
    verdict = Verdict.FAILS if high < least * (1 - 1e-9) else Verdict.OPEN
    return Finding(
        "length",
        "routing",
        verdict,
        reason,
        "length",
        most,
        low,
        low / most - 1,
        evidence=size.evidence.get("bend_radius"),
        hangs_on=("port_distance",) if verdict is Verdict.OPEN else (),
    )


def straight_part(needs: Needs, candidate: Candidate) -> float:
    """Straight hose behind each fitting before the first bend, m, by the house rule; the larger of its two figures."""
    rule, size = needs.rules.straight_before_bend, candidate.size
    return max(rule.outside_diameters * (size.od_max or 0.0), rule.bores * size.nominal_bore)


def judge_loop(needs: Needs, candidate: Candidate) -> Answer:
    """A moving loop is reckoned with its fixed end opposite mid-stroke: said, because elsewhere it takes more."""
    travel = needs.known.high("travel")
    if needs.known.text("clearance_geometry") != "u_bend" or not travel:
        return None
    return Remark("loop", "routing", "loop_mid_stroke", data={"more": travel / 2})


def judge_support(needs: Needs, candidate: Candidate) -> Answer:
    """A long hose that does not move is clamped; one that hangs carries its own weight."""
    known = needs.known
    if known.text("motion") in ("flexing", "travelling", "reeling"):
        return None
    long = max(known.low("overall_length") or 0.0, known.low("port_distance") or 0.0)
    if long < LONG:
        return None
    data = {"spacing": CLAMP_SPACING}
    return Remark("support", "routing", "hangs" if long >= HANGS else "clamps", NAVEDTRA, data)


def judge_bow(needs: Needs, candidate: Candidate) -> Answer:
    """A straight run is longer than its distance, and the rest bows to the side; most where the hose grows in use."""
    known, distance = needs.known, needs.known.high("port_distance")
    least, _, _ = least_length(needs, candidate)
    if known.text("clearance_geometry") != "straight_run" or distance is None or least is None:
        return None
    change = candidate.construction.length_change
    grown = 1 + max(change[1], 0.0) / 100 if change is not None else 1.02  # EN 854:2015 6.1.2, as for the shortening
    length = max(known.high("overall_length") or 0.0, least) * grown
    bow = bow_height(min(distance, length), length)
    evidence = candidate.construction.evidence.get("length_change")
    return Remark("bow", "routing", "bow", evidence, {"radius": bow}) if bow >= LEAST_BOW else None


def tolerance_of(needs: Needs, candidate: Candidate, length: float) -> tuple[float, float]:
    """Minus and plus in m by the home standards of the units spoken."""
    home = needs.rules.home_standards["us" if needs.us else "metric"].length_tolerance
    try:
        minus, plus, _ = load_tables().length_tolerance(length, candidate.size.dn, home)
    except ValueError:  # the published bands end below the largest hose: only the length itself is held
        return 0.0, 0.0
    return minus, plus


def least_length(needs: Needs, candidate: Candidate) -> tuple[float | None, str, dict[str, object]]:
    """Least length in m for the route, its reason id and data; None where the route or a distance is not said.

    Seat to seat, ends included: straight run, distance / (1 - shortening); one right angle, (a - R) + (b - R) + pi R/2,
    a along the first port's axis and b to the side; offset, 2 R alpha and the rest straight, an S beyond 2 R. Loop,
    between the fittings: half circle over the spacing, straight parts, half the travel (fixed end opposite mid-stroke);
    there the exposed length of the ends comes on top and is the fitting maker's figure. Where no route was named but
    the ports were placed, the straight way between them. All shortened under pressure.
    """
    known, size = needs.known, candidate.size
    distance, side = known.high("port_distance"), known.high("port_offset")
    change = candidate.construction.length_change
    # where the row states none, the 4 % of EN 854:2015 6.1.2; for another standard's hose that is our own bound
    shrink = -min(change[0], 0.0) if change is not None else 4.0
    route = known.text("clearance_geometry")
    data: dict[str, object] = {"shrink": shrink}
    if route == "straight_run" and distance is not None:
        return straight_run_length(distance, shrink / 100), "straight_run", data
    if route is None and (apart := ports_apart(known)):
        return straight_run_length(apart, shrink / 100), "between_ports", data
    if size.bend_radius is None or size.od_max is None or (distance is None and route != "u_bend"):
        return None, "", data
    straight = straight_part(needs, candidate)
    try:
        if route == "u_bend":
            travel = known.high("travel") or 0.0
            free, data["travel"] = (
                loop_length(size.bend_radius, size.od_max, travel, straight, spacing=distance),
                travel,
            )
        elif route == "right_angle" and distance is not None and side is not None:
            free = right_angle_length(distance, side, size.bend_radius, size.od_max, straight)
        elif route == "offset" and distance is not None and side is not None:
            free = offset_length(side, centreline_radius(size.bend_radius, size.od_max), straight, distance)
        else:
            return None, "", data
    except EngineeringError:  # no room for the bend: that is said by `too_tight`
        return None, "", data
    return free / (1 - shrink / 100), str(route), data


def seat_to_seat(needs: Needs) -> bool:
    """True where the least length already runs from seat to seat: all routes but the loop."""
    return needs.known.text("clearance_geometry") in ("straight_run", "right_angle", "offset")


CHECKS = (
    check("bend", "routing", "bend_radius_available", judge_bend),
    check(
        "length",
        "routing",
        " ".join(("port_distance port_offset overall_length clearance_geometry travel", *PLACE)),
        judge_length,
        speaks=lambda needs: needs.known.has("clearance_geometry") or needs.known.has(PLACE[0]),
    ),
    check("loop", "routing", "clearance_geometry travel", judge_loop, "job"),
    check("support", "routing", "motion overall_length port_distance", judge_support, "job"),
    check(
        "bow",
        "routing",
        "clearance_geometry port_distance overall_length",
        judge_bow,
        speaks=lambda needs: needs.known.text("clearance_geometry") == "straight_run",
    ),
)
