"""What may be asked, in which order, and what follows from "don't know"? The flow files as models, cross-checked.

`flows/topics/*.yaml` hold the questions of each topic; `flows/<job>.yaml` order them in turns for a kind of job. A shop
edits both without Python; every fault is told with file and line.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from interview.catalogue import CATALOGUE, TOPICS, Kind
from interview.dialogue.conditions import Condition, Test, fault_of, names_in, test_of
from interview.resources import shipped
from interview.yaml_file import FileError, YamlFile, read_yaml, validated

Settle = Literal["always", "quote", "matters", "along", "follow", "build", "never"]


class Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Unknown(Part):
    """What "don't know" leads to, in order: easier questions, an assumption of the house rules, or an open point."""

    ask: tuple[str, ...] = ()
    assume: str = ""
    open: str = ""

    @model_validator(mode="after")
    def one_of_three(self) -> Unknown:
        if sum(bool(x) for x in (self.ask, self.assume, self.open)) != 1:
            raise ValueError("say exactly one of ask, assume, open")
        return self


class Question(Part):
    """One fact: what is asked, why it matters, how to find it out, and what follows from not knowing.

    `short` names the fact inside a sentence that asks several. `none` is the value an explicit "none of these" gives;
    `~` there means: said not to apply. `tick` is its wording in a list of things that may apply, `ticked` the value a
    tick gives (without it a tick opens the question itself), `tick_words` what else says in that list that it applies.
    """

    ask: str
    short: str
    why: str
    how: str = ""
    hint: str = ""
    options: Mapping[str, str] = Field(default_factory=dict)
    offer: tuple[str, ...] = ()
    when: Condition | None = None
    plausible: tuple[float, float] | None = None
    unknown: tuple[Unknown, ...] = ()
    tick: str = ""
    ticked: str | None = None
    tick_words: tuple[str, ...] = ()
    none: str | None = None
    none_applies: bool = False
    tries: tuple[str, ...] = ()

    @cached_property
    def applies(self) -> Test:
        return test_of(self.when)


class Topic(Part):
    topic: str
    title: str
    questions: dict[str, Question]


class Turn(Part):
    """One or several facts asked in one sentence. `settle` says when its facts are due (single facts may differ).

    always: until known or "don't know"; quote: the same, needed for a quote; matters: where an answer could change the
    result; along: only in company; follow: only opened by "don't know" elsewhere; build: once a build is wanted.
    """

    id: str
    asks: tuple[str, ...]
    text: str = ""
    example: str = ""  # one answer to the whole turn, shown for the hints of its parts
    settle: Settle
    settles: Mapping[str, Settle] = Field(default_factory=dict)
    when: Condition | None = None
    either: bool = False  # one answer is enough
    ticks: bool = False  # a list of things that may apply
    before: str = ""  # in a job based on another: stands before this turn of it (a turn of the same id is replaced)

    @cached_property
    def applies(self) -> Test:
        return test_of(self.when)

    def settle_of(self, fact: str) -> Settle:
        return self.settles.get(fact, self.settle)


class Job(Part):
    """The order of turns for one kind of job. `based_on`: another job's turns, less `leave_out`, its own put in."""

    job: str
    title: str
    greeting: str
    based_on: str = ""
    leave_out: tuple[str, ...] = ()
    turns: tuple[Turn, ...] = ()


@dataclass(frozen=True)
class Flow:
    """A job's turns with every question they ask."""

    job: Job
    topics: tuple[Topic, ...]
    questions: Mapping[str, Question]

    def title(self, topic: str) -> str:
        return next((t.title for t in self.topics if t.topic == topic), topic.capitalize())

    @cached_property
    def openers(self) -> Mapping[str, tuple[str, ...]]:
        """Which questions' "don't know" lead to a fact."""
        found: dict[str, list[str]] = {}
        for name, question in self.questions.items():
            for unknown in question.unknown:
                for fact in unknown.ask:
                    found.setdefault(fact, []).append(name)
        return {fact: tuple(names) for fact, names in found.items()}

    @cached_property
    def by_topic(self) -> Mapping[str, tuple[tuple[Turn, str, bool], ...]]:
        """The facts each topic asks for, with the turn, and whether a quote rests on them; topics in their order."""
        asks = [(t, f, t.settle_of(f) in ("always", "quote")) for t in self.job.turns for f in t.asks]
        found = {topic: tuple(a for a in asks if CATALOGUE[a[1]].topic == topic) for topic in TOPICS}
        return {topic: facts for topic, facts in found.items() if facts}

    @cached_property
    def option_labels(self) -> Mapping[str, Mapping[str, str]]:
        """The options of every question that has some, in words."""
        return {name: question.options for name, question in self.questions.items() if question.options}

    def turn_of(self, fact: str) -> Turn | None:
        return next((t for t in self.job.turns if fact in t.asks), None)

    def option_label(self, fact: str, value: str) -> str:
        question = self.questions.get(fact)
        return question.options.get(value, value.replace("_", " ")) if question else value.replace("_", " ")


def flow_files(folder: Path | None = None) -> tuple[Path, ...]:
    """The job files, by name."""
    folder = folder or shipped("flows")
    own = {"house-rules.yaml", "cautions.yaml", "phrasebook.yaml", "teaching.yaml", "failures.yaml"}
    return tuple(sorted(p for p in folder.glob("*.yaml") if p.name not in own))


@cache
def load_topics(folder: Path | None = None) -> tuple[tuple[Topic, YamlFile], ...]:
    folder = (folder or shipped("flows")) / "topics"
    files = [(validated(file := read_yaml(path), Topic), file) for path in sorted(folder.glob("*.yaml"))]
    if not files:
        raise FileError(f"{folder}: no topic files; the flows folder needs topics/*.yaml")
    order = {name: i for i, name in enumerate(TOPICS)}
    return tuple(sorted(files, key=lambda pair: order.get(pair[0].topic, 99)))


@cache
def load_flow(job: str = "failed_hose", folder: Path | None = None) -> Flow:
    """The flow of one kind of job. Raises FileError with file and line for the first fault."""
    path = (folder or shipped("flows")) / f"{job}.yaml"
    if not path.is_file():
        names = ", ".join(p.stem for p in flow_files(folder))
        raise FileError(f"{job}: no such flow; there are {names}")
    parsed, file = read_job(path)
    topics = load_topics(folder)
    questions: dict[str, Question] = {}
    for topic, topic_file in topics:
        fault = next(iter(topic_faults(topic, topic_file)), None)
        if fault is not None:
            raise fault
        questions.update(topic.questions)
    flow = Flow(parsed, tuple(t for t, _ in topics), questions)
    fault = next(iter(job_faults(flow, file)), None)
    if fault is not None:
        raise fault
    return flow


def read_job(path: Path) -> tuple[Job, YamlFile]:
    """A job file, with the turns of the job it is based on worked in."""
    file = read_yaml(path)
    job = validated(file, Job)
    if not job.based_on:
        return job, file
    base_path = path.with_name(f"{job.based_on}.yaml")
    if job.based_on == job.job or not base_path.is_file():
        raise file.error(("based_on",), f"{job.based_on!r} is no other flow beside this file")
    base = validated(read_yaml(base_path), Job)
    if base.based_on:
        raise file.error(("based_on",), f"{job.based_on!r} is itself based on another; base this one on that")
    ids = {t.id for t in base.turns}
    for i, name in enumerate(job.leave_out):
        if name not in ids:
            raise file.error(("leave_out", i), f"{name!r} is no turn of {job.based_on}")
    own = {t.id: t for t in job.turns}
    turns: list[Turn] = []
    for turn in base.turns:
        turns += [t for t in job.turns if t.before == turn.id]
        if turn.id not in job.leave_out:
            turns.append(own.get(turn.id, turn))
    for i, extra in enumerate(job.turns):
        if extra.before and extra.before not in ids:
            raise file.error(("turns", i, "before"), f"{extra.before!r} is no turn of {job.based_on}")
        if not extra.before and extra.id not in ids:
            turns.append(extra)
    return job.model_copy(update={"turns": tuple(turns)}), file


def topic_faults(topic: Topic, file: YamlFile) -> Iterator[FileError]:
    """Faults of one topic file: unknown facts and choices, wording that lacks, conditions that cannot be."""
    if topic.topic not in TOPICS:
        yield file.error(("topic",), f"{topic.topic!r} is no topic; the topics are {', '.join(TOPICS)}")
    for name, question in topic.questions.items():
        here = ("questions", name)
        if name not in CATALOGUE:
            yield file.error(here, f"{name!r} is not a fact")
            continue
        spec = CATALOGUE[name]
        if not question.why.strip():
            yield file.error((*here, "why"), f"{name}: no reason given; say why the answer matters")
        if spec.choices:
            for choice in (*question.options, *question.offer):
                if choice not in spec.choices:
                    yield file.error((*here, "options", choice), f"{choice!r} is no choice of {name}")
            lacking = [c for c in spec.choices if c not in question.options]
            if lacking:
                yield file.error((*here, "options"), f"{name}: no wording for {', '.join(lacking)}")
        elif question.options and spec.kind is not Kind.IDENT:
            yield file.error((*here, "options"), f"{name} takes a value, not a choice")
        for i, unknown in enumerate(question.unknown):
            for fact in unknown.ask:
                if fact not in CATALOGUE:
                    yield file.error((*here, "unknown", i, "ask"), f"{fact!r} is not a fact")
        if question.when is not None and (wrong := fault_of(question.when)):
            yield file.error((*here, "when"), wrong)


def job_faults(flow: Flow, file: YamlFile) -> Iterator[FileError]:
    """Faults of one job file: turns that ask what has no question, facts asked twice, circles of follow-ups."""
    seen: dict[str, str] = {}
    for i, turn in enumerate(flow.job.turns):
        here = ("turns", i)
        for fact in turn.asks:
            if fact not in CATALOGUE:
                yield file.error((*here, "asks"), f"{fact!r} is not a fact")
            elif fact not in flow.questions:
                yield file.error((*here, "asks"), f"{fact}: no topic file has a question for it")
            if fact in seen:
                yield file.error((*here, "asks"), f"{fact} is asked in turn {seen[fact]} already")
            seen[fact] = turn.id
        for fact in turn.settles:
            if fact not in turn.asks:
                yield file.error((*here, "settles"), f"{fact} is not asked in this turn")
        if turn.when is not None and (wrong := fault_of(turn.when)):
            yield file.error((*here, "when"), wrong)
    circle = find_circle(flow)
    if circle:
        yield file.error(
            ("turns",), f"a circle of follow-ups: {' -> '.join(circle)}; end one of them in assume or open"
        )


def find_circle(flow: Flow) -> list[str]:
    """A circle in "don't know -> ask", or an empty list."""
    edges = {n: [f for u in q.unknown for f in u.ask] for n, q in flow.questions.items()}
    done: set[str] = set()

    def walk(name: str, trail: list[str]) -> list[str]:
        if name in trail:
            return [*trail[trail.index(name) :], name]
        if name in done:
            return []
        for follow in edges.get(name, ()):
            found = walk(follow, [*trail, name])
            if found:
                return found
        done.add(name)
        return []

    for name in edges:
        found = walk(name, [])
        if found:
            return found
    return []


def unreachable(flow: Flow) -> list[str]:
    """Questions that no turn asks and no follow-up opens: nobody will ever see them."""
    asked = {f for t in flow.job.turns for f in t.asks}
    return sorted(n for n in flow.questions if n not in asked)


__all__ = ["Flow", "Job", "Question", "Topic", "Turn", "load_flow", "names_in"]
