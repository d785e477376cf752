"""What does a house rule put in where nobody spoke? Seals and metals of the ends, hours and years of the work.

Marked assumed on the record, each with how it is confirmed. They are no answers to a question that was always to be
settled, so they leave the outcome as it is; but nobody may read that nothing is assumed.
"""

from __future__ import annotations

from interview.facts import Fact, Origin, Value, from_json_number
from interview.selection.judge import Judgement
from interview.selection.needs import UNKNOWN

SHEET = "the end maker's data sheet"


def put_in(judgement: Judgement, index: int) -> tuple[Fact, ...]:
    """The facts that house rules supply for the candidate at `index`, in the order of the ends."""
    needs, connections = judgement.needs, judgement.bench.connections
    known, rules = needs.known, needs.rules
    facts: list[Fact] = []

    def put(name: str, value: Value, because: str, confirm_by: str) -> None:
        if not known.has(name):
            facts.append(Fact(name, value, Origin.ASSUMED, because=because, confirm_by=confirm_by))

    seal = next((str(r.data["seal"]) for r in judgement.remarks(index) if r.check == "seal_choice"), None)
    for end in ("end_a", "end_b"):
        family = known.text(f"{end}_family") or ""
        if seal is not None and connections.default_seal(family):
            put(f"{end}_seal", seal, f"house rule for mineral oil ({rules.seal_not_known.source})", SHEET)
        # With a fluid on water base the metal stays open instead.
        if family in connections.families and needs.fluid is not None and needs.column == "oil":
            put(f"{end}_metal", rules.metal_not_known, "house rule (common practice, no source)", SHEET)
    if needs.cycles != UNKNOWN:
        hours, years = rules.cycles.default_hours_per_year, rules.cycles.default_wanted_life_years
        asked = "asking whoever runs the machine"
        put(
            "hours_per_year",
            from_json_number("hours_per_year", hours),
            "house rule (common practice, no source)",
            asked,
        )
        put("wanted_life", from_json_number("wanted_life", years), "house rule: the service life of a hose", asked)
    return tuple(facts)
