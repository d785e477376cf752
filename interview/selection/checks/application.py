"""Does it stand the work? Pressure cycles, wear, what reaches the cover, flame, electricity, static charge, motion.

What nobody has answered here is a condition of fitting (a remark on the record), never a pass.
"""

from __future__ import annotations

from functools import lru_cache
from math import inf

from interview.engineering.life import allowed_cycles
from interview.facts import Span
from interview.reference.model import COMMON_PRACTICE, Evidence, Tag
from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.finding import Answer, Finding, Remark, Verdict
from interview.selection.needs import PRESSURE_RESTS_ON, UNKNOWN, Needs

WIRE_KINDS = ("one_wire", "two_wire", "compact_two_wire", "four_spiral", "six_spiral")
STATIC_MEDIA = ("diesel", "b100", "kerosene", "petrol", "solvent")  # poor conductors (common practice, no source)


def judge_cycles(needs: Needs, candidate: Candidate) -> Answer:
    """Fails only beyond the type-tested count, carried to this peak along the published line with its stated spread.

    Line through burst (4 x rated) at one cycle and the tested point: SAE J1927 type (restated), stated for peaks of 100
    to 200 % of the rating of wire hose. The spread is a house rule: 3 in life with a measured peak, 8 otherwise.
    """
    construction = candidate.construction
    low, high = needs.cycles
    evidence = construction.evidence.get("impulse")
    tested, percent = construction.impulse_cycles, construction.impulse_percent.get(candidate.bore)
    least, most = needs.pressure
    if most is None:
        most = least
    if not tested or not percent or not most or most <= 0:
        if (high or low or 0.0) > 1000:  # our own bound, no source: a handful of strokes calls for no advice
            return Remark("cycles", "application", "impulse_not_known", evidence, {"cycles": high or low})
        return None
    # An item that its maker rates higher was tested to the standard's row as far as anybody here knows.
    rated, burst = min(candidate.size.wp_select, candidate.row_rating), construction.burst_ratio or 4.0
    if least is not None and least > rated:
        if least <= candidate.size.wp_select and (high or low or 0.0) > 1000:
            return Remark("cycles", "application", "impulse_not_known", evidence, {"cycles": high or low})
        return None  # the pressure check has already failed it; the line is not to be used to justify such a peak
    # A peak known only from above may be as low as nothing, and no number of strokes is surely beyond that.
    best = allowed_cycles(least, rated, tested, percent, burst) if least is not None and least > 0 else inf
    worst = allowed_cycles(min(most, rated), rated, tested, percent, burst)
    cycles = needs.rules.cycles
    spread = cycles.life_spread_measured_peak if needs.peak_measured else cycles.life_spread_otherwise
    data = {
        "spread": spread,
        "tested": tested,
        "percent": percent,
        "below": least is None or least < rated,
        "wire": candidate.kind in WIRE_KINDS,
    }
    rests = _test_and_line(evidence)
    if low is not None and low > best * spread:
        return Finding(
            "cycles",
            "application",
            Verdict.FAILS,
            "cycles",
            "cycles",
            low,
            best,
            best * spread / low - 1,
            evidence=rests,
            data=data,
        )
    need = high if high is not None else low
    near = high is None or high > worst / spread
    beyond = need is not None and need > worst
    return Finding(
        "cycles",
        "application",
        Verdict.FITS,
        "cycles_beyond" if beyond else "cycles_near" if near else "cycles",
        "cycles",
        need if high is not None else Span(low, None),
        worst,
        worst / need - 1 if need else None,
        evidence=rests,
        remark=near,
        data=data,
    )


@lru_cache(maxsize=256)
def _test_and_line(test: Evidence | None) -> Evidence:
    """Two sources stand behind a number of strokes: the standard's test, and the line that carries it to this peak."""
    if test is None:
        return Evidence(Tag.RESTATED, f"{LINE} for the line")
    order = list(Tag)
    if order.index(test.tag) > order.index(Tag.RESTATED):  # the softer of the two comes last, and its tag is the tag
        return Evidence(test.tag, f"{LINE} (restated) for the line; {test.source} for the type test")
    return Evidence(Tag.RESTATED, f"{test.said} for the type test; {LINE} for the line")


LINE = "SAE J1927"


def judge_wear(needs: Needs, candidate: Candidate) -> Answer:
    wear = needs.known.text("wear")
    if wear in ("rubbing", "severe"):
        return Remark("wear", "application", f"wear_{wear}", COMMON_PRACTICE)
    if "abraded" in (needs.known.many("failure_sign") or ()):  # whatever was said of the place since
        return Remark("wear", "application", "wear_was", COMMON_PRACTICE)
    return None


def judge_exposure(needs: Needs, candidate: Candidate) -> Answer:
    reached = needs.known.many("exposure") or ()
    if "flame" in reached or "hot_particles" in reached:
        sleeve = load_tables().service["temperature.external_heat"].evidence
        return Remark("exposure", "application", "exposure_fire", sleeve, {"exposure": ", ".join(reached)})
    if reached:
        return Remark("exposure", "application", "exposure", COMMON_PRACTICE, {"exposure": ", ".join(reached)})
    return None


def judge_flame(needs: Needs, candidate: Candidate) -> Answer:
    """No row of the tables states flame resistance: only the hose maker's document closes it."""
    if not needs.known.flag("flame_resistant"):
        return None
    return Finding("flame", "application", Verdict.OPEN, "flame_resistant")


def judge_electrical(needs: Needs, candidate: Candidate) -> Answer:
    """SAE J517 100R7/R8/R18, ISO 3949 class 2: non-conductive only where the hose is so marked (orange, seen)."""
    wanted = needs.known.flag("non_conductive")
    if wanted is None:
        if needs.known.answered("near_power_line") and needs.known.flag("near_power_line") is None:
            conducts = candidate.construction.evidence.get("electrical")
            return Remark("electrical", "application", "power_line_unknown", conducts)
        return None
    if not wanted:
        return None
    evidence = candidate.construction.evidence.get("electrical")
    if candidate.construction.non_conductive_option and candidate.own and candidate.items[0].non_conductive:
        marked = Evidence(Tag.MAKER, f"the marking on shelf item {candidate.own}")
        return Finding("electrical", "application", Verdict.FITS, "non_conductive_marked", evidence=marked)
    if candidate.construction.non_conductive_option:
        return Finding("electrical", "application", Verdict.OPEN, "non_conductive_if_marked", evidence=evidence)
    return Finding("electrical", "application", Verdict.FAILS, "conducts", evidence=evidence)


def judge_static(needs: Needs, candidate: Candidate) -> Answer:
    """PTFE with fuel or dry fluid: the conductive type only (SAE J517 100R14 type B; memory)."""
    if candidate.kind != "ptfe" or needs.medium not in STATIC_MEDIA:
        return None
    evidence = candidate.construction.evidence.get("electrical")
    if candidate.construction.conductive_tube:
        return Finding("static", "application", Verdict.FITS, "static_conductive", evidence=evidence)
    return Finding("static", "application", Verdict.FAILS, "static_charge", evidence=evidence)


def judge_motion(needs: Needs, candidate: Candidate) -> Answer:
    known = needs.known
    if known.text("bend_plane") in ("two", "twisting"):
        return Remark("motion", "application", "two_planes", COMMON_PRACTICE)
    motion = known.text("motion")
    if motion in ("flexing", "travelling", "reeling"):
        return Remark("motion", "application", "moves", COMMON_PRACTICE, {"motion": motion})
    said = known.get("motion")
    if said is not None and said.applies:
        return Remark("motion", "application", "motion_how_unknown", COMMON_PRACTICE)
    if known.answered("motion") and motion is None:
        return Remark("motion", "application", "motion_unknown", COMMON_PRACTICE)
    return None


def judge_people(needs: Needs, candidate: Candidate) -> Answer:
    """EN 474-1:2006+A3:2013 5.18.3 (seen): guard above 50 bar or 50 degC within 1 m of the operator."""
    if not needs.known.flag("people_near"):
        return None
    guard = needs.rules.guard
    pressure, hot = needs.pressure[1] or needs.pressure[0] or 0, needs.fluid_max[1] or needs.fluid_max[0] or 0
    if pressure > guard.pressure_bar * 1e5 or hot > guard.temperature_c:
        return Remark(
            "people",
            "application",
            "guard",
            data={"pressure": guard.pressure_bar, "temperature": guard.temperature_c, "source": guard.source},
        )
    return None


def judge_heat_source(needs: Needs, candidate: Candidate) -> Answer:
    distance = needs.known.low("heat_source_distance")  # half a metre: our own bound, no source; it only advises
    if distance is not None and distance < 0.5:
        return Remark("heat_source", "application", "heat_source", COMMON_PRACTICE, {"distance": distance})
    return None


def judge_vibration(needs: Needs, candidate: Candidate) -> Answer:
    return Remark("vibration", "application", "vibration", COMMON_PRACTICE) if needs.known.flag("vibration") else None


CHECKS = (
    check(
        "cycles",
        "application",
        f"cycle_rate hours_per_year wanted_life {PRESSURE_RESTS_ON}",
        judge_cycles,
        speaks=lambda needs: needs.cycles != UNKNOWN,
    ),
    check("wear", "application", "wear failure_sign", judge_wear, "job"),
    check("exposure", "application", "exposure", judge_exposure, "job"),
    check("flame", "application", "flame_resistant", judge_flame, "job"),
    check("electrical", "application", "non_conductive near_power_line", judge_electrical, "construction"),
    check("static", "application", "medium", judge_static, "construction"),
    check("motion", "application", "motion bend_plane", judge_motion, "job"),
    check(
        "people",
        "application",
        f"people_near {PRESSURE_RESTS_ON} fluid_temperature_max fluid_temperature_min",
        judge_people,
        "job",
    ),
    check("heat_source", "application", "heat_source_distance", judge_heat_source, "job"),
    check("vibration", "application", "vibration", judge_vibration, "job"),
)
