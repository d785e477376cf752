"""Does it stand the heat and the cold? Fluid and surroundings, both ends of each, against the hose standard's window.

A standard's window applies to fluid and surroundings alike: EN 853, 854, 856, 857:2015 scope ("not to be operated
outside the limits", seen). There is no derating of rubber past its window. Twins bind each other (see candidates).
"""

from __future__ import annotations

from interview.reference.model import Evidence, Window
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check, on_word_of
from interview.selection.finding import Answer, Finding, Remark, Verdict, against_floor, against_limit
from interview.selection.needs import UNKNOWN, Needs, Pair, one_figure


def _no_window(need: Pair, check_id: str, evidence: Evidence | None) -> Finding:
    """The row states no window for this medium: open, unless it fails the oil window, which no other fluid widens."""
    shown = one_figure(need)
    return Finding(check_id, "temperature", Verdict.OPEN, "no_window", "temperature", shown, None, evidence=evidence)


def _hot(needs: Needs, need: Pair, window: Window | None, check_id: str, fact: str, candidate: Candidate) -> Answer:
    proofs = candidate.construction.evidence
    evidence = proofs.get(f"temperature_{needs.column}") or proofs.get("temperature")
    window, beyond = window or candidate.windows["oil"], window is None
    verdict = against_limit(*need, window.high) if window is not None else Verdict.OPEN
    if window is None or (beyond and verdict is not Verdict.FAILS):
        return _no_window(need, check_id, evidence)
    worst = need[1] if need[1] is not None else need[0]
    margin = window.high / worst - 1 if worst is not None and worst > 0 else None
    thin = verdict is Verdict.FITS and margin is not None and margin < needs.rules.thin_margin_percent / 100
    return Finding(
        check_id,
        "temperature",
        verdict,
        check_id,
        "temperature",
        one_figure(need),
        window.high,
        margin,
        thin,
        evidence,
        (fact,) if verdict is Verdict.OPEN else (),
    )


def _cold(need: Pair, window: Window | None, check_id: str, fact: str, candidate: Candidate) -> Answer:
    evidence = candidate.construction.evidence.get("temperature")
    window, beyond = window or candidate.windows["oil"], window is None
    verdict = against_floor(*need, window.low) if window is not None else Verdict.OPEN
    if window is None or (beyond and verdict is not Verdict.FAILS):
        return _no_window(need, check_id, evidence)
    return Finding(
        check_id,
        "temperature",
        verdict,
        check_id,
        "temperature",
        one_figure(need),
        window.low,
        None,
        False,
        evidence,
        (fact,) if verdict is Verdict.OPEN else (),
    )


def judge_fluid_hot(needs: Needs, candidate: Candidate) -> Answer:
    return _hot(
        needs, needs.fluid_max, candidate.windows[needs.column], "fluid_hot", "fluid_temperature_max", candidate
    )


def judge_ambient_hot(needs: Needs, candidate: Candidate) -> Answer:
    return _hot(
        needs, needs.ambient_max, candidate.windows[needs.column], "ambient_hot", "ambient_temperature_max", candidate
    )


def judge_fluid_cold(needs: Needs, candidate: Candidate) -> Answer:
    return _cold(needs.fluid_min, candidate.windows[needs.column], "fluid_cold", "fluid_temperature_min", candidate)


def judge_ambient_cold(needs: Needs, candidate: Candidate) -> Answer:
    # The cover meets the air, not the fluid: the oil window is the cold limit of the hose itself.
    return _cold(needs.ambient_min, candidate.windows["oil"], "ambient_cold", "ambient_temperature_min", candidate)


def judge_fluid_limit(needs: Needs, candidate: Candidate) -> Answer:
    """The fluid's own limit: advice for mineral oil, a check for every other fluid."""
    fluid = needs.fluid
    if fluid is None or fluid.temperature is None:
        return None
    evidence = fluid.evidence.get("temperature")
    verdict = against_limit(needs.fluid_max[0], needs.fluid_max[1], fluid.temperature.high)
    if fluid.mineral:
        if verdict is Verdict.FAILS:
            return Remark(
                "fluid_limit",
                "temperature",
                "fluid_limit_advice",
                evidence,
                {"fluid": fluid.name, "limit": fluid.temperature.high},
            )
        return None
    return Finding(
        "fluid_limit",
        "temperature",
        verdict,
        "fluid_limit",
        "temperature",
        one_figure(needs.fluid_max),
        fluid.temperature.high,
        None,
        False,
        evidence,
        ("fluid_temperature_max",) if verdict is Verdict.OPEN else (),
        data={"fluid": fluid.name},
    )


def judge_fluid_floor(needs: Needs, candidate: Candidate) -> Answer:
    """The cold end of a fluid that is not mineral: water freezes, an emulsion parts.

    It fails only where the fluid's own cold was said; from the air it stays open, as the machine may be kept warm.
    """
    fluid = needs.fluid
    if fluid is None or fluid.temperature is None or fluid.mineral or needs.fluid_min == UNKNOWN:
        return None
    verdict = on_word_of(needs.known, "fluid_temperature_min", against_floor(*needs.fluid_min, fluid.temperature.low))
    return Finding(
        "fluid_floor",
        "temperature",
        verdict,
        "fluid_cold",
        "temperature",
        one_figure(needs.fluid_min),
        fluid.temperature.low,
        None,
        False,
        fluid.evidence.get("temperature"),
        ("fluid_temperature_min",) if verdict is Verdict.OPEN else (),
        data={"fluid": fluid.name},
    )


CHECKS = (
    check(
        "fluid_floor",
        "temperature",
        "fluid_temperature_max fluid_temperature_min ambient_temperature_max ambient_temperature_min medium",
        judge_fluid_floor,
        "job",
    ),
    check(
        "fluid_hot",
        "temperature",
        "fluid_temperature_max fluid_temperature_min medium",
        judge_fluid_hot,
        "construction",
    ),
    check(
        "ambient_hot",
        "temperature",
        "ambient_temperature_max ambient_temperature_min medium",
        judge_ambient_hot,
        "construction",
    ),
    check(
        "fluid_cold",
        "temperature",
        "fluid_temperature_max fluid_temperature_min medium",
        judge_fluid_cold,
        "construction",
    ),
    check(
        "ambient_cold",
        "temperature",
        "ambient_temperature_max ambient_temperature_min",
        judge_ambient_cold,
        "construction",
    ),
    check("fluid_limit", "temperature", "fluid_temperature_max fluid_temperature_min medium", judge_fluid_limit, "job"),
)
