"""Are the flow files in order? Every fault of every file, each one line: file, line, what is wrong."""

from __future__ import annotations

from pathlib import Path
from typing import TypeVar

from pydantic import BaseModel

from interview.catalogue import CATALOGUE
from interview.dialogue.failures import file_faults
from interview.dialogue.flows import Flow, Job, Topic, flow_files, job_faults, read_job, topic_faults
from interview.dialogue.lessons import Lessons
from interview.dialogue.safety_texts import SafetyTexts
from interview.resources import shipped
from interview.selection.cautions import SEVERITY
from interview.selection.house_rules import rules_faults
from interview.yaml_file import FileError, YamlFile, faults_of, read_yaml, validated

M = TypeVar("M", bound=BaseModel)
NEVER_ASKED = frozenset(
    "job_kind injury customer line_tag assembly_date fitted_date quantity needed_by cleanliness proof_test "
    "certificate end_a_swivel end_b_swivel marked_size fluid_temperature_min".split()
)  # volunteered, or shown at review


def lint(folder: Path | None = None) -> list[str]:
    """One line a fault, each once; an empty list: in order.

    What only follows from a file that could not be read, or is not there, is not told beside it.
    """
    folder = folder or shipped("flows")
    faults: list[str] = []
    topics: list[tuple[Topic, YamlFile]] = []
    paths = sorted((folder / "topics").glob("*.yaml"))
    for path in paths:
        read, wrong = _read(path, Topic)
        faults += wrong
        if read is not None:
            topics.append(read)
            faults += [str(e) for e in topic_faults(*read)]
    if not paths:
        faults.append(f"{folder}: no topic files; the flows folder needs topics/*.yaml")
    questions = {n: q for t, _ in topics for n, q in t.questions.items()}
    here = {t.topic for t, _ in topics}
    asked: set[str] = set()
    homeless: dict[str, tuple[YamlFile, tuple[object, ...], dict[str, None]]] = {}
    unread = False
    for path in flow_files(folder):
        wrong = _read(path, Job)[1]
        try:
            job, file = read_job(path)
        except FileError as error:
            faults += wrong or [str(error)]
            unread = True
            continue
        asked |= {f for t in job.turns for f in t.asks}
        lost = []
        for i, turn in enumerate(job.turns):
            for fact in turn.asks:
                if fact in CATALOGUE and CATALOGUE[fact].topic not in here:
                    lost.append(fact)
                    homeless.setdefault(CATALOGUE[fact].topic, (file, ("turns", i, "asks"), {}))[2][fact] = None
        turns = tuple(t.model_copy(update={"asks": tuple(f for f in t.asks if f not in lost)}) for t in job.turns)
        # The turns keep their places, so that every other fault still has its line.
        flow = Flow(job.model_copy(update={"turns": turns}), tuple(t for t, _ in topics), questions)
        faults += [str(e) for e in job_faults(flow, file) if not _of_lost(str(e), lost)]
    if topics and len(topics) == len(paths):
        for name, (file, place, facts) in homeless.items():
            text = f"{', '.join(facts)}: no topic file has a question for it; there is no file for the topic {name}"
            faults.append(str(file.error(place, text)))
    for topic, file in topics:
        for name in topic.questions:
            if name in CATALOGUE and name not in asked and name not in NEVER_ASKED and not unread:
                faults.append(
                    str(file.error(("questions", name), f"{name}: no flow asks this question; nothing can reach it"))
                )
    faults += rules_faults(folder / "house-rules.yaml")
    faults += _safety(folder) + _phrases(folder) + _read(folder / "teaching.yaml", Lessons)[1]
    faults += file_faults(folder / "failures.yaml")
    return list(dict.fromkeys(faults))


def _read(path: Path, model: type[M]) -> tuple[tuple[M, YamlFile] | None, list[str]]:
    """A file as a model, or all its faults."""
    try:
        file = read_yaml(path)
    except FileError as error:
        return None, [str(error)]
    if wrong := faults_of(file, model):
        return None, [str(fault) for fault in wrong]
    return (validated(file, model), file), []


def _of_lost(fault: str, lost: list[str]) -> bool:
    return any(f": {fact} is not asked in this turn" in fault for fact in lost)


def _safety(folder: Path) -> list[str]:
    path = folder / "cautions.yaml"
    try:
        file = read_yaml(path)
        texts = validated(file, SafetyTexts)
    except FileError as error:
        return [str(error)]
    have = {c.id for c in texts.cautions}
    faults = [f"{path.name}: no words for the caution {c}" for c in SEVERITY if c not in have]
    faults += [
        str(file.error(("cautions", i, "id"), f"{c.id!r} is no caution"))
        for i, c in enumerate(texts.cautions)
        if c.id not in SEVERITY
    ]
    faults += [
        f"{path.name}: no referral for {use}"
        for use in CATALOGUE["regulated_use"].choices
        if use != "none" and use not in texts.regulated
    ]
    return faults


def _phrases(folder: Path) -> list[str]:
    from interview.language.phrasebook import read_phrasebook

    path = folder / "phrasebook.yaml"
    if not path.is_file():
        return [f"{path.name}: missing; the phrasebook says which words mean which facts"]
    try:
        read_phrasebook(path)
    except ValueError as error:
        return [" ".join(str(error).split())]
    return []
