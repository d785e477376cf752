"""Does an installed wheel run, away from the checkout, with what it carries alone? And do README's commands hold?"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import tomllib
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def command(
    *arguments: str | Path, folder: Path, typed: str = "", **environment: str
) -> subprocess.CompletedProcess[str]:
    """A command outside the checkout: no PYTHONPATH, its own home and state."""
    settings = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "VIRTUAL_ENV", "XDG_"))}
    settings |= {"HOME": str(folder), "HOSEWRIGHT_STATE": str(folder / "state"), "LC_ALL": "C.UTF-8", **environment}
    return subprocess.run(
        [str(a) for a in arguments],
        cwd=folder,
        env=settings,
        input=typed,
        text=True,
        capture_output=True,
        check=False,
        timeout=540,
        encoding="utf-8",
    )


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("dist")
    done = command(sys.executable, "-m", "build", "--wheel", "--outdir", folder, ROOT, folder=folder)
    assert done.returncode == 0, done.stdout[-2000:] + done.stderr[-2000:]
    (built,) = folder.glob("*.whl")
    return built


@pytest.mark.slow
def test_the_wheel_carries_flows_scenarios_and_tables(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    for kind in ("flows", "scenarios"):
        for path in (ROOT / kind).rglob("*.yaml"):
            assert f"interview/_data/{kind}/{path.relative_to(ROOT / kind).as_posix()}" in names
    for path in (ROOT / "interview").rglob("*"):
        if path.suffix in (".py", ".csv", ".tcss", ".yaml", ".md") and "_data" not in path.parts:
            assert path.relative_to(ROOT).as_posix() in names
    assert not any(n.startswith(("tests/", "dossier/")) or n.endswith(".pyc") for n in names)


@pytest.mark.slow
def test_an_installed_wheel_runs_an_interview_from_another_directory(wheel: Path, tmp_path: Path) -> None:
    """A clean environment: only the wheel and what it declares (network to the package index needed)."""
    venv.create(tmp_path / "env", with_pip=True)
    bin_folder = tmp_path / "env" / ("Scripts" if os.name == "nt" else "bin")
    away = tmp_path / "counter"
    away.mkdir()
    installed = command(bin_folder / "python", "-m", "pip", "install", "-q", wheel, folder=away)
    assert installed.returncode == 0, installed.stderr[-2000:]
    listed = {
        p["name"].lower()
        for p in json.loads(command(bin_folder / "python", "-m", "pip", "list", "--format=json", folder=away).stdout)
    }
    assert "hosewright" in listed and not listed & {"pytest", "hypothesis", "fluids", "coolprop"}, (
        "a test tool came along"
    )

    hosewright = bin_folder / "hosewright"
    where = command(
        bin_folder / "python", "-c", "import interview.resources as r; print(r.shipped('scenarios'))", folder=away
    )
    scenarios = Path(where.stdout.strip())
    assert scenarios.is_relative_to(tmp_path / "env")
    replayed = command(hosewright, "replay", scenarios / "sawmill-log-turner.yaml", "--json", folder=away)
    assert replayed.returncode == 0, replayed.stderr
    assert json.loads(replayed.stdout)["met"] is True
    assert command(hosewright, "flows", "--lint", folder=away).returncode == 0

    typed = "pressure line, 1/2 in hose, 180 bar working pressure\nfacts\nrecord mine.md\nquit\n"
    talked = command(hosewright, "--plain", folder=away, typed=typed)
    assert talked.returncode == 0 and talked.stderr == ""
    assert "working pressure: 180 bar" in talked.stdout
    assert "NOT FOR BUILDING" in (away / "mine.md").read_text(encoding="utf-8")
    again = command(bin_folder / "python", "-m", "interview", "--plain", folder=away, typed="resume\nfacts\n")
    assert "working pressure: 180 bar" in again.stdout


# ---- what README prints --------------------------------------------------------------------------------------------


def commands_printed() -> list[str]:
    return [line for block in re.findall(r"```\n(.*?)```", README, re.DOTALL) for line in block.strip().splitlines()]


def test_readme_s_two_commands_set_up_and_run() -> None:
    """One to set up and open the interview, one to set up and pass the tests; each a single line."""
    first, second, *_ = commands_printed()
    assert first.endswith(".venv/bin/hosewright") and "pip install" in first and first.startswith("python3 -m venv")
    assert second.startswith("python3 -m venv") and "pytest" in second and "[test]" in second


def test_ci_runs_the_test_command_as_readme_prints_it() -> None:
    """The script takes the line out of README and runs it, in an environment it has just thrown away."""
    script = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert os.access(ROOT / ".ci" / "run", os.X_OK)
    pattern = re.search(r"grep -m1 -E '([^']+)' README\.md", script)
    assert pattern is not None
    found = [line for line in README.splitlines() if re.search(pattern[1], line)]
    assert found[0] == commands_printed()[1]
    assert "rm -rf .venv-test" in script and '"$command"' in script


def test_what_pyproject_says_agrees_with_the_package() -> None:
    from interview import __version__

    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["name"] == "hosewright" and project["version"] == __version__
    assert project["scripts"] == {"hosewright": "interview.cli:main"}
    for name in project["dependencies"]:
        assert re.search(r"[<>=]", name), f"{name} has no range"


def test_every_command_readme_names_exists() -> None:
    """README's table of commands against the parser, both ways."""
    from interview.cli import parser

    named = set(re.findall(r"`hosewright ([a-z]+)[ `]", README))
    known = set(next(a for a in parser()._actions if a.dest == "command").choices or ())
    assert named == known
