"""A session that plays a fixed little interview through the real event types: for tests of the screen alone.

Its answers come from a list, not from the engine; the engine has its own tests.
"""

from __future__ import annotations

from interview.dialogue import events as ev
from interview.dialogue.events import Event, Option
from interview.dialogue.fit_view import FitLine, FitView
from interview.dialogue.views import KnownLine, TopicLine

TOPICS = ("job", "size", "temperature", "application", "medium", "pressure", "ends", "routing", "delivery")
QUESTIONS = (
    (
        "job",
        ("line_function",),
        "Which line of the machine is it?",
        "",
        (
            Option("pressure", "pressure line: pump or valve to cylinder or motor"),
            Option("return", "return to the tank"),
            Option("suction", "suction: tank to pump"),
            Option("case_drain", "case drain"),
            Option("pilot", "pilot or control"),
        ),
        False,
    ),
    (
        "job",
        ("regulated_use",),
        "Is it part of any of these?",
        "",
        tuple(
            Option(w, w.replace("_", " "))
            for w in (
                "road_brake",
                "steering",
                "aircraft",
                "ship",
                "underground_mine",
                "person_lift",
                "insulated_boom",
                "steam",
                "fuel_gas",
                "breathing_gas",
                "oxygen",
                "refrigerant",
                "water_jetting",
            )
        ),
        True,
    ),
    ("pressure", ("working_pressure",), "What pressure does the line work at?", "2500 psi, 170 bar", (), False),
    ("pressure", ("surge_pressure",), "And the highest spike anybody measured?", "3200 psi, 220 bar", (), False),
    ("temperature", ("fluid_temperature_max",), "How hot does the oil get at its hottest?", "180 F, 82 C", (), False),
)
LINES = (
    FitLine("EN 857 2SC, 1/2 in", "en857-2sc", 8, "fits", "275 bar", 0.25, "", True, ("EN 853 2SN",)),
    FitLine(
        "SAE J517 100R17, 1/2 in", "saej517-100r17", 8, "open", "210 bar", None, "highest spike is not known", False, ()
    ),
    FitLine("EN 853 1SN, 1/2 in", "en853-1sn", 8, "fails", "160 bar", -0.27, "working pressure", False, ()),
)


class FakeSession:
    """Same API as the real one. Words it minds: boom (raises), hurt, bad, two, and the usual command words."""

    def __init__(self) -> None:
        self.place = 0
        self.earlier = None
        self.said: list[str] = []
        self.state = "opening"
        self.home = "metric"
        self.finished = False
        self.asked: ev.Asked | None = None

    def open(self) -> list[Event]:
        words = "Say what you have: a print on the hose, a pressure, or just what broke."
        return [ev.Explained("Good morning.", (words,)), self._ask()]

    def _ask(self, *, again: bool = False) -> ev.Asked:
        topic, parts, text, hint, options, many = QUESTIONS[self.place % len(QUESTIONS)]
        self.asked = ev.Asked(
            self.place + 1,
            topic,
            parts,
            text,
            hint,
            options,
            many,
            again=again,
            step=self.place + 1,
            why="The pull and the push of a line decide which hose can stand it.",
            how="Follow it with a finger from the pump.",
        )
        return self.asked

    def say(self, text: str) -> list[Event]:
        self.said.append(text)
        word = text.strip().removeprefix("/").lower()
        assert self.asked is not None
        if word == "boom":
            raise RuntimeError("boom [inside]")
        if word == "quit":
            self.finished = True
            return [ev.Left("Kept. It goes on where you stopped.")]
        if word == "why":
            return [ev.Explained("Why this is asked", (self.asked.why,))]
        if word == "how":
            return [ev.Explained("How to find out", (self.asked.how,))]
        if word == "undo":
            self.place = max(0, self.place - 1)
            return [ev.Undone("Taken back: the last answer."), self._ask()]
        if word == "bad":
            return [
                ev.Refused(
                    text,
                    "10,000 bar [read as 10,000 bar] is more than any hose of the tables carries. "
                    "Give it in bar or psi as the gauge shows it.",
                ),
                self._ask(again=True),
            ]
        if word == "hurt":
            return [
                ev.Noted(1, ("hand pierced",), ("injury",)),
                ev.Emergency("Stop. Oil under the skin is a surgical emergency."),
            ]
        if word == "two":
            return [
                ev.Conflicted(
                    "working_pressure",
                    "Two sayings: 172 bar and 200 bar. 200 bar governs.",
                    (Option("0", "172 bar"), Option("1", "200 bar")),
                )
            ]
        self.place += 1
        origin = "unknown" if word in ("?", "skip") else "stated"
        return [
            ev.Noted(self.place, (f"understood: {text}",), (QUESTIONS[(self.place - 1) % len(QUESTIONS)][1]), origin),
            ev.Narrowed("two constructions fewer: EN 853 1SN, EN 854 2TE", 14, 210, 133),
            ev.Assumed("surge_pressure", "highest spike taken as 258 bar (1.5 × 172 bar)", "a gauge with a pointer"),
            self._ask(),
        ]

    def known_lines(self) -> list[KnownLine]:
        return [
            KnownLine("job", "line_function", "line", "pressure", "stated", False),
            KnownLine("pressure", "working_pressure", "working pressure", "172 bar (2500 psi)", "read", False),
            KnownLine("pressure", "surge_pressure", "highest pressure spike", "258 bar (3740 psi)", "assumed", False),
            KnownLine("temperature", "fluid_temperature_max", "hottest fluid", "not known", "unknown", True),
        ][: self.place + 1]

    def topic_lines(self) -> list[TopicLine]:
        now = QUESTIONS[self.place % len(QUESTIONS)][0]
        return [
            TopicLine(t, t.capitalize(), "now" if t == now else "done" if TOPICS.index(t) < self.place else "later")
            for t in TOPICS
        ]

    def fit_lines(self, limit: int = 12) -> FitView:
        return FitView(14, 210 - self.place, 133 + self.place, LINES[:limit])

    def why_not(self, text: str) -> list[Event]:
        return [ev.Explained(text, (f"{text}: rated 160 bar, 172 bar is needed [EN 853].",))]
