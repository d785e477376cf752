"""How does an interview become a record? Everything the engine knows, worded and sourced, in one immutable model."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from interview import __version__
from interview.catalogue import CATALOGUE
from interview.dialogue.events import Referred
from interview.dialogue.failures import CHECK, failure_advice
from interview.dialogue.review import headline, nearest, open_label
from interview.dialogue.session import Session
from interview.dialogue.views import referral
from interview.dialogue.wording import (
    PARTS,
    caution_text,
    fact_shown,
    finding_sentence,
    hose_name,
    quantity,
    remark_sentence,
)
from interview.engineering.flow import bore_for
from interview.facts import Fact, Known, Origin, Span, Value, tidy
from interview.record.build import build_of
from interview.record.candidates import candidate_lines
from interview.record.documents import words as w
from interview.record.model import (
    AdviceLine,
    AssemblyLine,
    AssumptionLine,
    CautionLine,
    Choice,
    FactLine,
    NeedLine,
    PartRating,
    Quantity,
    RangeQuantity,
    Record,
)
from interview.reference.connections import load_connections
from interview.reference.model import EndRating, Evidence, Tag
from interview.selection.assembly import Assembly
from interview.selection.candidates import twin_group
from interview.selection.cautions import triggered
from interview.selection.needs import UNKNOWN, EndNeed, Needs, Pair
from interview.selection.outcome import Standing
from interview.selection.put_in import put_in

BAR = 1e5
SETTINGS = {
    "relief_setting": "the relief setting, at which the line can stand whatever the spike",
    "rod_side": "the setting times the area ratio: the rod side is throttled or can be blocked",
}
SIXTEENTH = 0.0015875  # m
REJECTED = 60  # constructions that a record names with the reason
Labels = Mapping[str, Mapping[str, str]]  # of a fact's choices, by the flow


def record_of(session: Session, *, made: str = "", candidates: bool = True) -> Record:
    """The record as the interview stands. `made`: date and time from the caller; `candidates` False leaves them out."""
    standing = session.standing()
    judgement, known, home = standing.judgement, standing.judgement.needs.known, session.home
    assembly = standing.assembly
    stop = standing.stop
    index = standing.preferred.index if standing.preferred is not None else None
    rating = assembly.rating if assembly is not None else None
    cautions = triggered(known, stopped=stop is not None, rating=rating, builds=standing.ready_for == "build")
    needs = judgement.needs
    words = session.flow.option_labels
    return Record(
        outcome=standing.outcome,
        ready_for=standing.ready_for,
        missing_for_build=standing.missing_for_build,
        facts={n: _fact(known[n], session, words) for n in CATALOGUE if n in known},
        asked=session.now.asked_facts,
        need=_need(needs),
        choice=_choice(standing, session),
        candidates=candidate_lines(judgement, home) if candidates and stop is None else (),
        assembly=_assembly(standing, session) if assembly is not None else None,
        cautions=tuple(CautionLine(id=c, text=caution_text(c)) for c in cautions),
        advice=(*_advice(standing, home), *_failure(standing, words)),
        assumptions=tuple(_assumption(f, session, words) for f in _assumed(standing, known)),
        open=standing.open,
        sources=_sources(standing),
        headline=headline(standing, home),
        referral=_referral(session, standing),
        nearest=nearest(standing, home) if standing.outcome == "unmatched" else "",
        needs=_needs_in_words(needs, session),
        why_not=_why_not(standing, session),
        open_words=tuple(_open_word(n, session) for n in standing.open),
        memory_values=_memory(standing),
        house_rules=_house_rules(needs, _assumed(standing, known)),
        build=build_of(session, standing, index),
        job=session.now.job,
        home=home,
        made=made,
        tool_version=__version__,
        tables_version=judgement.bench.tables.version,
    )


def _fact(fact: Fact, session: Session, words: Labels) -> FactLine:
    sayings = session.now.ledger.live(fact.name)
    others = [f.said or str(f.json_value()) for f in sayings if f != fact]
    because = fact.because or (f"said: {fact.said}" if fact.said else "")
    return FactLine(
        value=fact.json_value(),
        unit=fact.spec.unit,
        origin=fact.origin.value,
        said=fact.said,
        unit_said=fact.unit,
        because=because,
        label=fact.spec.label,
        shown=fact_shown(fact, session.home, words),
        turn=fact.turn,
        hedged=fact.hedged,
        governs="; ".join(others) if len(sayings) > 1 else "",
    )


def _q(value: float | None, unit: str, factor: float = 1.0) -> Quantity | None:
    return None if value is None else Quantity(value=tidy(value / factor), unit=unit)


def _worst(pair: Pair, unit: str, factor: float = 1.0, *, cold: bool = False) -> Quantity | None:
    """The side of a need that governs: the hot or high end, the cold end for cold."""
    low, high = pair
    return _q(low if cold or high is None else high, unit, factor)


def _need(needs: Needs) -> dict[str, Quantity | RangeQuantity | None]:
    hot = [v for v in (needs.fluid_max[1], needs.ambient_max[1]) if v is not None]
    cold = [v for v in (needs.fluid_min[0], needs.ambient_min[0]) if v is not None]
    return {
        "pressure": _worst(needs.pressure, "bar", BAR),
        "working_pressure": _worst(needs.working, "bar", BAR),
        "surge_pressure": _worst(needs.surge, "bar", BAR),
        "vacuum": _worst(needs.vacuum, "bar", BAR),
        "temperature_max": _q(max(hot), "degC") if hot else None,
        "temperature_min": _q(min(cold), "degC") if cold else None,
        "fluid_temperature_max": _worst(needs.fluid_max, "degC"),
        "fluid_temperature_min": _worst(needs.fluid_min, "degC", cold=True),
        "ambient_temperature_max": _worst(needs.ambient_max, "degC"),
        "ambient_temperature_min": _worst(needs.ambient_min, "degC", cold=True),
        "cycles": _worst(needs.cycles, ""),
        "bend_radius": _q(needs.bend[0], "mm", 1e-3),
        "bore": _bore_window(needs),
    }


def _bore_window(needs: Needs) -> RangeQuantity | None:
    """From the bore given or the least ordinary bore within the upper bound, up."""
    if needs.bore != UNKNOWN:
        return RangeQuantity(low=needs.bore[0], high=needs.bore[1], unit="dash")
    if needs.band is None or needs.flow[1] is None:
        return None
    guide = needs.band.guide * (1 + needs.rules.velocity_within_guide_percent / 100)
    low, high = (tidy(bore_for(needs.flow[1], velocity) / SIXTEENTH) for velocity in (needs.band.upper, guide))
    return RangeQuantity(low=low, high=high, unit="dash")


def _choice(standing: Standing, session: Session) -> Choice | None:
    if standing.preferred is None:
        return None
    judgement = standing.judgement
    candidate = judgement.bench.candidates[standing.preferred.index]
    group = twin_group(candidate.id, judgement.bench.tables)
    item = candidate.item_for(judgement.needs.known.high("overall_length"))
    runners: list[str] = []
    seen = {(group, candidate.own)}
    for i in standing.preferred.runners_up:
        other = judgement.bench.candidates[i]
        key = (twin_group(other.id, judgement.bench.tables), other.own)
        if key in seen:
            continue
        seen.add(key)
        bears = w.rating(tidy(other.size.wp_select / BAR), session.home, other.psi)
        runners.append(f"{hose_name(other, session.home)}, rated {bears}")
        if len(runners) == 4:
            break
    return Choice(
        construction=candidate.id,
        bore=candidate.bore,
        because=(f"decided by: {standing.preferred.decided_by}",),
        stock_item=candidate.own or (item.name if item is not None else None),
        twins=tuple(sorted(c.id for c in judgement.sold_as(candidate.index) if c.id != candidate.id)),
        runners_up=tuple(runners),
    )


def _assembly(standing: Standing, session: Session) -> AssemblyLine:
    assembly, home = standing.assembly, session.home
    assert assembly is not None and standing.preferred is not None
    candidate = standing.judgement.bench.candidates[standing.preferred.index]
    parts = []
    notes: list[str] = []
    for part in assembly.parts:
        what = (
            hose_name(candidate, home)
            if part.end is None
            else adapter_name(part.end)
            if part.part == "adapter"
            else " ".join(str(x) for x in (part.end.family, part.end.size, part.end.gender, part.end.form) if x)
        )
        parts.append(
            PartRating(
                part=part.part,
                what=what,
                rating=_q(part.rating, "bar", BAR),
                source=part.source,
                psi=part.psi,
            )
        )
        if part.end is not None and len(part.end.columns) > 1:
            notes.append(
                f"{PARTS[part.end.part]}: "
                + "; ".join(f"{c.of or c.column} {_column(c, home)}" for c in part.end.columns)
                + "; the lower is taken"
            )
    return AssemblyLine(
        rating=_q(assembly.rating, "bar", BAR),
        limited_by=assembly.limited_by,
        proof_pressure=_q(assembly.proof, "bar", BAR),
        parts=tuple(parts),
        next_stronger=_next_stronger(assembly, parts, home),
        notes=tuple(notes),
    )


def adapter_name(end: EndNeed) -> str:
    family = load_connections().families.get(end.family or "")
    name = family.names[0] if family is not None else (end.family or "").replace("_", " ")
    return f"{PARTS.get(end.part, 'the adapter')}: {', '.join(x for x in (name, end.size) if x)}"


def _column(column: EndRating, home: str) -> str:
    return w.rating(tidy(column.pressure / BAR), home, column.psi if column.psi_stated else None)


def _next_stronger(assembly: Assembly, parts: list[PartRating], home: str) -> str:
    """What the assembly would stand with a stronger limiting part."""
    if assembly.rating is None:
        return ""
    least = tidy(assembly.rating / BAR)
    others = [(p.rating.value, p.psi) for p in parts if p.rating is not None and p.rating.value > least]
    if not others:
        return ""
    bar, psi = min(others, key=lambda other: other[0])
    return f"with a stronger {PARTS[assembly.limited_by or 'hose'].removeprefix('the ')}: {w.rating(bar, home, psi)}"


def _advice(standing: Standing, home: str) -> tuple[AdviceLine, ...]:
    if standing.preferred is None:
        return ()
    return tuple(
        AdviceLine(check=r.check, text=remark_sentence(r, home), source=r.evidence.said if r.evidence else "")
        for r in standing.judgement.remarks(standing.preferred.index)
    )


def _failure(standing: Standing, words: Labels) -> tuple[AdviceLine, ...]:
    """What the old hose's failure is consistent with: kept on the record even where nothing fits."""
    if standing.stop is not None:
        return ()
    return tuple(
        AdviceLine(check=CHECK, text=a.text, source=a.source)
        for a in failure_advice(standing.judgement.needs.known, dict(words.get("failure_sign", {})))
    )


def _assumed(standing: Standing, known: Known) -> list[Fact]:
    """What was assumed among the answers, and what house rules put in where nobody spoke."""
    if standing.stop is not None:
        return []
    ruled = put_in(standing.judgement, standing.preferred.index) if standing.preferred is not None else ()
    return [*(f for f in known.values() if f.origin is Origin.ASSUMED), *ruled]


def _assumption(fact: Fact, session: Session, words: Labels) -> AssumptionLine:
    return AssumptionLine(
        fact=fact.name,
        value=fact.json_value(),
        why=fact.because,
        confirm_by=fact.confirm_by or "asking whoever runs the machine",
        shown=fact_shown(fact, session.home, words),
    )


def _referral(session: Session, standing: Standing) -> str:
    if standing.stop is None:
        return ""
    event = referral(standing.stop, session)
    assert isinstance(event, Referred)
    return f"{event.text} {event.where}"


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


def _sources(standing: Standing) -> tuple[str, ...]:
    return tuple(dict.fromkeys(e.said for _, e in _evidence(standing)))


def _memory(standing: Standing) -> tuple[str, ...]:
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


def _house_rules(needs: Needs, assumed: Iterable[Fact]) -> tuple[str, ...]:
    rules = ["required pressure: the highest of working pressure, spike and what the line's own settings can put in"]
    if needs.band is not None:
        rules.append(
            f"velocity of a {needs.line} line: guide {needs.band.guide:g}, upper bound {needs.band.upper:g} m/s "
            f"({needs.band.source})"
        )
    rules += [f"{f.spec.label}: {f.because}" for f in assumed]
    return tuple(rules)


def _needs_in_words(needs: Needs, session: Session) -> tuple[NeedLine, ...]:
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


def _why_not(standing: Standing, session: Session) -> tuple[str, ...]:
    """Each construction that fails at the chosen bore, with its first reason; at the nearest where none was chosen."""
    judgement, home = standing.judgement, session.home
    if standing.stop is not None:
        return ()
    bore = (
        judgement.bench.candidates[standing.preferred.index].bore
        if standing.preferred is not None
        else judgement.needs.bore[0]
    )
    lines = []
    for i, candidate in enumerate(judgement.bench.candidates):
        if bore is not None and candidate.bore != bore:
            continue
        finding = judgement.failed_by(i)
        if finding is None:
            continue
        lines.append(f"{hose_name(candidate, home)}: {finding_sentence(finding, home)}")
    if len(lines) > REJECTED:
        more = f"{len(lines) - REJECTED:,} more fail as well; the record as JSON holds each with its reason"
        return (*lines[:REJECTED], more)
    return tuple(lines)


def _open_word(name: str, session: Session) -> str:
    question = session.flow.questions.get(name)
    how = ""
    if question is not None:
        how = question.how or next((u.open for u in question.unknown if u.open), "")
    return f"{open_label(name)}{f': {how}' if how else ''}"
