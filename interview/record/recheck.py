"""Would today's tables and rules decide a stored record otherwise? The same facts, judged again."""

from __future__ import annotations

from interview.dialogue.session import Session
from interview.dialogue.wording import construction_name
from interview.record.assemble import record_of
from interview.record.model import Record


def decided_otherwise(record: Record) -> list[str]:
    """What differs, in words; empty where today decides the same."""
    session = Session(home=record.home, job=record.job)
    session.open()
    session.take_over({n: line.model_dump() for n, line in record.facts.items()})
    today = record_of(session, candidates=False)
    found = []
    item = record.choice.stock_item if record.choice else None
    if item is not None and item not in {i.name for i in session.bench.shelf}:
        found.append(f"{item} is not on the shelf in use: name its shelf with --shelf")
    if today.outcome != record.outcome:
        found.append(f"outcome was {record.outcome}, today {today.outcome}")
    before = (record.choice.construction, record.choice.bore) if record.choice else None
    after = (today.choice.construction, today.choice.bore) if today.choice else None
    if before != after:
        found.append(f"hose was {_hose(before)}, today {_hose(after)}")
    one = record.assembly.rating.value if record.assembly and record.assembly.rating else None
    two = today.assembly.rating.value if today.assembly and today.assembly.rating else None
    if (one is None) != (two is None) or (one is not None and two is not None and abs(one - two) > 0.005 * one):
        found.append(f"rating was {one}, today {two} bar")
    return found


def _hose(choice: tuple[str, float] | None) -> str:
    return "none" if choice is None else f"{construction_name(choice[0])}, -{choice[1]:g}"
