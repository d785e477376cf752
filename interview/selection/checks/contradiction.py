"""What is said of two answers that cannot both be so? Advice; that nothing is built on them is for the gates."""

from __future__ import annotations

from interview.catalogue import CATALOGUE
from interview.selection.candidates import Candidate
from interview.selection.checks.base import Judge, check
from interview.selection.contradictions import ORDER, SETTLED_BY, contradictions
from interview.selection.finding import Answer, Remark
from interview.selection.needs import Needs


def _contradiction(reason: str, measures: str) -> Judge:
    def judge(needs: Needs, candidate: Candidate) -> Answer:
        """Two answers that cannot both be so."""
        wrong = next((c for c in contradictions(needs.known) if c.reason == reason), None)
        if wrong is None:
            return None
        said = {"above": needs.known.low(wrong.low), "below": needs.known.high(wrong.high), "measures": measures}
        return Remark(reason, CATALOGUE[wrong.high].topic, reason, data=said)

    return judge


CHECKS = tuple(
    check(
        reason,
        CATALOGUE[high].topic,
        f"{high} {low} {SETTLED_BY.get(reason, '')}",
        _contradiction(reason, shown),
        "job",
    )
    for high, low, reason, shown in ORDER
)
