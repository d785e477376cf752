"""Do the papers tell the truth? README's commands, the drawing in DEVELOPERS.md, the CI script."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from interview.catalogue import TOPICS
from interview.cli import parser
from interview.dialogue.machine import diagram

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def test_the_drawing_is_the_generated_one() -> None:
    papers = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    drawn = re.search(r"```mermaid\n(.*?)\n```", papers, re.DOTALL)
    assert drawn is not None
    assert drawn[1] == diagram(TOPICS)


def test_readme_opens_with_the_job() -> None:
    first = README.split("\n\n")[1]
    assert "hydraulics counter" in first and "hosewright" in first and not first.startswith("#")


def test_ci_runs_the_test_command_of_the_readme() -> None:
    commands = [line for line in README.splitlines() if line.startswith("python3 -m venv .venv-test")]
    assert len(commands) == 1 and "pytest" in commands[0]
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert "README.md" in script and "python3 -m venv \\.venv-test" in script and "pytest" not in script


@pytest.mark.parametrize("command", re.findall(r"^\| `hosewright ([a-z]+)", README, re.MULTILINE))
def test_every_command_of_the_readme_exists(command: str) -> None:
    choices = next(a.choices for a in parser()._actions if a.dest == "command")
    assert choices is not None and command in choices
