"""What does `hosewright hear` print? The contract's JSON of one line."""

from __future__ import annotations

from interview.catalogue import CATALOGUE, Kind
from interview.facts import json_value
from interview.language.model import SAID, Heard, Listening


def fact_json(heard: Heard) -> dict[str, object]:
    """One fact as the contract prints it."""
    entry = CATALOGUE[heard.name]
    value = json_value(heard.name, heard.value)
    if entry.kind is Kind.DAY and isinstance(value, str) and value.startswith(SAID):
        value = {"said": value.removeprefix(SAID)}
    if isinstance(value, dict) and "low" in value:
        value = {**value, "unit": entry.unit}
    out: dict[str, object] = {"value": value}
    if entry.unit:
        out["unit"] = entry.unit
    out["origin"] = str(heard.origin)
    out["said"] = heard.said
    if heard.hedged:
        out["hedged"] = True
    if heard.corrects:
        out["corrects"] = True
    return out


def hear_json(listening: Listening) -> dict[str, object]:
    """A whole line; `injury` and `dont_know` stand only where they are true."""
    out: dict[str, object] = {
        "facts": {heard.name: fact_json(heard) for heard in listening.facts},
        "unclear": [{"said": u.said, "could_be": list(u.could_be), "why": u.why} for u in listening.unclear],
        "ignored": list(listening.ignored),
    }
    if listening.injury:
        out["injury"] = True
    if listening.dont_know:
        out["dont_know"] = True
    return out
