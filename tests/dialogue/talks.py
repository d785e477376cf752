"""Talks with the interview, typed as a person would: what is said, what is asked, and the order it comes in."""

from __future__ import annotations

from collections.abc import Iterable

from interview.dialogue import events as ev
from interview.dialogue.session import Session
from interview.selection.judge import Bench

EXPERIENCED = (
    "burst hose, pressure line, half inch, 2500 psi peaks 3200, AW46, oil to 180F, yard -10 to 100F, "
    "JIC 8 females both ends, 42 in"
)
# What a customer with a plain job says to each question, by the first fact it asks.
EASY = {
    "failure_sign": "it rubbed through on the frame",
    "regulated_use": "none",
    "layline": "EN 853 2SN DN12 275 bar 3Q19",
    "line_function": "pressure line of a log splitter",
    "medium": "HLP 46",
    "working_pressure": "180 bar, spikes to 200 bar",
    "surge_pressure": "200 bar",
    "fluid_temperature_max": "oil to 65 C, air -5 to 30 C",
    "ambient_temperature_max": "30 C",
    "ambient_temperature_min": "-5 C",
    "flow_rate": "40 L/min",
    "end_a_family": "JIC -8 female straight both ends",
    "end_b_family": "JIC -8 female straight",
    "overall_length": "1200 mm",
    "motion": "none",
    "cycle_rate": "60 cycles an hour, 500 hours a year",
}


def started(on: Bench, *lines: str, home: str = "metric") -> Session:
    """An interview opened, with these lines said."""
    session = Session(on=on, home=home)
    session.open()
    for line in lines:
        session.say(line)
    return session


def to_review(session: Session, answers: dict[str, str] | None = None, most: int = 60) -> list[tuple[str, ...]]:
    """Answers what is asked until nothing is left; returns the questions. "don't know" where there is no answer."""
    told = {**EASY, **(answers or {})}
    asked: list[tuple[str, ...]] = []
    while session.asked is not None and len(asked) < most:
        parts = session.asked.parts
        asked.append(parts)
        session.say(told.get(parts[0], "don't know"))
        if session.state == "clarifying":
            session.say("none of these")
    return asked


def kinds(events: Iterable[ev.Event]) -> list[str]:
    return [type(e).__name__ for e in events]


def words(events: Iterable[ev.Event]) -> str:
    """Everything an event list says, in one text."""
    said = []
    for event in events:
        said += [str(getattr(event, "text", "")), str(getattr(event, "title", "")), *getattr(event, "lines", ())]
    return "\n".join(said)


def sense(session: Session) -> dict[str, object]:
    """What an interview amounts to: facts, standing, question. Equal senses, equal interviews."""
    standing = session.standing()
    return {
        "facts": {name: (f.value, f.origin, f.hedged, f.said, f.unit) for name, f in session.known.items()},
        "state": session.state,
        "asked": session.asked.parts if session.asked else None,
        "home": session.home,
        "outcome": standing.outcome,
        "open": standing.open,
        "missing": standing.missing_for_build,
        "ready": standing.ready_for,
        "choice": standing.preferred,
        "count": session.now.questions_asked,
        "doubts": len(session.now.doubts),
        "skipped": session.now.skipped,
        "for_build": session.now.for_build,
    }
