"""Does everything run on a shop's own copy of the flows, and is a copy with a fault refused at the start?"""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from command_line import ROOT, refused, run

from interview.resources import shipped

HELLO = "Our own shop says good morning."
SAWMILL = ROOT / "scenarios" / "sawmill-log-turner.yaml"


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A copy that greets in its own words, has a word of its own, and a spike factor of its own."""
    folder = tmp_path / "our flows"
    shutil.copytree(ROOT / "flows", folder)
    job = folder / "failed_hose.yaml"
    lines = job.read_text(encoding="utf-8").splitlines(keepends=True)
    begin = next(i for i, line in enumerate(lines) if line.startswith("greeting:"))
    end = next(i for i in range(begin + 1, len(lines)) if not lines[i].startswith((" ", "\n")))
    job.write_text("".join([*lines[:begin], f'greeting: "{HELLO}"\n', *lines[end:]]), encoding="utf-8")
    return folder


def spoil(folder: Path) -> None:
    rules = folder / "house-rules.yaml"
    text = rules.read_text(encoding="utf-8")
    assert "proof_ratio: 2.0" in text
    rules.write_text(text.replace("proof_ratio: 2.0", "proof_ratio: 4.0"), encoding="utf-8")


def test_the_interview_asks_what_the_shop_asks(tmp_path: Path, shop: Path) -> None:
    for settings, environment in ((["--flows", str(shop)], {}), ([], {"HOSEWRIGHT_FLOWS": str(shop)})):
        ran = run(tmp_path, *settings, "--plain", "--fresh", typed="quit\n", **environment)
        assert ran.code == 0 and ran.err == ""
        assert ran.out.startswith(HELLO)
    assert HELLO not in run(tmp_path, "--plain", "--fresh", typed="quit\n").out


def test_the_option_goes_before_the_setting_and_may_stand_behind_a_command(tmp_path: Path, shop: Path) -> None:
    ran = run(tmp_path, "flows", "--lint", "--flows", "our flows", HOSEWRIGHT_FLOWS="/nowhere")
    assert (ran.code, ran.out, ran.err) == (0, f"The flow files in {shop} are in order.\n", "")


def test_a_rule_of_the_copy_is_the_one_a_replay_uses(tmp_path: Path, shop: Path) -> None:
    rules = shop / "house-rules.yaml"
    text = rules.read_text(encoding="utf-8")
    rules.write_text(text.replace("guide: 6.0", "guide: 5.0"), encoding="utf-8")
    ours, theirs = (
        json.loads(run(tmp_path, *flows, "replay", str(SAWMILL), "--json").out)["house_rules"]
        for flows in (["--flows", str(shop)], [])
    )
    assert any("pressure line: guide 5," in rule for rule in ours)
    assert any("pressure line: guide 6," in rule for rule in theirs)


def test_a_copy_with_a_fault_interviews_nobody(tmp_path: Path, shop: Path) -> None:
    spoil(shop)
    for command in (["--plain"], ["hear", "3000 psi"], ["replay", str(SAWMILL)], ["train", "--list"]):
        told = refused(run(tmp_path, "--flows", str(shop), *command, typed="quit\n"))
        assert told.startswith(f"--flows {shop}: house-rules.yaml: line ")
        assert "proof_ratio" in told and "at most 2 would do" in told
    told = refused(run(tmp_path, "--flows", str(shop), "flows", "--lint"))
    assert told.startswith("house-rules.yaml: line ")


def test_further_faults_are_counted(tmp_path: Path, shop: Path) -> None:
    spoil(shop)
    (shop / "teaching.yaml").unlink()
    (shop / "cautions.yaml").unlink()
    told = refused(run(tmp_path, "--plain", HOSEWRIGHT_FLOWS=str(shop)))
    assert told.startswith(f"HOSEWRIGHT_FLOWS={shop}: ") and told.endswith(" more: hosewright flows --lint)")


@pytest.mark.parametrize("name", ["nowhere", "."])
def test_a_folder_that_holds_no_flows(tmp_path: Path, name: str) -> None:
    told = refused(run(tmp_path, "--flows", name, "--plain"))
    assert told == f"--flows {name}: no flows there; it takes a folder like the shipped flows, with topics in it"


def test_an_empty_setting_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOSEWRIGHT_FLOWS", "  ")
    assert shipped("flows") == ROOT / "flows"
