"""Does it fit the place? The room to bend, and the length of a straight run.

The bend radius of the tables is to the inside of the bend: EN 853:2015 6.2 (seen). Length change under pressure
+2/-4 %: EN 854:2015 6.1.2 (seen).
"""

from __future__ import annotations

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
    """A straight run between rigid ports must reach at the shortest the hose becomes under pressure."""
    known = needs.known
    if known.text("clearance_geometry") != "straight_run":
        return None
    distance, length = known.high("port_distance"), known.low("overall_length")
    if distance is None or length is None:
        return None
    change = candidate.construction.length_change
    shrink = -min(change[0], 0.0) if change is not None else 4.0
    least = distance / (1 - shrink / 100)
    verdict = Verdict.FITS if length >= least else Verdict.FAILS
    return Finding("length", "routing", verdict, "straight_run", "length", least, length, length / least - 1,
                   evidence=candidate.construction.evidence.get("length_change"), data={"shrink": shrink, "distance": distance})


CHECKS = (
    check("bend", "routing", "bend_radius_available", judge_bend),
    check("length", "routing", "port_distance overall_length clearance_geometry", judge_length, "construction"),
)
