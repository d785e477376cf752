"""Is the bore right? Velocity against the house rules' band, and the bore the old hose or the order gives.

Continuity: v = Q / A at the construction's true nominal bore (exact). The bands are house rules.
"""

from __future__ import annotations

from interview.engineering.suction import atmosphere
from interview.facts import Origin, Span
from interview.reference.model import COMMON_PRACTICE
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check, on_word_of
from interview.selection.finding import Answer, Finding, Remark, Verdict
from interview.selection.hydraulics import inlet_at, loss_over, thickest
from interview.selection.needs import Needs

START_VISCOSITY = (800e-6, 1600e-6)  # m2/s on which pumps are commonly allowed to start (common practice, no source)
OIL_AND_LINE = (
    "flow_rate viscosity_grade viscosity_index medium line_length overall_length port_distance "
    "fluid_temperature_max fluid_temperature_min"
)


def judge_velocity(needs: Needs, candidate: Candidate) -> Answer:
    low, high = needs.flow
    if low is None and high is None:
        if needs.bore_proven and needs.bore[0] is not None and needs.line != "suction":
            return Finding("velocity", "size", Verdict.FITS, "bore_proven", "size", needs.bore[0], candidate.bore)
        return Finding("velocity", "size", Verdict.OPEN, "flow_unknown", "velocity", hangs_on=("flow_rate",))
    if needs.band is None:
        return Finding("velocity", "size", Verdict.OPEN, "line_unknown", "velocity", hangs_on=("line_function",))
    slow = low / candidate.area if low is not None else None
    fast = high / candidate.area if high is not None else None
    upper, guide = needs.band.upper, needs.band.guide * (1 + needs.rules.velocity_within_guide_percent / 100)
    need = fast if fast is not None and fast == slow else Span(slow, fast)
    data = {"line": needs.line, "guide": needs.band.guide, "upper": upper, "source": needs.band.source}
    if slow is not None and slow > upper:
        return Finding(
            "velocity", "size", Verdict.FAILS, "velocity", "velocity", need, upper, upper / slow - 1, data=data
        )
    if fast is None or fast > upper:
        return Finding(
            "velocity", "size", Verdict.OPEN, "velocity", "velocity", need, upper, hangs_on=("flow_rate",), data=data
        )
    above = fast > guide
    return Finding(
        "velocity",
        "size",
        Verdict.FITS,
        "velocity_above_guide" if above else "velocity",
        "velocity",
        need,
        upper,
        upper / fast - 1 if fast > 0 else None,
        remark=above,
        data=data,
    )


def judge_bore(needs: Needs, candidate: Candidate) -> Answer:
    """Nothing smaller replaces the bore that the order, a drawing, the print or the old hose gives."""
    low, high = needs.bore
    if low is None and high is None:
        return None
    if high is not None and candidate.bore >= high:
        verdict = Verdict.FITS
    elif low is not None and candidate.bore < low:
        verdict = Verdict.FAILS
    else:
        verdict = Verdict.OPEN
    need = low if low is not None and low == high else Span(low, high)
    return Finding(
        "bore",
        "size",
        verdict,
        "bore_given",
        "size",
        need,
        candidate.bore,
        hangs_on=("bore",) if verdict is Verdict.OPEN else (),
    )


def judge_inlet(needs: Needs, candidate: Candidate) -> Answer:
    """A suction line is decided by the absolute pressure at the pump inlet, cold and running, not by velocity alone.

    Limit: the pump maker's figure; else the house rule's (common practice, no source), a lower one for a cold start.
    """
    if needs.line != "suction":
        return None
    known = needs.known
    limit = known.high("pump_inlet_limit")
    if limit is None:
        return Finding("inlet", "size", Verdict.OPEN, "inlet_limit_unknown", "inlet", hangs_on=("pump_inlet_limit",))
    bore = candidate.size.nominal_bore
    cold = inlet_at(needs, bore, needs.fluid_min[0])
    running = inlet_at(needs, bore, needs.fluid_max[0])
    if cold is None or running is None:
        return _inlet_from_vacuum(needs, candidate, limit)
    assumed = known.origin("pump_inlet_limit") is Origin.ASSUMED
    cold_limit = min(limit, needs.rules.suction_inlet_not_known.cold_start * 1e5) if assumed else limit
    worst, at, floor = (
        (cold, needs.fluid_min[0], cold_limit)
        if cold.low - cold_limit <= running.low - limit
        else (running, needs.fluid_max[0], limit)
    )
    verdict = Verdict.FITS if worst.low >= floor else Verdict.FAILS if worst.high < floor else Verdict.OPEN
    need = Span(worst.low, worst.high)
    return Finding(
        "inlet",
        "size",
        verdict,
        "inlet",
        "inlet",
        floor,
        need_or_one(need),
        worst.low / floor - 1,
        hangs_on=("viscosity_index", "line_length", "lift") if verdict is Verdict.OPEN else (),
        data={"at": f"{at:g} °C", "limit_by": "house rule" if assumed else "the pump maker"},
    )


def judge_cold_start(needs: Needs, candidate: Candidate) -> Answer:
    """Oil too thick for a pump to start on is said on a suction line, whatever the bore."""
    thick = thickest(needs)
    if thick is None or thick.high <= START_VISCOSITY[0]:
        return None
    return Remark(
        "cold_start",
        "size",
        "cold_start",
        COMMON_PRACTICE,
        {
            "at": f"{needs.fluid_min[0]:g} °C",
            "thick": thick.high * 1e6,
            "allowed": START_VISCOSITY[0] * 1e6,
            "most": START_VISCOSITY[1] * 1e6,
        },
    )


def need_or_one(span: Span) -> float | Span:
    return span.low if span.low is not None and span.low == span.high else span


def _inlet_from_vacuum(needs: Needs, candidate: Candidate, limit: float) -> Answer:
    """Without the line's data: what the vacuum gauge read at the old hose, against the pump's limit."""
    vacuum = needs.vacuum
    wanted = tuple(
        n
        for n in ("lift", "line_length", "viscosity_grade", "fluid_temperature_min", "flow_rate")
        if not needs.known.has(n)
    )
    if needs.known.origin("vacuum") not in (Origin.STATED, Origin.READ, Origin.MEASURED) or None in vacuum:
        return Finding("inlet", "size", Verdict.OPEN, "inlet_unknown", "inlet", limit, hangs_on=wanted)
    air = atmosphere(needs.known.high("altitude") or 0.0)
    low, high = air - (vacuum[1] or 0.0), air - (vacuum[0] or 0.0)
    verdict = Verdict.FITS if low >= limit else Verdict.FAILS if high < limit else Verdict.OPEN
    hangs: tuple[str, ...] = ("vacuum",)
    if verdict is not (verdict := on_word_of(needs.known, "pump_inlet_limit", verdict)):
        hangs = ("pump_inlet_limit",)
    elif verdict is Verdict.FAILS and needs.bore[1] is not None and candidate.bore > needs.bore[1]:
        verdict, hangs = Verdict.OPEN, wanted or ("lift", "line_length")  # read at the old bore; a larger pulls less
    need = need_or_one(Span(low, high))
    return Finding(
        "inlet",
        "size",
        verdict,
        "inlet_gauge",
        "inlet",
        limit,
        need,
        low / limit - 1,
        hangs_on=hangs if verdict is Verdict.OPEN else (),
    )


def judge_loss(needs: Needs, candidate: Candidate) -> Answer:
    """A limit the user gives for the loss over the hose is a check, at the hottest fluid as it works."""
    limit = needs.known.low("pressure_loss_limit")
    if limit is None:
        return None
    loss = loss_over(needs, candidate.size.nominal_bore, needs.fluid_max[0])
    if loss is None:
        known = needs.known
        wanted = tuple(n for n in ("flow_rate", "viscosity_grade", "overall_length") if not known.has(n))
        wanted += ("fluid_temperature_max",) if needs.fluid_max[1] is None else ()
        wanted = wanted or ("viscosity_grade",)  # known, and no oil whose viscosity the tables can follow
        return Finding("pressure_loss", "size", Verdict.OPEN, "loss_unknown", "pressure", None, limit, hangs_on=wanted)
    verdict = Verdict.FITS if loss.high <= limit else Verdict.FAILS if loss.low > limit else Verdict.OPEN
    return Finding(
        "pressure_loss",
        "size",
        verdict,
        "loss",
        "pressure",
        need_or_one(Span(loss.low, loss.high)),
        limit,
        limit / loss.high - 1 if loss.high else None,
        hangs_on=("viscosity_index", "flow_rate") if verdict is Verdict.OPEN else (),
        data={"at": f"{loss.temperature:g} °C"},
    )


CHECKS = (
    check("velocity", "size", "flow_rate line_function bore bore_proven", judge_velocity, "bore"),
    check("bore", "size", "bore", judge_bore, "bore"),
    check(
        "inlet", "size", f"line_function pump_inlet_limit vacuum lift altitude bore {OIL_AND_LINE}", judge_inlet, "bore"
    ),
    check(
        "cold_start",
        "size",
        "line_function viscosity_grade viscosity_index medium fluid_temperature_max fluid_temperature_min",
        judge_cold_start,
        "job",
        speaks=lambda needs: needs.line == "suction",
    ),
    check("pressure_loss", "size", f"pressure_loss_limit {OIL_AND_LINE}", judge_loss, "bore"),
)
