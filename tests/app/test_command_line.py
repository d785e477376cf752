"""What do the commands do, and how do they refuse? Exit 0, 1 or 2; one line on stderr; never a traceback."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from command_line import ROOT, refused, run

from interview.catalogue import CATALOGUE
from interview.cli import main

SAWMILL, STEAM = ROOT / "scenarios" / "sawmill-log-turner.yaml", ROOT / "scenarios" / "laundry-press-steam.yaml"


# ---- refusals --------------------------------------------------------------------------------------------------------


def spoiled(folder: Path, old: str, new: str) -> Path:
    text = SAWMILL.read_text(encoding="utf-8")
    assert old in text
    path = folder / SAWMILL.name
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return path


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    assert refused(run(tmp_path, "replay", "nowhere.yaml")) == "nowhere.yaml: no such file"
    assert "no such file" in refused(run(tmp_path, "replay", str(tmp_path)))


def test_a_malformed_scenario(tmp_path: Path) -> None:
    told = refused(run(tmp_path, "replay", str(spoiled(tmp_path, "knows:\n", "knows: [\n"))))
    assert told.startswith("sawmill-log-turner.yaml: line ") and "not YAML" in told


def test_an_unknown_fact_in_a_scenario(tmp_path: Path) -> None:
    told = refused(run(tmp_path, "replay", str(spoiled(tmp_path, "  medium: hm\n", "  colour: red\n")), "--json"))
    assert told.startswith("sawmill-log-turner.yaml: line ") and "'colour' is not a fact" in told


@pytest.mark.parametrize("raw", [b"\x89PNG\r\n\x1a\n\x00\x00", bytes(range(256)), b"\xff\xfeh\x00i\x00", b"PK\x03\x04"])
def test_a_binary_file(tmp_path: Path, raw: bytes) -> None:
    path = tmp_path / "picture.yaml"
    path.write_bytes(raw)
    assert refused(run(tmp_path, "replay", str(path))).startswith("picture.yaml: ")


@pytest.mark.parametrize(
    "arguments",
    [
        ["dance"],
        ["replay"],
        ["--units", "cubits"],
        ["--nonsense"],
        ["hear", "x", "--asked", "colour"],
        ["--job", "nonsense", "--plain"],
        ["identify"],
        ["identify", "--pitch", "coarse"],
        ["identify", "--diameter", "nan"],
        ["identify", "--diameter", "-5"],
        ["identify", "--gender", "neither"],
        ["reference", "nonsense"],
        ["reference", "hoses", "nonsense"],
        ["flows", "--lint", "--folder", "/nowhere"],
        ["records", "show", "NOTHING-1"],
        ["--store", "nonsense://x", "records"],
    ],
)
def test_what_cannot_be_used_is_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, arguments: list[str]
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert main(arguments) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert len(printed.err.splitlines()) == 1 and printed.err.strip()
    assert "Traceback" not in printed.err


def test_help_and_version_are_no_errors(tmp_path: Path) -> None:
    for arguments in (["--help"], ["--version"], ["replay", "--help"]):
        ran = run(tmp_path, *arguments)
        assert ran.code == 0 and ran.out.strip() and ran.err == ""


# ---- hear ------------------------------------------------------------------------------------------------------------


def test_hear_prints_one_object_a_line(tmp_path: Path) -> None:
    """The contract's example sentence and conventions of the counter."""
    ran = run(tmp_path, "hear", "--json", typed="3000 psi relief, spikes to 4200\n180 F\nhello\n\n")
    assert ran.code == 0 and ran.err == ""
    heard = [json.loads(line) for line in ran.out.splitlines()]
    assert len(heard) == 4
    for one in heard:
        assert set(one) == {"facts", "unclear", "ignored"}
    assert heard[0]["facts"]["relief_setting"] == {
        "value": 206.8,
        "unit": "bar",
        "origin": "stated",
        "said": "3000 psi relief",
    } | {"value": pytest.approx(206.8427, abs=0.05), "said": heard[0]["facts"]["relief_setting"]["said"]}
    assert heard[0]["facts"]["surge_pressure"]["value"] == pytest.approx(289.58, abs=0.05)
    assert {"fluid_temperature_max", "ambient_temperature_max"} <= set(heard[1]["unclear"][0]["could_be"])
    assert heard[2]["facts"] == {}


def test_hear_takes_the_question_into_account(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["hear", "180 F", "--asked", "fluid_temperature_max", "--json"]) == 0
    heard = json.loads(capsys.readouterr().out)
    assert heard["facts"]["fluid_temperature_max"]["value"] == pytest.approx(82.2, abs=0.05)
    assert heard["facts"]["fluid_temperature_max"]["unit"] == "degC"


# ---- replay ----------------------------------------------------------------------------------------------------------

RECORD_KEYS = {
    "outcome",
    "ready_for",
    "missing_for_build",
    "facts",
    "asked",
    "need",
    "choice",
    "candidates",
    "assembly",
    "cautions",
    "advice",
    "assumptions",
    "open",
    "sources",
    "scenario",
    "met",
    "unmet",
}


def test_replay_prints_one_record_a_file_in_order(tmp_path: Path) -> None:
    ran = run(tmp_path, "replay", str(SAWMILL), str(STEAM), str(SAWMILL), "--json")
    assert ran.code == 0 and ran.err == ""
    rows = [json.loads(line) for line in ran.out.splitlines()]
    assert [r["scenario"] for r in rows] == [SAWMILL.stem, STEAM.stem, SAWMILL.stem]
    assert {k: v for k, v in rows[0].items() if k != "made"} == {k: v for k, v in rows[2].items() if k != "made"}
    for row in rows:
        assert set(row) >= RECORD_KEYS
        assert row["met"] is True and row["unmet"] == []
        assert row["outcome"] in ("specified", "provisional", "referred", "unmatched")
        assert row["ready_for"] in ("none", "quote", "build")


def test_the_record_holds_what_the_contract_says(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["replay", str(SAWMILL), "--json"]) == 0
    row = json.loads(capsys.readouterr().out)
    assert row["choice"]["construction"] and row["choice"]["bore"] == 10
    fact = row["facts"]["working_pressure"]
    assert (fact["value"], fact["unit"], fact["origin"]) == (180, "bar", "stated")
    assert row["need"]["pressure"] == {**row["need"]["pressure"], "value": 205, "unit": "bar"}
    assert row["need"]["temperature_max"]["unit"] == "degC" and row["need"]["bore"]["unit"] == "dash"
    assert row["assembly"]["rating"]["unit"] == "bar" and row["assembly"]["limited_by"] == "end_a"
    assert row["assembly"]["proof_pressure"]["value"] <= 2 * row["assembly"]["rating"]["value"] + 1
    assert len(row["candidates"]) > 300
    for candidate in row["candidates"]:
        assert candidate["verdict"] in ("fits", "fails", "open")
        for finding in candidate["findings"]:
            assert {"check", "topic", "verdict", "need", "have", "margin", "why", "source"} <= set(finding)
    assert {"crimp_data", "not_an_approval"} <= {c["id"] for c in row["cautions"]}
    for part in ("cautions", "advice", "assumptions"):
        assert all(isinstance(one, dict) for one in row[part])
    assert row["sources"] and set(row["facts"]) <= set(CATALOGUE)
    assert "NaN" not in json.dumps(row) and "Infinity" not in json.dumps(row)


def test_an_expectation_that_is_not_met_is_exit_1(tmp_path: Path) -> None:
    path = spoiled(tmp_path, "  rating: 207 bar\n", "  rating: 250 bar\n")
    ran = run(tmp_path, "replay", str(path), str(STEAM), "--json")
    assert ran.code == 1 and ran.err == ""
    first, second = (json.loads(line) for line in ran.out.splitlines())
    assert first["met"] is False and any("rating" in fault for fault in first["unmet"])
    assert second["met"] is True
    transcript = run(tmp_path, "replay", str(path))
    assert transcript.code == 1 and "NOT MET: rating" in transcript.out


def test_replay_against_an_earlier_run(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["replay", str(SAWMILL), str(STEAM), "--json"]) == 0
    saved = tmp_path / "saved.jsonl"
    text = capsys.readouterr().out
    saved.write_text(text, encoding="utf-8")
    assert main(["replay", str(SAWMILL), str(STEAM), "--against", str(saved)]) == 0
    printed = capsys.readouterr().out
    assert f"{SAWMILL.stem}: same" in printed and f"{STEAM.stem}: same" in printed
    # An earlier run that was more cautious: the present one is less safe, and that is exit 1.
    saved.write_text(text.replace('"outcome":"specified"', '"outcome":"provisional"'), encoding="utf-8")
    assert main(["replay", str(SAWMILL), "--against", str(saved)]) == 1
    assert "less safe (outcome provisional -> specified)" in capsys.readouterr().out
    saved.write_text("{\n", encoding="utf-8")
    assert main(["replay", str(SAWMILL), "--against", str(saved)]) == 2
    assert "not a line of replay --json" in capsys.readouterr().err
    assert main(["replay", str(SAWMILL), "--against", str(tmp_path / "none")]) == 2


def test_a_closed_pipe_is_no_fault(tmp_path: Path) -> None:
    import os
    import subprocess
    import sys

    with subprocess.Popen(
        [sys.executable, "-m", "interview", "replay", *map(str, sorted((ROOT / "scenarios").glob("*.yaml"))), "--json"],
        cwd=tmp_path,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(ROOT), "HOSEWRIGHT_STATE": str(tmp_path)},
    ) as process:
        assert process.stdout is not None and process.stderr is not None
        process.stdout.read(10)
        process.stdout.close()
        assert b"Traceback" not in process.stderr.read()
        assert process.wait(60) == 0


def test_the_drawing_and_the_coverage_are_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["flows", "--diagram"]) == 0
    assert capsys.readouterr().out.startswith("stateDiagram-v2\n")
    assert main(["flows", "--coverage"]) == 0
    told = capsys.readouterr().out
    count = len(list((ROOT / "scenarios").glob("*.yaml")))
    assert f"{count} scenarios replayed." in told and "failed_hose: " in told and "Stops reached: " in told
