"""What was every candidate told? Each finding in words and numbers, as the record keeps it."""

from __future__ import annotations

from functools import lru_cache

from interview.dialogue.wording import available, quantity, sentence_of
from interview.facts import Span, tidy
from interview.record.model import COLD, CandidateLine, FindingLine
from interview.selection.candidates import twin_group
from interview.selection.finding import Finding
from interview.selection.judge import Judgement

NUMBERS = {
    "pressure": ("bar", 1e5),
    "vacuum": ("bar", 1e5),
    "inlet": ("bar", 1e5),
    "temperature": ("degC", 1.0),
    "velocity": ("m/s", 1.0),
    "length": ("mm", 1e-3),
}


def candidate_lines(judgement: Judgement, home: str) -> tuple[CandidateLine, ...]:
    """All candidates with every finding; one that several get is worded once."""
    tables = judgement.bench.tables
    findings: list[list[FindingLine]] = [[] for _ in judgement.bench.candidates]
    for row in judgement.rows:
        lines = [_finding(answer, home) if isinstance(answer, Finding) else None for answer, _ in row.told]
        if any(lines):
            for i, place in enumerate(row.place):
                if (line := lines[place]) is not None:
                    findings[i].append(line)
    return tuple(
        CandidateLine(
            construction=candidate.id,
            bore=candidate.bore,
            verdict=judgement.verdict(i).value,
            findings=tuple(findings[i]),
            twins=() if candidate.own else tuple(t for t in twin_group(candidate.id, tables) if t != candidate.id),
            stock_item=candidate.own or None,
        )
        for i, candidate in enumerate(judgement.bench.candidates)
    )


def _finding(finding: Finding, home: str) -> FindingLine:
    unit, factor = NUMBERS.get(finding.measures, ("", 1.0))
    need, have = quantity(finding.measures, finding.need, home), available(finding, home)
    evidence, margin = finding.evidence, finding.margin
    return FindingLine(
        check=finding.check,
        topic=finding.topic,
        verdict=finding.verdict.value,
        need=str(finding.data.get("fluid", need)) if finding.check == "medium" else need,
        have=have,
        margin=None if margin is None else round(margin, 4),
        why=sentence_of(finding, need, have),
        source=str(finding.data.get("source", "")) if evidence is None else evidence.source,
        tag="" if evidence is None else evidence.tag.value,
        thin=finding.thin,
        need_number=_number(finding.need, factor, finding.check in COLD) if unit else None,
        have_number=_number(finding.have, factor) if unit else None,
        unit=unit,
    )


@lru_cache(maxsize=8192)
def _number(value: object, factor: float, cold: bool = False) -> float | None:
    """The governing side of a need or have as one number in the JSON unit."""
    if isinstance(value, Span):
        worst, other = (value.low, value.high) if cold else (value.high, value.low)
        value = worst if worst is not None else other
    return tidy(float(value) / factor) if isinstance(value, float | int) else None
