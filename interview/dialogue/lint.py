"""Are the flow files in order? Every fault of every file, each one line: file, line, what is wrong."""

from __future__ import annotations

from pathlib import Path

from interview.catalogue import CATALOGUE
from interview.dialogue.failures import file_faults
from interview.dialogue.flows import Flow, Topic, flow_files, job_faults, read_job, topic_faults
from interview.dialogue.wording import SafetyTexts
from interview.resources import shipped
from interview.selection.cautions import SEVERITY
from interview.selection.house_rules import RulesError, load_house_rules
from interview.yaml_file import FileError, YamlFile, read_yaml, validated

NEVER_ASKED = frozenset(
    "job_kind injury customer line_tag assembly_date fitted_date quantity needed_by cleanliness proof_test "
    "certificate end_a_swivel end_b_swivel marked_size fluid_temperature_min".split()
)  # volunteered, or shown at review


def lint(folder: Path | None = None) -> list[str]:
    """One line a fault; an empty list: in order."""
    folder = folder or shipped("flows")
    faults: list[str] = []
    topics: list[tuple[Topic, YamlFile]] = []
    for path in sorted((folder / "topics").glob("*.yaml")):
        try:
            file = read_yaml(path)
            topic = validated(file, Topic)
        except FileError as error:
            faults.append(str(error))
            continue
        topics.append((topic, file))
        faults += [str(e) for e in topic_faults(topic, file)]
    if not topics:
        faults.append(f"{folder}: no topic files; the flows folder needs topics/*.yaml")
    questions = {n: q for t, _ in topics for n, q in t.questions.items()}
    asked: set[str] = set()
    for path in flow_files(folder):
        try:
            job, file = read_job(path)
        except FileError as error:
            faults.append(str(error))
            continue
        faults += [str(e) for e in job_faults(Flow(job, tuple(t for t, _ in topics), questions), file)]
        asked |= {f for t in job.turns for f in t.asks}
    for topic, file in topics:
        for name in topic.questions:
            if name in CATALOGUE and name not in asked and name not in NEVER_ASKED:
                faults.append(
                    str(file.error(("questions", name), f"{name}: no flow asks this question; nothing can reach it"))
                )
    faults += _rules(folder) + _safety(folder) + _phrases(folder) + file_faults(folder / "failures.yaml")
    return faults


def _rules(folder: Path) -> list[str]:
    try:
        load_house_rules(folder / "house-rules.yaml")
    except RulesError as error:
        return [str(error)]
    return []


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
