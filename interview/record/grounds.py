"""What does a record rest on? The rows it read and how firm they are, the house rules used, how needs came about."""

from __future__ import annotations

from collections.abc import Iterable

from interview.dialogue.session import Session
from interview.dialogue.wording import quantity
from interview.facts import Fact, Known, Span, Value
from interview.record.model import NeedLine
from interview.reference.model import Evidence, Tag
from interview.selection.needs import UNKNOWN, Needs, Pair
from interview.selection.outcome import Standing

SETTINGS = {
    "relief_setting": "the relief setting, at which the line can stand whatever the spike",
    "rod_side": "the setting times the area ratio: the rod side is throttled or can be blocked",
}


def _evidence(standing: Standing) -> Iterable[tuple[str, Evidence]]:
    if standing.preferred is None:
        return
    index = standing.preferred.index
    for finding in standing.judgement.findings(index):
        if finding.evidence is not None:
            yield finding.check, finding.evidence
    for remark in standing.judgement.remarks(index):
        if remark.evidence is not None:
            yield remark.check, remark.evidence
    candidate = standing.judgement.bench.candidates[index]
    yield from candidate.size.evidence.items()
    if standing.assembly is not None:
        for part in standing.assembly.parts:
            if part.end is not None and part.end.rated is not None:
                yield f"{part.part} rating", part.end.rated.evidence


def sources(standing: Standing) -> tuple[str, ...]:
    return tuple(dict.fromkeys(e.said for _, e in _evidence(standing)))


def memory_values(standing: Standing) -> tuple[str, ...]:
    seen = {name: e for name, e in _evidence(standing) if e.tag is Tag.MEMORY}
    return tuple(
        f"{FIGURES.get(name) or name.replace('_', ' ')}: {_recalled(e)}; confirm against the current edition"
        for name, e in seen.items()
    )


FIGURES = {
    "od": "outside diameter",
    "id": "inside diameter",
    "cycles": "pressure strokes",
    "length": "change in length under pressure",
    "bow": "change in length under pressure",
    "end_a rating": "rating of end A",
    "end_b rating": "rating of end B",
}


def _recalled(evidence: Evidence) -> str:
    said = evidence.said
    return said if "from memory" in said else f"from memory ({said.removesuffix(' (memory)')})"


def house_rules(needs: Needs, assumed: Iterable[Fact]) -> tuple[str, ...]:
    rules = ["required pressure: the highest of working pressure, spike and what the line's own settings can put in"]
    if needs.band is not None:
        rules.append(
            f"velocity of a {needs.line} line: guide {needs.band.guide:g}, upper bound {needs.band.upper:g} m/s "
            f"({needs.band.source})"
        )
    rules += [f"{f.spec.label}: {f.because}" for f in assumed]
    return tuple(rules)


def needs_in_words(needs: Needs, session: Session) -> tuple[NeedLine, ...]:
    home = session.home
    lines: list[NeedLine] = []

    def add(name: str, measures: str, pair: Pair, because: str) -> None:
        if pair != UNKNOWN:
            value: Value = pair[0] if pair[0] is not None and pair[0] == pair[1] else Span(*pair)
            lines.append(NeedLine(name=name, shown=quantity(measures, value, home), because=because))

    by = SETTINGS.get(needs.pressure_from, "the highest of working pressure and spike")
    add("pressure", "pressure", needs.pressure, f"{by}; the rating must cover it")
    add("vacuum", "vacuum", needs.vacuum, "the line pulls")
    add("hottest fluid", "temperature", needs.fluid_max, _origin(needs.known, "fluid_temperature_max"))
    add("coldest fluid", "temperature", needs.fluid_min, _origin(needs.known, "fluid_temperature_min"))
    add("hottest air", "temperature", needs.ambient_max, _origin(needs.known, "ambient_temperature_max"))
    add("coldest air", "temperature", needs.ambient_min, _origin(needs.known, "ambient_temperature_min"))
    if needs.flow != UNKNOWN and needs.band is not None:
        lines.append(
            NeedLine(
                name="velocity",
                shown=f"at most {needs.band.upper:g} m/s, guide {needs.band.guide:g} m/s",
                because=f"house rule for a {needs.line} line",
            )
        )
    if needs.cycles != UNKNOWN:
        lines.append(
            NeedLine(
                name="pressure strokes",
                shown=f"{needs.cycles[1] or needs.cycles[0] or 0.0:,.0f}",
                because="strokes an hour x hours a year x years" + _unsaid(needs.known),
            )
        )
    return tuple(lines)


def _unsaid(known: Known) -> str:
    """Which of the two times nobody said, so that the house rule's figure stands in."""
    rules = {
        "hours_per_year": "hours a year by house rule (common practice, no source)",
        "wanted_life": "years by house rule, the service life",
    }
    return "".join(f"; {said}" for name, said in rules.items() if not known.has(name))


def _origin(known: Known, name: str) -> str:
    fact = known.get(name)
    if fact is None:
        return ""
    return fact.because or fact.origin.value
