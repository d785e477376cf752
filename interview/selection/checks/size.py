"""Is the bore right? Velocity against the house rules' band, and the bore the old hose or the order gives.

Continuity: v = Q / A at the construction's true nominal bore (exact). The bands are house rules.
"""

from __future__ import annotations

from interview.facts import Span
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.finding import Answer, Finding, Verdict
from interview.selection.needs import Needs


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
        return Finding("velocity", "size", Verdict.FAILS, "velocity", "velocity", need, upper, upper / slow - 1, data=data)
    if fast is None or fast > upper:
        return Finding("velocity", "size", Verdict.OPEN, "velocity", "velocity", need, upper, hangs_on=("flow_rate",),
                       data=data)
    above = fast > guide
    return Finding("velocity", "size", Verdict.FITS, "velocity_above_guide" if above else "velocity", "velocity", need,
                   upper, upper / fast - 1 if fast > 0 else None, remark=above, data=data)


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
    return Finding("bore", "size", verdict, "bore_given", "size", need, candidate.bore,
                   hangs_on=("bore",) if verdict is Verdict.OPEN else ())


CHECKS = (
    check("velocity", "size", "flow_rate line_function bore bore_proven", judge_velocity),
    check("bore", "size", "bore", judge_bore),
)
