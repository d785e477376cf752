"""How does an interview become a record? Everything the engine knows, worded and sourced, in one immutable model."""

from __future__ import annotations

from collections.abc import Mapping

from interview import __version__
from interview.catalogue import CATALOGUE
from interview.dialogue.events import Referred
from interview.dialogue.failures import CHECK, failure_advice
from interview.dialogue.review import headline, nearest, open_label
from interview.dialogue.safety_texts import caution_text
from interview.dialogue.session import Session
from interview.dialogue.views import referral
from interview.dialogue.wording import fact_shown, finding_sentence, hose_name, remark_sentence
from interview.engineering.flow import bore_for
from interview.facts import Fact, Known, Origin, tidy
from interview.record.build import build_of
from interview.record.candidates import candidate_lines
from interview.record.documents import words as w
from interview.record.grounds import house_rules, memory_values, needs_in_words, sources
from interview.record.model import (
    AdviceLine,
    AssumptionLine,
    CautionLine,
    Choice,
    FactLine,
    Quantity,
    RangeQuantity,
    Record,
)
from interview.record.parts import BAR, assembly_line, quantity_in
from interview.selection.candidates import twin_group
from interview.selection.cautions import triggered
from interview.selection.checks.shelf import length_asked
from interview.selection.needs import UNKNOWN, Needs, Pair
from interview.selection.outcome import Standing
from interview.selection.put_in import put_in

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
        assembly=assembly_line(standing, session) if assembly is not None else None,
        cautions=tuple(CautionLine(id=c, text=caution_text(c)) for c in cautions),
        advice=(*_advice(standing, home), *_failure(standing, words)),
        assumptions=tuple(_assumption(f, session, words) for f in _assumed(standing, known)),
        open=standing.open,
        sources=sources(standing),
        headline=headline(standing, home),
        referral=_referral(session, standing),
        nearest=nearest(standing, home) if standing.outcome == "unmatched" else "",
        needs=needs_in_words(needs, session),
        why_not=_why_not(standing, session),
        open_words=tuple(_open_word(n, session) for n in standing.open),
        memory_values=memory_values(standing),
        house_rules=house_rules(needs, _assumed(standing, known)),
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


def _worst(pair: Pair, unit: str, factor: float = 1.0, *, cold: bool = False) -> Quantity | None:
    """The side of a need that governs: the hot or high end, the cold end for cold."""
    low, high = pair
    return quantity_in(low if cold or high is None else high, unit, factor)


def _need(needs: Needs) -> dict[str, Quantity | RangeQuantity | None]:
    hot = [v for v in (needs.fluid_max[1], needs.ambient_max[1]) if v is not None]
    cold = [v for v in (needs.fluid_min[0], needs.ambient_min[0]) if v is not None]
    return {
        "pressure": _worst(needs.pressure, "bar", BAR),
        "working_pressure": _worst(needs.working, "bar", BAR),
        "surge_pressure": _worst(needs.surge, "bar", BAR),
        "vacuum": _worst(needs.vacuum, "bar", BAR),
        "temperature_max": quantity_in(max(hot), "degC") if hot else None,
        "temperature_min": quantity_in(min(cold), "degC") if cold else None,
        "fluid_temperature_max": _worst(needs.fluid_max, "degC"),
        "fluid_temperature_min": _worst(needs.fluid_min, "degC", cold=True),
        "ambient_temperature_max": _worst(needs.ambient_max, "degC"),
        "ambient_temperature_min": _worst(needs.ambient_min, "degC", cold=True),
        "cycles": _worst(needs.cycles, ""),
        "bend_radius": quantity_in(needs.bend[0], "mm", 1e-3),
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
    item = candidate.item_for(length_asked(judgement.needs.known))
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
