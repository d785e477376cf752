"""Where is the conversation? One state a topic beside the fixed ones; only triggers move it, guards decide.

Nothing is computed here: the session computes first and triggers last, so that a failing step never leaves the machine
ahead of the facts.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cache

from transitions import EventData, Machine, MachineError

OPENING, CLARIFYING, CONFLICT, REVIEW, SETTLED, REFERRED, EMERGENCY = (
    "opening",
    "clarifying",
    "conflict",
    "review",
    "settled",
    "referred",
    "emergency",
)
FIXED = (OPENING, CLARIFYING, CONFLICT, REVIEW, SETTLED, REFERRED, EMERGENCY)
ENDED = (SETTLED, REFERRED)


class IllegalMove(RuntimeError):
    """A trigger that the present state does not know. A fault of the program, never of the user."""


class Conversation:
    """The model of the machine: its state, and the topic the agenda wants next (read by the guards)."""

    state: str
    trigger: Callable[..., bool]
    may_trigger: Callable[..., bool]

    def __init__(self, topics: Iterable[str]) -> None:
        self.topics = tuple(topics)
        self.wanted: str | None = None
        self.doubtful = False
        self.conflicting = False
        self.machine = machine_for(self.topics)
        self.machine.add_model(self, initial=OPENING)
        self.machine.remove_model(self)  # the model keeps its triggers; the machine must not keep every conversation

    def nothing_left(self, _: EventData) -> bool:
        return self.wanted is None

    def in_doubt(self, _: EventData) -> bool:
        return self.doubtful

    def contradicted(self, _: EventData) -> bool:
        return self.conflicting

    def clear(self, _: EventData) -> bool:
        return not self.doubtful and not self.conflicting

    def move(self, trigger: str) -> None:
        """Fires a trigger; a guard that holds it back or a trigger the state does not know raises IllegalMove."""
        try:
            moved = self.trigger(trigger)
        except (MachineError, AttributeError) as error:
            raise IllegalMove(f"{trigger} is not possible in {self.state}") from error
        if not moved:
            raise IllegalMove(f"{trigger} is held back in {self.state}")


Guard = str | Callable[..., bool | None]


def _wants(topic: str) -> Guard:
    def wanted(event: EventData) -> bool:
        return isinstance(event.model, Conversation) and event.model.wanted == topic

    return wanted


@cache
def machine_for(topics: tuple[str, ...]) -> Machine:
    """The one machine that all conversations over these topics run on."""
    machine = Machine(
        model=None,
        states=[*FIXED, *topics],
        initial=OPENING,
        auto_transitions=False,
        send_event=True,
        queued=False,
    )
    for description in transitions_of(topics):
        guards: list[Guard] = [*_guards(description)]
        if description["topic"]:
            guards.append(_wants(str(description["topic"])))
        source = description["source"]
        machine.add_transition(
            str(description["trigger"]),
            source if isinstance(source, list) else str(source),
            str(description["dest"]),
            conditions=guards,
        )
    return machine


def transitions_of(topics: tuple[str, ...]) -> list[dict[str, object]]:
    """Every transition as data; the drawing and the machine are made from this one list."""
    talking = [OPENING, CLARIFYING, CONFLICT, REVIEW, *topics]
    rows: list[dict[str, object]] = [
        {
            "trigger": "hurt",
            "source": [*talking, SETTLED, REFERRED, EMERGENCY],
            "dest": EMERGENCY,
            "guards": [],
            "topic": "",
        },
        {"trigger": "refer", "source": [*talking, EMERGENCY, REFERRED], "dest": REFERRED, "guards": [], "topic": ""},
        {
            "trigger": "doubt",
            "source": [*talking, EMERGENCY, SETTLED, REFERRED],
            "dest": CLARIFYING,
            "guards": ["in_doubt"],
            "topic": "",
        },
        {
            "trigger": "contradict",
            "source": [*talking, EMERGENCY, SETTLED, REFERRED],
            "dest": CONFLICT,
            "guards": ["contradicted"],
            "topic": "",
        },
    ]
    for topic in topics:
        rows.append(
            {
                "trigger": "proceed",
                "source": [*talking, EMERGENCY, SETTLED, REFERRED],
                "dest": topic,
                "guards": ["clear"],
                "topic": topic,
            }
        )
    rows.append(
        {
            "trigger": "proceed",
            "source": [*talking, EMERGENCY, SETTLED, REFERRED],
            "dest": REVIEW,
            "guards": ["clear", "nothing_left"],
            "topic": "",
        }
    )
    rows.append({"trigger": "accept", "source": REVIEW, "dest": SETTLED, "guards": ["nothing_left"], "topic": ""})
    return rows


def _guards(row: dict[str, object]) -> list[str]:
    guards = row["guards"]
    return [str(g) for g in guards] if isinstance(guards, list) else []


def diagram(topics: tuple[str, ...]) -> str:
    """The machine as a Mermaid state diagram, from the same data."""
    lines = ["stateDiagram-v2", "    [*] --> opening"]
    for row in transitions_of(topics):
        sources = row["source"] if isinstance(row["source"], list) else [row["source"]]
        guards = [*_guards(row), *([f"next is {row['topic']}"] if row["topic"] else [])]
        label = f"{row['trigger']}" + (f" [{', '.join(guards)}]" if guards else "")
        if len(sources) == 1:
            lines.append(f"    {sources[0]} --> {row['dest']}: {label}")
        else:
            lines.append(f"    any --> {row['dest']}: {label}")
    lines += [f"    {end} --> [*]" for end in ENDED]
    lines.append(
        "    note right of any: any = opening, clarifying, conflict, review or a topic; hurt, doubt, contradict and "
        "proceed also leave settled and emergency, and referred after a correction"
    )
    return "\n".join(lines)
