"""How does the state of the interview look in words? Echoes, panels, explanations, where to go instead."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE
from interview.dialogue import events as ev
from interview.dialogue.agenda import hangs_on
from interview.dialogue.failures import fresh_signs, sign_lines
from interview.dialogue.lessons import lessons_for
from interview.dialogue.safety_texts import safety_texts
from interview.dialogue.wording import fact_shown, label, sentence
from interview.facts import Fact, Origin
from interview.selection.end_readings import contradicts, identification
from interview.selection.outcome import Stop
from interview.selection.port_angle import angle_of_ports

if TYPE_CHECKING:
    from interview.dialogue.session import Session


@dataclass(frozen=True, slots=True)
class KnownLine:
    topic: str
    fact: str
    label: str
    shown: str
    origin: str
    doubtful: bool


@dataclass(frozen=True, slots=True)
class TopicLine:
    topic: str
    title: str
    state: str  # done | now | open | later


# ---- facts -------------------------------------------------------------------------------------------------------


def value_shown(fact: Fact, session: Session) -> str:
    return fact_shown(fact, session.home, session.flow.option_labels)


def fact_line(session: Session, fact: Fact) -> str:
    return f"{label(fact.name)}: {value_shown(fact, session)}"


def known_lines(session: Session) -> list[KnownLine]:
    """What is known, by topic in the catalogue's order."""
    doubtful = {c.name for c in session.now.ledger.conflicts()}
    known = session.known
    return [
        KnownLine(CATALOGUE[n].topic, n, label(n), value_shown(known[n], session), _origin(known[n]), n in doubtful)
        for n in CATALOGUE
        if n in known and not (n == "job_kind" and known.origin(n) is Origin.COMPUTED)
    ]


def _origin(fact: Fact) -> str:
    return "asked" if fact.origin is Origin.UNKNOWN else fact.origin.value


def topic_lines(session: Session) -> list[TopicLine]:
    """Progress by topic: done, now, open, or later."""
    flow, said, known = session.flow, session.said, session.known
    current = CATALOGUE[session.to_ask.parts[0]].topic if session.to_ask is not None else None

    def settled(fact: str) -> bool:
        """An answer of "don't know" leaves a topic open; what is said not to apply settles it."""
        return known.has(fact) or (said.answered(fact) and said.origin(fact) is not Origin.UNKNOWN)

    lines, answered = [], said.facts.keys()
    for topic, asked_for in flow.by_topic.items():
        touched = [fact for _, fact, _ in asked_for if fact in answered]
        if topic == current:
            state = "now"
        elif touched:
            wanted = [fact for turn, fact, quoted in asked_for if quoted and turn.applies(said)]
            state = "done" if all(map(settled, wanted or touched)) else "open"
        else:
            state = "later"
        lines.append(TopicLine(topic, flow.title(topic), state))
    return lines


def derived(fact: Fact, session: Session) -> ev.Event:
    text = sentence(f"{fact_line(session, fact)}: {fact.because}")
    if fact.origin is Origin.ASSUMED:
        return ev.Assumed(fact.name, text, fact.confirm_by)
    return ev.Computed(fact.name, text)


def facts(session: Session) -> ev.Event:
    lines = [
        f"{line.label}: {line.shown} ({line.origin}{', in doubt' if line.doubtful else ''})"
        for line in known_lines(session)
    ]
    return ev.Explained("What is known", tuple(lines) or ("Nothing yet.",))


def failure_lines(session: Session, told: frozenset[str]) -> tuple[str, ...]:
    """What the failure signs say that were not explained yet."""
    words = session.flow.option_labels.get("failure_sign", {})
    return tuple(
        line
        for sign in fresh_signs(session.known, told)
        for line in sign_lines(sign, words.get(sign, sign.replace("_", " ")))
    )


# ---- explanations ------------------------------------------------------------------------------------------------


def why(session: Session) -> ev.Event:
    """Why it is asked: the flow's reason, and which candidates hang on it."""
    if session.to_ask is None:
        return ev.nothing_open("Why")
    lines: list[str] = []
    situation = session.situation()
    for part in session.to_ask.parts[:4]:
        question = session.flow.questions[part]
        prefix = f"{sentence(label(part))[:-1]}: " if len(session.to_ask.parts) > 1 else ""
        lines.append(prefix + question.why)
        names = hangs_on(part, situation)
        if names:
            few = ", ".join(names[:6]) + (f" and {len(names) - 6} more" if len(names) > 6 else "")
            lines.append(f"On this answer hang: {few}.")
    return ev.Explained("Why this is asked", tuple(lines))


def how(session: Session) -> ev.Event:
    if session.to_ask is None:
        return ev.nothing_open("How")
    lines = []
    for part in session.to_ask.parts:
        question = session.flow.questions[part]
        if question.how:
            lines.append(question.how)
        for unknown in question.unknown:
            if unknown.assume:
                lines.append(f"If nobody knows: {unknown.assume}.")
    still = list(
        dict.fromkeys(u.open for p in session.to_ask.parts for u in session.flow.questions[p].unknown if u.open)
    )
    if still:
        lines.append(f"Otherwise it stays open: {'; '.join(still)}.")
    for lesson in lessons_for(session.to_ask.parts):
        lines += [lesson.text.strip(), *(lesson.drawing.rstrip("\n").split("\n") if lesson.drawing else ())]
    return ev.Explained(
        "How to find it out", tuple(dict.fromkeys(lines)) or ("Look, measure, or ask whoever runs the machine.",)
    )


def could_be(session: Session, end: str) -> ev.Event | None:
    """What an end with readings and no name (or a name they speak against) could be, and what tells it apart."""
    known, connections = session.known, session.bench.connections
    named = known.has(f"{end}_family")
    found = (contradicts if named else identification)(known, end, connections)
    if found is None:
        return None
    names = list(
        dict.fromkeys(f"{connections.families[m.family].names[0]} {m.size}, {m.gender}" for m in found.candidates)
    )
    letter = "A" if end == "end_a" else "B"
    if named:
        title = f"End {letter}: the readings speak against {value_shown(known[f'{end}_family'], session)}"
        lines = ["Measure again, or correct the name; until they agree it stays open."]
    else:
        title, lines = f"End {letter} is not identified yet", []
    if names:
        lines.append(f"It could be: {'; '.join(names[:6])}{' and others' if len(names) > 6 else ''}.")
        if found.separate_by:
            lines.append(f"To tell them apart: {found.separate_by}.")
    return ev.Explained(title, (*lines, *(sentence(w) for w in found.warnings)))


def angle_open(session: Session) -> ev.Event | None:
    """Ports that leave the angle of two bent ends open, and what would settle it."""
    found = angle_of_ports(session.known)
    if found is None or found.angle is not None or session.known.has("end_angle"):
        return None
    lines = (sentence(found.why), "Lay a piece of hose or wire from port to port, and read both outlets along it.")
    return ev.Explained("The ports do not settle the angle", lines)


def referral(stop: Stop, session: Session) -> ev.Event:
    """Where to go instead."""
    texts = safety_texts().regulated
    if stop.kind == "medium":
        tables = session.bench.tables
        fluid = tables.fluids[stop.id]
        rule = tables.refer_rules.get(fluid.rule or "")
        if rule is not None:
            governed = "; ".join(rule.governed_by[:3])
            return ev.Referred(
                sentence(f"This stops here: {fluid.name}. {rule.why}"), sentence(f"{rule.advice} Ruled by: {governed}")
            )
        return ev.Referred(
            sentence(f"This stops here: {fluid.name} is not a medium for hydraulic hose"),
            "A supplier of hose made and approved for that medium.",
        )
    text = texts.get(stop.id, texts["other"])
    return ev.Referred(f"This stops here. {text.why}", text.where)
