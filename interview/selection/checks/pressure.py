"""Does it hold the pressure? Working pressure and spike against the rating, vacuum against the vacuum rating.

Lower-of rule and "rating at or above the highest peak": SAE J517 scope (seen); DGUV 113-020 4.3 on peaks (seen).
"""

from __future__ import annotations

from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.finding import Answer, Finding, Verdict, against_limit
from interview.selection.needs import PRESSURE_RESTS_ON, UNKNOWN, Needs, one_figure


def judge_pressure(needs: Needs, candidate: Candidate) -> Answer:
    """Pressures compare in the unit the row prints; a shortfall within the rounding of printed pairs fits as thin."""
    if needs.pressure == UNKNOWN and needs.line == "suction":
        return None
    size = candidate.size
    low, high = needs.pressure
    have = size.wp_select
    need_low, need_high, limit = low, high, have
    if needs.pressure_psi is not None and size.wp_psi_stated and low == high:
        need_low = need_high = needs.pressure_psi
        limit = size.wp_psi
    rules = needs.rules
    verdict = against_limit(need_low, need_high, limit, grace=rules.pressure_rounding_percent / 100)
    worst = need_high if need_high is not None else need_low
    margin = limit / worst - 1 if worst else None
    if verdict is Verdict.FITS and candidate.kind == "ptfe" and ((hot := needs.fluid_max[1]) is None or hot > 100):
        # A PTFE hose loses rating with heat and the standard's curve is not in the tables (memory): never a pass.
        return Finding(
            "pressure",
            "pressure",
            Verdict.OPEN,
            "ptfe_derating",
            "pressure",
            needs.pressure_shown,
            have,
            margin,
            False,
            size.evidence.get("working_pressure"),
            ("fluid_temperature_max",),
        )
    return Finding(  # by place, not by name: it is made for every rating at every answer, and names cost as much again
        "pressure",
        "pressure",
        verdict,
        needs.pressure_from or "pressure_unknown",
        "pressure",
        needs.pressure_shown,
        have,
        margin,
        verdict is Verdict.FITS and margin is not None and margin < rules.thin_margin_percent / 100,
        size.evidence.get("working_pressure"),
        needs.pressure_hangs_on if verdict is Verdict.OPEN else (),
        False,
        {**needs.pressure_data, "psi": candidate.psi},
    )


def judge_vacuum(needs: Needs, candidate: Candidate) -> Answer:
    """A line that pulls needs a vacuum rating; none printed counts as none."""
    have = candidate.construction.vacuum.get(candidate.bore)
    evidence = candidate.construction.evidence.get("vacuum")
    if have is None:
        perhaps = needs.line != "suction" and not needs.vacuum[0] and (needs.vacuum[1] or 0) > 0
        return Finding(
            "vacuum",
            "pressure",
            Verdict.OPEN if perhaps else Verdict.FAILS,
            "no_vacuum_rating",
            "vacuum",
            one_figure(needs.vacuum),
            None,
            evidence=evidence,
            hangs_on=("vacuum",) if perhaps else (),
        )
    verdict = against_limit(needs.vacuum[0], needs.vacuum[1], have)
    worst = needs.vacuum[1]
    margin = have / worst - 1 if worst else None
    return Finding(
        "vacuum",
        "pressure",
        verdict,
        "vacuum",
        "vacuum",
        one_figure(needs.vacuum),
        have,
        margin,
        margin is not None and margin < needs.rules.thin_margin_percent / 100,
        evidence,
        ("vacuum",) if verdict is Verdict.OPEN else (),
    )


CHECKS = (
    check(
        "pressure",
        "pressure",
        f"{PRESSURE_RESTS_ON} fluid_temperature_max fluid_temperature_min",
        judge_pressure,
        "rating",
    ),
    check("vacuum", "pressure", "vacuum line_function failure_sign", judge_vacuum, speaks=lambda needs: needs.pulls),
)
