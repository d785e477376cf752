"""What was every candidate told? Each finding in words and numbers, as the record keeps it."""

from __future__ import annotations

from dataclasses import dataclass, field

from interview.dialogue.wording import available, finding_sentence, quantity
from interview.facts import Span, tidy
from interview.record.model import CandidateLine, FindingLine
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
    """All candidates with every finding."""
    told, tables = Told(home), judgement.bench.tables
    return tuple(
        CandidateLine(
            construction=candidate.id,
            bore=candidate.bore,
            verdict=judgement.verdict(i).value,
            findings=tuple(map(told.line, judgement.findings(i))),
            twins=tuple(t for t in twin_group(candidate.id, tables) if t != candidate.id),
        )
        for i, candidate in enumerate(judgement.bench.candidates)
    )


@dataclass
class Told:
    """The findings worded already: many candidates share one, and many say the same."""

    home: str
    same: dict[int, FindingLine] = field(default_factory=dict)  # by identity
    alike: dict[object, FindingLine] = field(default_factory=dict)  # by what they say

    def line(self, finding: Finding) -> FindingLine:
        """A finding in words."""
        line = self.same.get(id(finding))
        if line is None:
            key = (
                finding.check,
                finding.verdict,
                finding.reason,
                finding.need,
                finding.have,
                finding.margin,
                finding.thin,
                id(finding.evidence),
                *finding.data.items(),
            )
            line = self.alike.get(key)
            if line is None:
                line = self.alike[key] = _finding(finding, self.home)
            self.same[id(finding)] = line
        return line


def _finding(finding: Finding, home: str) -> FindingLine:
    unit, factor = NUMBERS.get(finding.measures, ("", 1.0))
    need = (
        str(finding.data["fluid"])
        if finding.check == "medium" and "fluid" in finding.data
        else quantity(finding.measures, finding.need, home)
    )
    return FindingLine(
        check=finding.check,
        topic=finding.topic,
        verdict=finding.verdict.value,
        need=need,
        have=available(finding, home),
        need_number=_number(finding.need, factor) if unit else None,
        have_number=_number(finding.have, factor) if unit else None,
        unit=unit,
        margin=None if finding.margin is None else round(finding.margin, 4),
        why=finding_sentence(finding, home),
        source=finding.evidence.source if finding.evidence else str(finding.data.get("source", "")),
        tag=finding.evidence.tag.value if finding.evidence else "",
        thin=finding.thin,
    )


def _number(value: object, factor: float) -> float | None:
    """The governing side of a need or have as one number in the JSON unit."""
    if isinstance(value, Span):
        value = value.high if value.high is not None else value.low
    return tidy(float(value) / factor) if isinstance(value, float | int) else None
