"""Does everything run with a shop's own shelf, and is a shelf with a fault refused at the start?"""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from command_line import ROOT, refused, run

SAWMILL = ROOT / "scenarios" / "sawmill-log-turner.yaml"
REGISTER = """line_function,bore,working_pressure,surge_pressure,medium,fluid_temperature_max
pressure,8,150 bar,180 bar,hm,60
"""


@pytest.fixture
def shelf(tmp_path: Path) -> Path:
    path = tmp_path / "our shelf.csv"
    path.write_text("item,hose,bore,left\nrack 3,4SP,-8,60 m\nrack 4,R12,-16,9 m\n", encoding="utf-8")
    return path


def test_the_command_says_what_is_on_it(tmp_path: Path, shelf: Path) -> None:
    for arguments, environment in (
        (["shelf", str(shelf)], {}),
        (["shelf", "--shelf", str(shelf)], {}),
        (["shelf"], {"HOSEWRIGHT_SHELF": str(shelf)}),
    ):
        ran = run(tmp_path, *arguments, **environment)
        assert (ran.code, ran.err) == (0, "")
        assert "rack 3: EN 856 / ISO 3862 4SP, 1/2 in (-8, DN 12), bears 415 bar" in ran.out
        assert ran.out.endswith("2 items, 2 to be built from\n")
    assert "CSV file with the columns item,hose,bore" in refused(run(tmp_path, "shelf"))


def test_the_interview_and_the_register_build_from_it(tmp_path: Path, shelf: Path) -> None:
    line = "burst hose, pressure line, half inch, 150 bar, peaks 200 bar, HLP 46, oil to 70C, yard -10 to 35C"
    ran = run(tmp_path, "--shelf", str(shelf), "--plain", "--fresh", typed=f"{line}\nfits\nquit\n")
    assert ran.code == 0 and "on the shelf: rack 3, 60 m left" in " ".join(ran.out.split())
    (tmp_path / "hoses.csv").write_text(REGISTER, encoding="utf-8")
    with_shelf = run(tmp_path, "check", "hoses.csv", "--shelf", str(shelf)).out
    without = run(tmp_path, "check", "hoses.csv").out
    assert "4SP" in with_shelf and "4SP" not in without


def test_a_scenario_is_replayed_on_the_tables_alone_unless_a_shelf_is_named_with_it(
    tmp_path: Path, shelf: Path
) -> None:
    plain = run(tmp_path, "replay", "--json", str(SAWMILL))
    kept = run(tmp_path, "replay", "--json", str(SAWMILL), HOSEWRIGHT_SHELF=str(shelf))
    assert plain.out == kept.out and json.loads(plain.out)["choice"]["stock_item"] is None
    bore = json.loads(plain.out)["choice"]["bore"]
    shelf.write_text(f"item,hose,bore\nrack 3,4SP,-{bore:g}\n", encoding="utf-8")
    named = json.loads(run(tmp_path, "replay", "--json", str(SAWMILL), "--shelf", str(shelf)).out)
    assert (named["choice"]["construction"], named["choice"]["stock_item"]) == ("en856-4sp", "rack 3")
    assert "on the shelf: rack 3" in json.dumps(named["advice"])


def test_a_shelf_that_will_not_do_stops_the_start(tmp_path: Path, shelf: Path) -> None:
    assert "no such file" in refused(run(tmp_path, "--shelf", "nowhere.csv", "--plain"))
    assert "HOSEWRIGHT_SHELF=/nowhere.csv: no such file" in refused(run(tmp_path, HOSEWRIGHT_SHELF="/nowhere.csv"))
    shelf.write_text("item,hose,bore\nrack 3,4SP,12\n", encoding="utf-8")
    told = refused(run(tmp_path, "--shelf", str(shelf), "--plain"))
    assert told.startswith("our shelf.csv: line 2: bore: '12': 12 of what?")


def test_a_store_that_is_none_stops_the_start(tmp_path: Path) -> None:
    """What cannot be used is said before the job, not after it."""
    (tmp_path / "bad.db").write_text("junk", encoding="utf-8")
    assert "is not a record store" in refused(run(tmp_path, "--store", "bad.db", "--plain", "--fresh"))
    assert run(tmp_path, "--store", "new.db", "--plain", "--fresh", typed="quit\n").code == 0
