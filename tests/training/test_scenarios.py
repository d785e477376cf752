"""Every shipped scenario is replayed and met."""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.record.assemble import record_of
from interview.resources import shipped
from interview.selection.judge import Bench
from interview.training.replay import play
from interview.training.scenario import load_scenario
from interview.training.verdict import unmet

FILES = sorted(shipped("scenarios").glob("*.yaml"))


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_scenario_is_met(path: Path, on: Bench) -> None:
    scenario, knows = load_scenario(path)
    played = play(scenario, knows, on)
    assert unmet(played, record_of(played.session)) == []


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_scenario_expects_an_outcome(path: Path) -> None:
    """A scenario that expects nothing can not fail."""
    scenario, _ = load_scenario(path)
    assert scenario.expect.outcome or scenario.expect.outcome_any
    assert scenario.teaches
