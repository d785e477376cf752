"""What follows from what was said? Computed and assumed facts, made afresh after every answer.

Nothing here overrides a firm saying. A value is assumed only where the fact was asked and nobody knows, and only where
the house rules allow it; what rests on an assumption is itself assumed.
"""

from __future__ import annotations

from collections.abc import Callable

from interview.engineering.angle import from_clock
from interview.engineering.errors import EngineeringError
from interview.engineering.flow import velocity
from interview.engineering.suction import atmosphere
from interview.engineering.surge import closure
from interview.facts import Fact, Known, Origin, Value
from interview.reference.connections import Connections
from interview.reference.model import Fluid
from interview.reference.tables import load_tables
from interview.selection.derived_flow import flows, one_or_span
from interview.selection.end_readings import READINGS, identification, single
from interview.selection.house_rules import HouseRules
from interview.selection.hydraulics import VACUUM_RESTS_ON, deepest_vacuum
from interview.selection.port_angle import SAID as PORTS_SAID
from interview.selection.port_angle import angle_of_ports
from interview.selection.settings import area_ratio

FluidOf = Callable[[str], Fluid | None]


def derive(said: Known, rules: HouseRules, fluid_of: FluidOf, connections: Connections | None = None) -> Known:
    """`said` with the computed and assumed facts beside it."""
    facts = dict(said.facts)
    view = Known(facts)

    def missing(name: str) -> bool:
        return not view.has(name)

    def nobody_knows(name: str) -> bool:
        return view.origin(name) is Origin.UNKNOWN

    def put(
        name: str, value: Value, because: str, rests_on: tuple[str, ...], *, assumed: bool = False, confirm_by: str = ""
    ) -> None:
        soft = assumed or any(view.origin(n) is Origin.ASSUMED for n in rests_on)
        facts[name] = Fact(
            name,
            value,
            Origin.ASSUMED if soft else Origin.COMPUTED,
            because=because,
            confirm_by=confirm_by,
            rests_on=rests_on,
            turn=facts[name].turn if name in facts else 0,
        )

    if view.flag("near_power_line") and missing("non_conductive"):
        put("non_conductive", True, "a live line is near", ("near_power_line",))
    _print(view, missing, put)
    _temperatures(view, rules, fluid_of, missing, nobody_knows, put)
    flows(view, rules, missing, put)
    _pressures(view, rules, missing, nobody_knows, put)
    if view.text("line_function") == "suction":
        _suction(view, rules, fluid_of, missing, nobody_knows, put)
    _angle(view, missing, put)
    if connections is not None:
        _ends(view, connections, missing, put)
    return Known(facts)


def _print(view: Known, missing, put) -> None:  # type: ignore[no-untyped-def]
    """The true bore behind a printed dash: on 100R5 and 100R14 the dash is the tube it mates with (SAE J517)."""
    entry = load_tables().constructions.get(view.text("old_construction") or "")
    dash = view.low("marked_size")
    if entry is None or dash is None or not missing("bore"):
        return
    size = next((s for s in entry.sizes if s.marked_dash == dash), None)
    if size is not None:
        put(
            "bore",
            size.bore,
            f"printed -{dash:g} on {entry.type.split(' (')[0]}: a true bore of {size.nominal_bore * 1e3:g} mm",
            ("old_construction", "marked_size"),
        )


def _ends(view: Known, connections: Connections, missing, put) -> None:  # type: ignore[no-untyped-def]
    """An end nobody could name, where the readings leave a single connection."""
    for end in ("end_a", "end_b"):
        if not missing(f"{end}_family"):
            continue
        found = identification(view, end, connections)
        one = single(found) if found is not None else None
        if one is None:
            continue
        rests = tuple(n for what in READINGS if view.has(n := f"{end}_{what}"))
        for what, value in zip(("family", "size", "gender"), one, strict=True):
            if missing(f"{end}_{what}"):
                put(f"{end}_{what}", value, "the only connection of the tables with these readings", rests)


def _angle(view: Known, missing, put) -> None:  # type: ignore[no-untyped-def]
    """The angle of two bent ends: read like a clock along the hose from end A, or from the ports of the machine."""
    near, far = view.value("end_a_clock"), view.value("end_b_clock")
    if missing("end_angle") and isinstance(near, float) and isinstance(far, float):
        put(
            "end_angle",
            from_clock(near, far),
            f"looking along the hose from end A, A points to {near:g} and B to {far:g} "
            "o'clock: an hour is 30 degrees, against the clock",
            ("end_a_clock", "end_b_clock"),
        )
        return
    found = angle_of_ports(view) if missing("end_angle") else None
    if found is not None and found.angle is not None:
        put(
            "end_angle",
            found.angle,
            "from the two ports: where they lie and which way they face, each elbow turned towards the other port",
            PORTS_SAID,
        )


def _suction(view: Known, rules: HouseRules, fluid_of: FluidOf, missing, nobody_knows, put) -> None:  # type: ignore[no-untyped-def]
    """Sea level where nobody knows the height; the pump's limit from the house rule; from it the deepest vacuum."""
    if missing("altitude") and nobody_knows("altitude"):
        put(
            "altitude",
            0.0,
            "taken as sea level, which is the kindest: higher up the air presses less and the pump gets less oil",
            (),
            assumed=True,
            confirm_by="the height of the site on a map; a thousand metres take a tenth of the air's pressure",
        )
    rule = rules.suction_inlet_not_known
    if missing("pump_inlet_limit") and nobody_knows("pump_inlet_limit"):
        put(
            "pump_inlet_limit",
            rule.running * 1e5,
            f"house rule: {rule.running:g} bar running, {rule.cold_start:g} bar at a cold start ({rule.source})",
            (),
            assumed=True,
            confirm_by="the pump's data sheet",
        )
    if missing("vacuum") and nobody_knows("vacuum"):
        _vacuum(view, rules, fluid_of, put)


def _vacuum(view: Known, rules: HouseRules, fluid_of: FluidOf, put) -> None:  # type: ignore[no-untyped-def]
    """What the hose is pulled by: worked out where it can be, else up to the pump's limit, which is but a wish."""
    pulled = deepest_vacuum(view, fluid_of(view.text("medium") or ""))
    line = tuple(n for n in VACUUM_RESTS_ON if view.has(n))
    worked_out = f"the air less what reaches the inlet, oil at its coldest; {SHUT}"
    limit = view.low("pump_inlet_limit")
    air = atmosphere(min(max(view.low("altitude") or 0.0, LOWEST), HIGHEST))
    if limit is None:
        if pulled is not None and pulled > 0:
            put("vacuum", pulled, worked_out, line)
        return
    if view.origin("pump_inlet_limit") is Origin.ASSUMED:
        limit = min(limit, rules.suction_inlet_not_known.cold_start * 1e5)
    rests = tuple(n for n in ("pump_inlet_limit", "altitude") if view.has(n))
    if pulled is not None and 0 < pulled and (pulled < air - limit or air <= limit):
        put("vacuum", pulled, worked_out, line)
    elif air <= limit:
        because = (
            "the air presses less here than the pump asks for: taken as the whole of the air, the deepest it can be"
        )
        put("vacuum", air, because, rests)
    elif pulled is not None and pulled > 0:
        because = "a bore that pulls deeper starves the pump and is refused, so what passes sees no more than its limit"
        put("vacuum", air - limit, f"{because}; {SHUT}", (*rests, *line))
    else:
        because = "as deep as the pump's limit lets it be; what the hose really sees could not be worked out"
        put("vacuum", air - limit, f"{because}; {SHUT}", rests)


LOWEST, HIGHEST = -450.0, 11000.0  # m: as far as the standard atmosphere goes
SHUT = "a valve that can shut the line off would make it the whole atmosphere"


def _temperatures(view: Known, rules: HouseRules, fluid_of: FluidOf, missing, nobody_knows, put) -> None:  # type: ignore[no-untyped-def]
    around = view.text("surroundings")
    rule = rules.ambient_not_known.get(around or "")
    if rule is not None and around is not None:
        for name, value in (("ambient_temperature_min", rule.low), ("ambient_temperature_max", rule.high)):
            if missing(name) and nobody_knows(name):
                put(
                    name,
                    float(value),
                    f"house rule for {around.replace('_', ' ')}: {rule.source}",
                    ("surroundings",),
                    assumed=True,
                    confirm_by="the site's record of cold and heat, or a thermometer at the hose",
                )
    medium = view.text("medium")
    fluid = fluid_of(medium) if medium else None
    cooled = view.text("cooling") not in ("none", "closed_loop")
    if (
        missing("fluid_temperature_max")
        and nobody_knows("fluid_temperature_max")
        and fluid is not None
        and fluid.mineral
        and cooled
    ):
        hot = float(rules.fluid_temperature_not_known.cooled_mineral_system)
        air = view.high("ambient_temperature_max")
        put(
            "fluid_temperature_max",
            max(hot, air) if air is not None else hot,
            "house rule for a cooled system on mineral oil; not for a hydrostatic drive or a system without a cooler "
            f"({rules.fluid_temperature_not_known.source})",
            ("medium",),
            assumed=True,
            confirm_by="a contact probe on a painted end, machine hot after half an hour of work",
        )
    if missing("fluid_temperature_min") and view.has("ambient_temperature_min"):
        cold = view["ambient_temperature_min"]
        put(
            "fluid_temperature_min",
            cold.value,
            "the coldest fluid is the coldest air unless the machine is kept warm",
            ("ambient_temperature_min",),
        )


def _pressures(view: Known, rules: HouseRules, missing, nobody_knows, put) -> None:  # type: ignore[no-untyped-def]
    if missing("working_pressure") and nobody_knows("working_pressure") and view.has("relief_setting"):
        put(
            "working_pressure",
            view.value("relief_setting"),
            "the relief setting bounds the working pressure",
            ("relief_setting",),
            assumed=True,
            confirm_by="a gauge at the test point with the function stalled",
        )
    if not (missing("surge_pressure") and nobody_knows("surge_pressure")):
        return
    line = view.text("line_function")
    if line == "suction":
        return
    base = [(view.high(n), n) for n in ("relief_setting", "working_pressure") if view.high(n) is not None]
    if not base:
        return
    top = max(v for v, _ in base if v is not None)
    floor = max((v for n in ("relief_setting", "working_pressure") if (v := view.low(n)) is not None), default=0.0)
    smooth = view.text("shock") == "smooth"
    factor = rules.surge.factor_smooth if smooth else rules.surge.factor_otherwise
    bound, reason = factor * top, f"{factor:g} times the highest setting known"
    least = factor * floor  # a setting known as a range leaves the bound a range
    rests = (*(n for _, n in base), "shock")
    hammer = _hammer(view, top)
    if hammer is not None and hammer > bound:
        least = max(least, hammer - (top - floor))
        bound, reason = hammer, "water hammer of the closing valve (Joukowsky, wave speed up to 1,300 m/s from memory)"
        rests += ("valve_closing_time", "flow_rate", "bore")
    ratio, names = area_ratio(view)
    if ratio is not None and view.text("cylinder_side") != "cap" and view.flag("throttled") is not False:
        blocked = top * ratio[1]
        if blocked > bound:
            least = max(least, floor * ratio[0])
            bound, reason = blocked, f"a blocked rod side multiplies the pressure by the area ratio {ratio[1]:.2f}"
        rests += names
    why = f"{reason} ({'smooth' if smooth else 'shock not ruled out'}; {rules.surge.source})"
    put(
        "surge_pressure",
        one_or_span(min(least, bound), bound),
        why,
        rests,
        assumed=True,
        confirm_by="a fast transducer (1 kHz or better) with peak hold; a dial gauge does not show it",
    )


def _hammer(view: Known, steady: float) -> float | None:
    """The highest pressure a closing valve can make, Pa; None where closing time, length, flow or bore is not known.

    900 kg/m3 and a wave of 1,300 m/s, the upper figures where nobody knows what is hose and what is tube (memory).
    """
    closing, flow, bore = view.low("valve_closing_time"), view.high("flow_rate"), view.low("bore")
    length = view.high("line_length") or view.high("overall_length")
    if closing is None or flow is None or bore is None or length is None:
        return None
    try:
        return steady + closure(900.0, 1300.0, velocity(flow, bore * 0.0015875), length, closing)
    except EngineeringError:
        return None
