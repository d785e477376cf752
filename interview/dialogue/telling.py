"""What is told unasked after an answer? Each thing once: what was worked out, how it failed, cautions, ends."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.dialogue import events as ev
from interview.dialogue import views
from interview.dialogue.failures import told_key
from interview.dialogue.safety_texts import caution_text
from interview.facts import Origin
from interview.selection.cautions import triggered

if TYPE_CHECKING:
    from interview.dialogue.session import Session

MOST_CAUTIONS = 3


def inside_wanted(session: Session) -> list[ev.Event]:
    """A thread's name gives its outside; of a female it is the inside that counts, so that is asked for again."""
    events: list[ev.Event] = []
    for end in ("end_a", "end_b"):
        across = session.said.get(f"{end}_thread_diameter")
        if across is None or session.said.text(f"{end}_gender") != "female":
            continue
        from interview.language.thread_readings import names_a_thread  # loaded when the first line was read

        if not names_a_thread(across.said):
            continue
        session.now.ledger.withdraw([across.name])
        session.changed()
        why = "that is the outside of the thread, and this end is female: what do the calipers say inside it?"
        events.append(ev.Refused(across.said, f'"{across.said}": {why}'))
    return events


def ends(session: Session) -> list[ev.Event]:
    """After readings: what an unnamed end could be, once for each set; and ports that leave an angle open."""
    events: list[ev.Event] = []
    for end in ("end_a", "end_b"):
        names = (f"{end}_thread_diameter", f"{end}_thread_pitch", f"{end}_seat_angle", f"{end}_gender")
        key = f"{end}:" + ",".join(str(session.known.value(n)) for n in names)
        if key in session.now.told or not session.known.has(names[0]):
            continue
        found = views.could_be(session, end)
        session.now.told = session.now.told | {key}
        if found is not None:
            events.append(found)
    if "port_angle" not in session.now.told and (found := views.angle_open(session)) is not None:
        session.now.told = session.now.told | {"port_angle"}
        events.append(found)
    return events


def derived(session: Session) -> list[ev.Event]:
    events: list[ev.Event] = []
    for fact in session.known.values():
        if fact.name == "job_kind" or fact.origin not in (Origin.COMPUTED, Origin.ASSUMED):
            continue
        key = f"{fact.name}={fact.json_value()}"
        if key in session.now.told:
            continue
        if fact.origin is Origin.ASSUMED and _easier_left(session, fact.name):
            continue  # an easier question comes first; what is assumed is told once that is answered too
        session.now.told = session.now.told | {key}
        events.append(views.derived(fact, session))
    return events


def held_back(session: Session) -> bool:
    """True while something is assumed that is not told yet, because an easier question comes first."""
    assumed = (f.name for f in session.known.values() if f.origin is Origin.ASSUMED)
    return any(_easier_left(session, name) for name in assumed)


def failure(session: Session) -> list[ev.Event]:
    """What a sign just said is consistent with, and what separates it; the rest is in the record."""
    lines = views.failure_lines(session, session.now.told)
    session.now.told = session.now.told | {told_key(sign) for sign in session.known.many("failure_sign") or ()}
    return [ev.Explained("How it failed", lines)] if lines else []


def _easier_left(session: Session, name: str) -> bool:
    """True where "don't know" to this fact still leads to a question that will be asked."""
    question = session.flow.questions.get(name)
    turns = [(f, session.flow.turn_of(f)) for u in (question.unknown if question else ()) for f in u.ask]
    return any(turn is not None and not session.said.answered(f) and turn.applies(session.said) for f, turn in turns)


def cautions(session: Session, *, stopped: bool) -> list[ev.Event]:
    known = session.known
    ends = known.has("end_a_family") and known.has("end_b_family")
    ends = ends and (known.has("overall_length") or known.has("port_distance"))
    # What a build calls for is looked up only where there may be one, and until it has been said.
    builds = ends and not stopped and "protective_equipment" not in session.now.warned
    builds = builds and session.standing().ready_for == "build"
    fresh = [
        c
        for c in triggered(session.known, stopped=stopped, builds=builds)
        if c not in session.now.warned and c not in ("crimp_data", "not_an_approval")
    ][:MOST_CAUTIONS]
    if not session.now.questions_asked and not stopped:
        return []
    session.now.warned = session.now.warned | set(fresh)
    return [ev.Warned(c, caution_text(c)) for c in fresh]
