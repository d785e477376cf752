"""Which words steer the interview instead of answering it? Plain words, with or without a slash."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE, TOPICS
from interview.dialogue import events as ev
from interview.dialogue import fit_view, questions, returning, steering, views

if TYPE_CHECKING:
    from interview.dialogue.session import Session


@dataclass(frozen=True)
class Command:
    """A command word with what follows it. `keeps`: it changes the interview and belongs into the journal."""

    word: str
    rest: str
    keeps: bool


LONGEST = 4000  # characters of one line that are listened to; a whole order is a few hundred
KEEPS = frozenset(("undo", "back", "later", "go", "change", "accept", "build", "remove"))
PATTERNS: tuple[tuple[str, str], ...] = (
    ("help", r"help|h|commands"),
    ("why", r"why(?: do you ask)?\??"),
    ("how", r"how(?: (?:do i|can i|to) find(?: it| that)? out)?\??"),
    ("whynot", r"why ?not (?P<rest>.+)"),
    ("facts", r"facts|known|what is known\??|what do you know\??"),
    ("fits", r"fits|what (?:still )?fits\??"),
    ("undo", r"undo|take (?:it|that) back"),
    ("back", r"back"),
    ("later", r"later|skip|put it off|come back to (?:it|this|that)(?: later)?"),
    ("go", r"go (?:to )?(?P<rest>[a-z ]+)"),
    ("change", r"change (?:the )?(?P<rest>.+)"),
    ("remove", r"remove (?P<rest>.+)"),
    ("accept", r"accept|accepted|settle|done"),
    ("build", r"build|for build"),
    ("list", r"list|all options"),
    ("resume", r"resume|go on"),
    ("quit", r"quit|exit|leave|bye"),
)
HELP = (
    "Answer in your own words; several facts in one line are welcome. Numbers choose options.",
    "don't know   is an answer: an easier question or a safe assumption follows",
    "none         none of the things listed applies",
    "why          why this is asked, and what hangs on it",
    "how          how to find it out",
    "list         every option of the question",
    "facts        what is known, and where each fact came from",
    "fits         what still fits",
    "why not X    why a hose does not fit, e.g. why not 1SN",
    "change X to Y   correct a fact, e.g. change working pressure to 210 bar",
    "remove X     take a fact back",
    "undo, back   take the last answer back",
    "later, skip  come back to this question at the end",
    f"go TOPIC     jump: {', '.join(TOPICS)}",
    "build        at the end: answer what a build still needs",
    "accept       at the end: let the specification stand",
    "record FILE  write the record (.md, .html, .pdf, .json; without FILE under a name that says what it is)",
    "build sheet FILE, tag FILE   the same for these, once it is ready for build",
    "drawing FILE   the assembly drawn (.txt, .svg)",
    "save         keep the record in the store",
    "records WORD   find one in the store",
    "revise NUMBER, repeat NUMBER   go on from one: to put it right, or for the same hose once more",
    "resume       go on with the interview that was left, as offered at the start",
    "quit         leave; everything typed is kept",
    "help         this list",
)


def cleaned(text: str) -> str:
    """One line without control characters; a paste of many lines becomes one."""
    lines = [line.strip() for line in text.replace("\r", "\n").split("\n")]
    joined = "; ".join(line for line in lines if line)
    kept = "".join(c if unicodedata.category(c)[0] != "C" or c == "\u200d" else " " for c in joined)
    return " ".join(kept.split())


def command_of(text: str, session: Session) -> Command | None:
    """The command a line is, or None. A slash always makes a command."""
    plain = text.strip()
    slash = plain.startswith("/")
    low = plain.lstrip("/").strip().lower()
    for word, pattern in PATTERNS:
        found = re.fullmatch(pattern, low)
        if not found:
            continue
        rest = found.groupdict().get("rest") or ""
        if word == "go" and _topic(rest) is None and not slash:
            return None
        if word == "change" and " to " not in f" {rest} ":
            return None if not slash else Command(word, rest, False)
        return Command(word, rest.strip(), word in KEEPS)
    return Command("unknown", low, False) if slash else None


def run_command(command: Command, session: Session) -> list[ev.Event]:
    """Carries it out."""
    simple: dict[str, Callable[[], list[ev.Event]]] = {
        "help": lambda: [ev.Explained("Help", HELP)],
        "why": lambda: [views.why(session)],
        "how": lambda: [views.how(session)],
        "facts": lambda: [views.facts(session)],
        "fits": lambda: [fit_view.fits(session)],
        "undo": lambda: steering.undo(session),
        "back": lambda: steering.undo(session),
        "later": lambda: steering.put_off(session),
        "accept": lambda: steering.accept(session),
        "build": lambda: steering.build(session),
        "quit": session.leave,
        "resume": lambda: returning.resume(session),
        "list": lambda: [questions.all_options(session)],
        "whynot": lambda: [fit_view.why_not(session, command.rest)],
        "go": lambda: _go(command.rest, session),
        "change": lambda: _change(command.rest, session),
        "remove": lambda: _remove(command.rest, session),
    }
    run = simple.get(command.word)
    if run is None:
        return [ev.Refused(f"/{command.rest}", f'"/{command.rest}" is no command. "help" lists them.')]
    return run()


def _topic(text: str) -> str | None:
    word = text.strip()
    aliases = {
        "heat": "temperature",
        "cold": "temperature",
        "temperatures": "temperature",
        "fluid": "medium",
        "oil": "medium",
        "length": "routing",
        "route": "routing",
        "work": "application",
        "duty": "application",
        "pressures": "pressure",
        "end": "ends",
        "bore": "size",
        "flow": "size",
    }
    word = aliases.get(word, word)
    return word if word in TOPICS else None


def _go(rest: str, session: Session) -> list[ev.Event]:
    topic = _topic(rest)
    if topic is None:
        return [ev.Refused(rest, f'"{rest}" is no topic. There are: {", ".join(TOPICS)}.')]
    return steering.go_to(session, topic)


def fact_named(text: str) -> str | None:
    """The fact somebody means by its name or label."""
    word = " ".join(text.replace("_", " ").lower().split()).removeprefix("the ")
    for name, spec in CATALOGUE.items():
        if word in (name.replace("_", " "), spec.label.lower()):
            return name
    aliases = {
        "temperature": "fluid_temperature_max",
        "oil temperature": "fluid_temperature_max",
        "pressure": "working_pressure",
        "spike": "surge_pressure",
        "peak": "surge_pressure",
        "surge": "surge_pressure",
        "size": "bore",
        "length": "overall_length",
        "flow": "flow_rate",
        "fluid": "medium",
        "oil": "medium",
        "relief": "relief_setting",
    }
    if word in aliases:
        return aliases[word]
    close = [n for n, spec in CATALOGUE.items() if word and (word in n.replace("_", " ") or word in spec.label.lower())]
    return close[0] if len(close) == 1 else None


def _change(rest: str, session: Session) -> list[ev.Event]:
    # What reads words is a third of all that is loaded: nothing waits for it that does not need it.
    from interview.language.listen import listen
    from interview.language.model import Misread
    from interview.language.read import read_value

    what, _, value = rest.rpartition(" to ")
    name = fact_named(what)
    if name is None:
        return [ev.Refused(what, f'"{what}" names no fact. "facts" lists them by name.')]
    try:
        heard = read_value(name, value, home=session.home)
    except Misread as error:
        found = listen(value, asked=(name,), home=session.home).fact(name)
        if found is None:
            return [ev.Refused(value, f'"{error.read}": {error.why}. What would do: {error.would_do}.')]
        heard = found
    return steering.correct(session, name, heard)


def _remove(rest: str, session: Session) -> list[ev.Event]:
    name = fact_named(rest)
    if name is None or not session.said.answered(name):
        return [ev.Refused(rest, f'"{rest}" names nothing that was said. "facts" lists what is known.')]
    return steering.reopen(session, (name,))
