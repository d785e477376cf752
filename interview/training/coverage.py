"""Which questions, follow-ups and stops does no scenario reach? Measured by replaying every shipped scenario."""

from __future__ import annotations

from interview.catalogue import CATALOGUE
from interview.dialogue.events import Referred
from interview.dialogue.flows import flow_files, load_flow
from interview.dialogue.session import bench
from interview.resources import shipped
from interview.training.replay import play
from interview.training.scenario import load_scenario


def coverage() -> list[str]:
    """Lines: how many scenarios, and per flow what nothing reached."""
    on = bench()
    asked: dict[str, set[str]] = {}
    stops: set[str] = set()
    files = sorted(shipped("scenarios").glob("*.yaml"))
    for path in files:
        scenario, knows = load_scenario(path)
        played = play(scenario, knows, on)
        asked.setdefault(scenario.flow, set()).update(played.session.now.asked_facts)
        if any(isinstance(e, Referred) for t in played.turns for e in t.events):
            stop = played.session.standing().stop
            stops.add(stop.id if stop is not None else "")
    lines = [f"{len(files)} scenarios replayed."]
    for path in flow_files():
        flow = load_flow(path.stem)
        turns = [f for t in flow.job.turns for f in t.asks]
        missing = [f for f in turns if f not in asked.get(path.stem, set())]
        lines.append(
            f"{path.stem}: {len(turns) - len(missing)} of {len(turns)} questions reached"
            + (f"; not reached: {', '.join(missing)}" if missing else "")
        )
    uses = [u for u in CATALOGUE["regulated_use"].choices if u not in ("none", *stops)]
    lines.append(f"Stops reached: {', '.join(sorted(stops)) or 'none'}; not reached: {', '.join(uses)}")
    return lines
