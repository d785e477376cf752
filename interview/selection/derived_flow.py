"""How much flows through the line? From the pump's plate, and from the cylinder that empties or feeds through it."""

from __future__ import annotations

from interview.facts import Known, Origin, Span, Value
from interview.selection.house_rules import HouseRules
from interview.selection.settings import area_ratio, scaled


def flows(view: Known, rules: HouseRules, missing, put) -> None:  # type: ignore[no-untyped-def]
    if missing("pump_flow") and view.has("pump_displacement") and view.has("pump_speed"):
        put(
            "pump_flow",
            times(view, "pump_displacement", "pump_speed"),
            "displacement times speed, no slip taken off (the safe side for size)",
            ("pump_displacement", "pump_speed"),
        )
    if not missing("flow_rate") or missing("pump_flow"):
        return
    line = view.text("line_function")
    low, high = view.low("pump_flow"), view.high("pump_flow")
    if line == "pressure" and view.flag("regenerating"):
        _regenerated(view, low, high, put)
    elif line in ("pressure", "suction"):
        put("flow_rate", one_or_span(low, high), "the pump's flow passes this line", ("pump_flow", "line_function"))
    elif line == "return":
        ratio, names = area_ratio(view)
        if ratio is not None and view.text("cylinder_side") != "rod":
            put(
                "flow_rate",
                one_or_span(scaled(low, ratio[0]), scaled(high, ratio[1])),
                f"the cap end empties through the line: pump flow times the area ratio {_ratio_said(ratio)}",
                ("pump_flow", *names),
            )
        elif ratio is not None:
            put(
                "flow_rate",
                one_or_span(scaled(low, 1 / ratio[1]), scaled(high, 1 / ratio[0])),
                f"the rod end empties through the line: pump flow over the area ratio {_ratio_said(ratio)}",
                ("pump_flow", *names),
            )
        elif view.answered("cylinder_bore") and view.origin("cylinder_bore") is not Origin.UNKNOWN:
            put(
                "flow_rate",
                one_or_span(low, high),
                "no cylinder empties through it, it was said: what the pump gives comes back",
                ("pump_flow", "cylinder_bore"),
            )
        elif view.answered("cylinder_bore"):
            factor = rules.return_flow_not_known_factor
            put(
                "flow_rate",
                one_or_span(low, scaled(high, factor)),
                f"a cylinder's cap end may empty through it: up to {factor:g} times the pump flow, areas not known "
                "(house rule; common practice, no source)",
                ("pump_flow",),
                assumed=True,
                confirm_by="cylinder bore and rod",
            )


def _regenerated(view: Known, low: float | None, high: float | None, put) -> None:  # type: ignore[no-untyped-def]
    """Pump and rod-side flow together fill the cap side: Q D^2/d^2 through its hose, the rest from the rod side."""
    ratio, names = area_ratio(view)
    if ratio is None or ratio[0] <= 1:
        return
    least, most = (1 / (r - 1) for r in reversed(ratio))
    if view.text("cylinder_side") == "rod":
        put(
            "flow_rate",
            one_or_span(scaled(low, least), scaled(high, most)),
            "regeneration: what leaves the rod side while it feeds the cap side",
            ("pump_flow", "regenerating", *names),
        )
    else:
        put(
            "flow_rate",
            one_or_span(scaled(low, 1 + least), scaled(high, 1 + most)),
            f"regeneration: the pump's flow and the rod side's together, {1 + most:.2f} times the pump's",
            ("pump_flow", "regenerating", *names),
        )


def _ratio_said(ratio: tuple[float, float]) -> str:
    return f"{ratio[1]:.2f}" if ratio[0] == ratio[1] else f"{ratio[0]:.2f} to {ratio[1]:.2f}"


def one_or_span(low: float | None, high: float | None) -> Value:
    return low if low == high else Span(low, high)


def times(view: Known, one: str, other: str) -> Value:
    lows = (view.low(one), view.low(other))
    highs = (view.high(one), view.high(other))
    low = None if None in lows else lows[0] * lows[1]  # type: ignore[operator]
    high = None if None in highs else highs[0] * highs[1]  # type: ignore[operator]
    return one_or_span(low, high)
