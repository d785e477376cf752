"""Was the expectation met? Each key of `expect` against the record, with found and expected in the sentence."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from interview.catalogue import CATALOGUE
from interview.dialogue.wording import finding_sentence
from interview.facts import json_value
from interview.language.model import Misread
from interview.language.read import read_knows, read_value
from interview.record.model import Record
from interview.selection.end_readings import identification
from interview.selection.finding import Verdict
from interview.selection.judge import Judgement
from interview.training.replay import Replay
from interview.training.scenario import Expect

CLOSE = 0.01  # a pressure, length or temperature is met within one per cent


def unmet(replay: Replay, record: Record) -> list[str]:
    """Every expectation that does not hold, in words; empty: the scenario is met."""
    expect = replay.scenario.expect
    return [
        *_outcome(expect, record),
        *_interview(expect, replay, record),
        *_hose(expect, replay.session.judgement, record),
        *_assembly(expect, record),
        *_ends(expect, replay, record),
        *_lists(expect, record),
    ]


def _outcome(expect: Expect, record: Record) -> Iterator[str]:
    if expect.outcome is not None and record.outcome != expect.outcome:
        yield f"outcome is {record.outcome}, expected {expect.outcome}"
    if expect.outcome_any is not None and record.outcome not in expect.outcome_any:
        yield f"outcome is {record.outcome}, expected one of {', '.join(expect.outcome_any)}"
    if expect.ready_for is not None and record.ready_for != expect.ready_for:
        missing = ", ".join(record.missing_for_build) or "nothing"
        yield f"ready for {record.ready_for}, expected {expect.ready_for} (missing: {missing})"


def _interview(expect: Expect, replay: Replay, record: Record) -> Iterator[str]:
    for name in expect.asked or ():
        if name not in record.asked:
            yield f"{name} was not asked"
    for name in expect.not_asked or ():
        if name in record.asked:
            yield f"{name} was asked"
    for name, wanted in (expect.understood or {}).items():
        heard = replay.understood.get(name)
        found = None if heard is None else json_value(name, heard.value)
        try:
            value = json_value(name, read_knows(name, wanted).value)
        except Misread as error:
            yield f"understood.{name}: {error}"
            continue
        if not _same(found, value):
            yield f"understood {name}: {found!r}, expected {value!r}"


def _same(found: object, wanted: object) -> bool:
    if isinstance(found, int | float) and isinstance(wanted, int | float) and not isinstance(found, bool):
        return abs(found - wanted) <= CLOSE * max(abs(wanted), 1e-9)
    if isinstance(found, list) and isinstance(wanted, list):
        return set(found) == set(wanted)
    if isinstance(found, dict) and isinstance(wanted, dict):
        return all(_same(found.get(k), wanted.get(k)) for k in ("low", "high"))
    return found == wanted


def _hose(expect: Expect, judgement: Judgement, record: Record) -> Iterator[str]:
    bore = record.choice.bore if record.choice is not None else None
    if expect.bore is not None and bore != _bore(expect.bore):
        yield f"bore is {bore}, expected {expect.bore}"
    if expect.bore_any is not None and bore not in expect.bore_any:
        yield f"bore is {bore}, expected one of {', '.join(f'{b:g}' for b in expect.bore_any)}"
    at = bore if bore is not None else _bore(expect.bore) if expect.bore is not None else None
    if at is None:
        at = record.need["bore"].low if record.need.get("bore") is not None else None  # type: ignore[union-attr]

    def verdicts(name: str) -> dict[int, Verdict]:
        """Of this hose at that bore by index; at every bore where none was chosen and it is not made at that."""
        every = judgement.bench.made.get(name, ())
        these = [c for c in every if c.bore == at] or ([] if bore is not None else every)
        return {c.index: judgement.verdict(c.index) for c in these}

    for name in expect.fits or ():
        found = verdicts(name)
        if Verdict.FITS not in list(found.values())[:1]:
            why = _reason(judgement, found, record.home)
            yield f"{name} at {at} {next(iter(found.values()), 'is not there')}, expected fits{why}"
    for name, topics in (expect.fails or {}).items():
        wanted = (topics,) if isinstance(topics, str) else topics
        found = verdicts(name)
        failed = {f.topic for i in found for f in judgement.findings(i) if f.verdict is Verdict.FAILS}
        if found and not failed & set(wanted):
            yield f"{name} at {at} fails on {', '.join(sorted(failed)) or 'nothing'}, expected {' or '.join(wanted)}"
        if not found:
            yield f"{name} is not made at {at}"
    for name in expect.unsafe_if_fits or ():
        if Verdict.FITS in list(verdicts(name).values())[:1]:
            yield f"{name} at {at} fits, which would be dangerous here"


def _reason(judgement: Judgement, found: Iterable[int], home: str) -> str:
    """What stands against the first of them."""
    against = [f for i in list(found)[:1] for f in judgement.findings(i) if f.verdict is not Verdict.FITS]
    return f" ({'; '.join(f'{f.verdict}: {finding_sentence(f, home)}' for f in against)})" if against else ""


def _bore(value: float | str) -> float:
    return float(str(value).lstrip("-"))


def _assembly(expect: Expect, record: Record) -> Iterator[str]:
    rating = (
        record.assembly.rating.value if record.assembly is not None and record.assembly.rating is not None else None
    )
    if expect.rating is not None:
        wanted = _bar(expect.rating)
        if rating is None or abs(rating - wanted) > CLOSE * wanted:
            yield f"rating is {rating} bar, expected {expect.rating}"
    if expect.rating_max is not None and rating is not None and rating > _bar(expect.rating_max) * (1 + 1e-6):
        yield f"rating is {rating} bar, no record may state more than {expect.rating_max}"
    if expect.limited_by is not None:
        limited = record.assembly.limited_by if record.assembly is not None else None
        if limited != expect.limited_by:
            yield f"limited by {limited}, expected {expect.limited_by}"
    if expect.length is not None:
        wanted_mm = _json("overall_length", expect.length)
        found = record.build.overall_length_mm
        if found is None or abs(found - wanted_mm) > 1:  # a length is cut to the millimetre
            yield f"length is {found} mm, expected {expect.length}"
    if expect.end_angle is not None:
        wanted_deg = _json("end_angle", expect.end_angle)
        found = record.build.end_angle_deg
        if found is None or abs((found - wanted_deg + 180) % 360 - 180) > 1:
            yield f"end angle is {found}, expected {expect.end_angle}"
    for name, bound in (expect.need or {}).items():
        yield from _need(name, bound, record)


def _ends(expect: Expect, replay: Replay, record: Record) -> Iterator[str]:
    """What an end is, or, where its readings leave several, all that it may be."""
    for end in ("end_a", "end_b"):
        options = getattr(expect, f"{end}_any")
        if options is None:
            continue
        named = [str(record.facts[f"{end}_{w}"].value) for w in ("family", "size") if f"{end}_{w}" in record.facts]
        found = {" ".join(named)} if record.facts.get(f"{end}_family") and named[0] != "None" else _left(replay, end)
        if not found or {f.lower() for f in found} - {o.lower() for o in options}:
            yield f"{end} is {', '.join(sorted(found)) or 'not known'}, expected one of {', '.join(options)}"


def _left(replay: Replay, end: str) -> set[str]:
    found = identification(replay.session.known, end, replay.session.bench.connections)
    return {f"{m.family} {m.size}" for m in found.candidates} if found is not None else set()


def _need(name: str, wanted: str, record: Record) -> Iterator[str]:
    found = re.fullmatch(r"\s*(>=|<=|>|<|==|=)?\s*(.+?)\s*", str(wanted))
    assert found is not None
    sign = found[1] or "="
    facts = {
        "pressure": "working_pressure",
        "temperature_max": "fluid_temperature_max",
        "temperature_min": "fluid_temperature_min",
        "bore": "bore",
        "bend_radius": "bend_radius_available",
    }
    limit = _json(facts.get(name, name), found[2])
    need = record.need.get(name)
    value = None if need is None else getattr(need, "value", None)
    if value is None:
        yield f"need.{name} is not known, expected {wanted}"
        return
    slack = 1e-6 + CLOSE * 0.1 * abs(limit)
    met = {
        ">=": value >= limit - slack,
        "<=": value <= limit + slack,
        ">": value > limit,
        "<": value < limit,
        "=": abs(value - limit) <= CLOSE * max(abs(limit), 1),
        "==": abs(value - limit) <= CLOSE * max(abs(limit), 1),
    }[sign]
    if not met:
        yield f"need.{name} is {value:g}, expected {wanted}"


def _json(fact: str, text: str) -> float:
    value = json_value(fact, read_value(fact, text).value)
    if not isinstance(value, int | float):
        raise ValueError(f"{text!r} is not one number for {CATALOGUE[fact].label}")
    return float(value)


def _bar(text: str) -> float:
    return _json("working_pressure", text)


def _lists(expect: Expect, record: Record) -> Iterator[str]:
    cautions = {c.id for c in record.cautions}
    for name in expect.cautions or ():
        if name not in cautions:
            yield f"the caution {name} is not shown"
    for name in expect.open or ():
        if name not in record.open:
            yield f"{name} is not listed as open (open: {', '.join(record.open) or 'nothing'})"
    if expect.open_any is not None and not set(expect.open_any) & set(record.open):
        yield f"none of {', '.join(expect.open_any)} is listed as open"
    advice = {a.check for a in record.advice}
    for name in expect.advice or ():
        if name not in advice:
            yield f"no advice on {name} (advice: {', '.join(sorted(advice)) or 'none'})"
