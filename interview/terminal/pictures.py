"""What can be drawn of this job? The assembly, velocity by bore, pressures, temperature windows, the pump inlet.

The numbers come from the needs and the judgement; nothing is decided here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from rich.cells import cell_len

from interview.dialogue.wording import PARTS, hose_name
from interview.engineering.flow import velocity
from interview.language.show import PAIRS, show
from interview.language.units import from_si
from interview.selection.hydraulics import inlet_at
from interview.terminal.plot import ALLOWED, SOLID, Bar, bars, curves

if TYPE_CHECKING:
    from interview.dialogue.session import Session
    from interview.selection.candidates import Candidate
    from interview.selection.outcome import Standing

MOST_BORES = 9


@dataclass(frozen=True, slots=True)
class Scale:
    """The user's unit of one kind of quantity."""

    unit: str

    def of(self, si: float) -> float:
        return from_si(si, self.unit)

    def words(self, si: float) -> str:
        return f"{self.of(si):.3g} {self.unit}" if abs(self.of(si)) < 1000 else f"{self.of(si):,.0f} {self.unit}"


def pictures(session: Session, width: int) -> list[tuple[str, str]]:
    """The pictures that can be drawn now, each a title and a text; an empty list where nothing is known yet."""
    made = (
        ("The assembly, not to scale", assembly(session, width)),
        ("Velocity at each bore", velocities(session, width)),
        ("Pressures", pressures(session, width)),
        ("Temperatures", temperatures(session, width)),
        ("Pressure at the pump inlet", inlet(session, width)),
    )
    return [(title, text) for title, text in made if text]


def assembly(session: Session, width: int) -> str:
    """The drawing of the record, once an end or the length is known; in words where the screen is too narrow for it."""
    if not any(session.known.has(name) for name in ("end_a_family", "end_b_family", "overall_length")):
        return ""
    from interview.record.assemble import record_of
    from interview.record.drawing import assembly_says, assembly_text

    record = record_of(session, candidates=False)
    drawn = assembly_text(record)
    return drawn if max(map(cell_len, drawn.splitlines())) <= width else assembly_says(record)


def _scale(session: Session, kind: str) -> Scale:
    return Scale(PAIRS[kind][session.home == "us"])


def _preferred(session: Session) -> tuple[Candidate | None, Standing]:
    standing = session.standing()
    chosen = standing.preferred
    return (session.judgement.bench.candidates[chosen.index] if chosen is not None else None), standing


def velocities(session: Session, width: int) -> str:
    """Velocity at the nominal bore of every size, against the house rule's guide and upper bound."""
    needs = session.judgement.needs
    low, high = needs.flow
    fastest = high if high is not None else low
    if fastest is None or needs.band is None:
        return ""
    scale = _scale(session, "velocity")
    by_bore = {c.bore: c.size.nominal_bore for c in session.judgement.bench.candidates}
    slow_enough = [b for b in sorted(by_bore) if velocity(fastest, by_bore[b]) <= 2.5 * needs.band.upper]
    shown = slow_enough[:MOST_BORES]
    if not shown:
        return ""
    rows = []
    for bore in shown:
        least = velocity(low if low is not None else fastest, by_bore[bore])
        most = velocity(fastest, by_bore[bore])
        label = show("bore", bore, session.home)
        rows.append(Bar(label, 0.0, scale.of(least), SOLID, scale.of(most)))
    picture = bars(rows, [scale.of(needs.band.guide), scale.of(needs.band.upper)], scale.unit, width)
    words = [
        f"Upright lines: guide {scale.words(needs.band.guide)}, upper bound {scale.words(needs.band.upper)} "
        f"for a {(needs.line or '').replace('_', ' ')} line (house rule).",
    ]
    chosen, _ = _preferred(session)
    if chosen is not None:
        own = velocity(fastest, chosen.size.nominal_bore)
        grace = 1 + needs.rules.velocity_within_guide_percent / 100
        within, below = own <= needs.band.guide * grace, own <= needs.band.upper
        where = "within the guide" if within else "above the guide" if below else "above the upper bound"
        words.append(f"{hose_name(chosen, session.home)}: {scale.words(own)}, {where}.")
    if high is None:
        words.append("The flow is known only from below; the true velocity may be higher.")
    return "\n".join([picture, "", *words])


def pressures(session: Session, width: int) -> str:
    """What the line does, and what hose, ends and adapters bear."""
    needs = session.judgement.needs
    scale = _scale(session, "pressure")
    rows: list[Bar] = []
    words: list[str] = []
    for label, (low, high) in (("working", needs.working), ("highest spike", needs.surge)):
        least = low if low is not None else high
        if least is not None:
            rows.append(Bar(label, 0.0, scale.of(least), SOLID, scale.of(high) if high is not None else None))
    if not rows:
        return ""
    chosen, standing = _preferred(session)
    if chosen is not None and standing.assembly is not None:
        for part in standing.assembly.parts:
            name = PARTS.get(part.part, part.part)
            if part.rating is None:
                words.append(f"{name}: rating not known, so it counts as no pass.")
            else:
                rows.append(Bar(name, 0.0, scale.of(part.rating), ALLOWED))
        words.insert(0, f"Drawn for {hose_name(chosen, session.home)}.")
        if standing.assembly.rating is not None:
            rows.append(Bar("assembly", 0.0, scale.of(standing.assembly.rating), ALLOWED))
            part_name = PARTS.get(standing.assembly.limited_by or "hose", "the hose")
            words.append(f"The assembly bears {scale.words(standing.assembly.rating)}; {part_name} limits it.")
    need = needs.pressure[1] if needs.pressure[1] is not None else needs.pressure[0]
    limits = [scale.of(need)] if need is not None else []
    if need is not None:
        words.insert(0, f"Upright line: {scale.words(need)} is needed.")
    if needs.surge[1] is None:
        words.append("The highest spike is not known; the need may be higher.")
    return "\n".join([bars(rows, limits, scale.unit, width), "", *words])


def temperatures(session: Session, width: int) -> str:
    """What fluid and air do, and the window of the hose for this fluid."""
    needs = session.judgement.needs
    scale = _scale(session, "temperature")
    rows: list[Bar] = []
    words: list[str] = []
    for label, least, most in (
        ("fluid", needs.fluid_min[0], needs.fluid_max[1]),
        ("air", needs.ambient_min[0], needs.ambient_max[1]),
    ):
        if least is not None and most is not None and least <= most:
            rows.append(Bar(label, scale.of(least), scale.of(most)))
        elif least is not None or most is not None:
            known = least if least is not None else most
            assert known is not None
            rows.append(Bar(label, scale.of(known), scale.of(known)))
            words.append(f"{label}: only its {'coldest' if most is None else 'hottest'} is known.")
    if not rows:
        return ""
    chosen, _ = _preferred(session)
    if chosen is not None:
        window = chosen.windows.get(needs.column)
        if window is None:
            words.append(f"{hose_name(chosen, session.home)}: no window is stated for this fluid.")
        else:
            rows.append(Bar("hose", scale.of(window.low), scale.of(window.high), ALLOWED))
            words.append(f"{hose_name(chosen, session.home)}: {scale.words(window.low)} to {scale.words(window.high)}.")
    return "\n".join([bars(rows, [], scale.unit, width), "", *words])


def inlet(session: Session, width: int) -> str:
    """On a line that pulls: absolute pressure at the pump inlet over the fluid's temperature, at the preferred bore."""
    needs = session.judgement.needs
    chosen, _ = _preferred(session)
    coldest, hottest = needs.fluid_min[0], needs.fluid_max[1]
    if needs.line != "suction" or chosen is None or coldest is None or hottest is None or coldest >= hottest:
        return ""
    pressure, heat = _scale(session, "pressure"), _scale(session, "temperature")
    across, least, most = [], [], []
    for step in range(25):
        at = coldest + (hottest - coldest) * step / 24
        found = inlet_at(needs, chosen.size.nominal_bore, at)
        if found is not None:
            across.append(heat.of(at))
            least.append(pressure.of(found.low))
            most.append(pressure.of(found.high))
    if len(across) < 2:
        return ""
    limit = session.known.low("pump_inlet_limit")
    picture = curves(
        [(across, most, "·"), (across, least, "█")],
        pressure.of(limit) if limit is not None else None,
        f"fluid, {heat.unit}",
        width,
    )
    words = [
        f"Absolute, {pressure.unit}; blocks: the lowest it can be, dots: the highest. "
        f"{hose_name(chosen, session.home)}."
    ]
    words.append(
        f"Level line: the pump wants at least {pressure.words(limit)}."
        if limit is not None
        else "The pump's own limit is not known."
    )
    return "\n".join([picture, "", *words])
