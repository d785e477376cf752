"""A register of hoses, a row each: what holds, what does not and why, and what a bad file is told."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from interview.cli import main
from interview.dialogue.session import bench
from interview.record.register import WRITES, Checked, check_register, read_register
from interview.selection.judge import Bench
from interview.yaml_file import FileError

HEAD = (
    "tag,line_function,old_construction,bore,working_pressure,surge_pressure,medium,viscosity_grade,"
    "fluid_temperature_max,ambient_temperature_max,ambient_temperature_min,flow_rate,regulated_use\n"
)
SAFE = "A1,pressure,en853-2sn,8,180 bar,220 bar,hm,46,65,40,-5,30 L/min,none\n"
ENDS = "end_{0}_family,end_{0}_size,end_{0}_gender,end_{0}_form"


@pytest.fixture(scope="module")
def on() -> Bench:
    return bench()


def register(folder: Path, text: str) -> Path:
    path = folder / "hoses.csv"
    path.write_text(text, encoding="utf-8")
    return path


def checked(folder: Path, text: str, on: Bench) -> list[Checked]:
    return list(check_register(read_register(register(folder, text)), on, "metric"))


@pytest.mark.parametrize(
    ("row", "stands", "there", "says"),
    [
        (SAFE, "open", "fits", ""),  # the ends are not in the register: never a pass
        (SAFE.replace("en853-2sn", "en853-1sn"), "fails", "fails", "220 bar (3,191 psi) is above its rating 160 bar"),
        (SAFE.replace("220 bar", ""), "open", "fits", ""),  # the house's assumed spike, 1.5 x 180 = 270 of 275 bar
        (SAFE.replace("180 bar,220 bar", ","), "open", "open", "the pressure is not known"),
        (SAFE.replace(",none", ",road_brake"), "fails", "", "not for a hydraulics counter"),
        (SAFE.replace(",none", ","), "open", "fits", ""),
        (SAFE.replace("180 bar", "180 apples"), "unread", "", "working_pressure: 'apples'"),
        (SAFE.replace("en853-2sn", "en853-9xx"), "unread", "", "old_construction: not in the tables"),
    ],
)
def test_a_row_and_how_it_stands(tmp_path: Path, on: Bench, row: str, stands: str, there: str, says: str) -> None:
    """EN 853 at DN 12: 1SN 160 bar, 2SN 275 bar (standard as restated)."""
    (found,) = checked(tmp_path, HEAD + row, on)
    assert (found.stands, found.cells.get("hose_there", "")) == (stands, there)
    assert says in str(found.cells["why"])


def test_a_row_that_says_all_holds(tmp_path: Path, on: Bench) -> None:
    head = ",".join((HEAD.strip(), ENDS.format("a"), ENDS.format("b"), "motion,adapter_a_family,adapter_b_family"))
    head += ",people_near,near_power_line,vibration,exposure,wear,burst_consequence,accumulator,bend_radius_available"
    head += ",failure_sign,cycle_rate,hours_per_year,wanted_life,overall_length\n"
    rest = ",orfs,-8,female,straight,orfs,-8,female,straight,fixed,none,none"
    rest += ",no,no,no,none,none,none,no,200 mm,none,20,500,3,900\n"
    (found,) = checked(tmp_path, head + SAFE.strip() + rest, on)
    assert found.stands == "holds" and found.cells["carries_bar"] == 275.0, found.cells
    assert found.cells["open"] == ""


def test_the_answer_keeps_the_rows_and_adds_to_them(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    weak = SAFE.replace("A1", "=A2").replace("en853-2sn", "en853-1sn")
    path, out = register(tmp_path, HEAD + SAFE + weak), tmp_path / "out.csv"
    assert main(["check", str(path), "--out", str(out)]) == 1
    told = capsys.readouterr()
    assert "2 hoses: 0 hold, 1 are open, 1 fail, 0 could not be read." in told.err and "unread: tag." in told.err
    rows = list(csv.DictReader(out.read_text(encoding="utf-8").splitlines()))
    assert [row["tag"] for row in rows] == ["A1", "'=A2"] and set(WRITES) <= set(rows[0])
    assert [row["hose_there"] for row in rows] == ["fits", "fails"]
    before = out.read_bytes()
    assert main(["check", str(path), "--out", str(out)]) == 2
    assert "exists already" in capsys.readouterr().err and out.read_bytes() == before


def test_a_semicolon_and_a_decimal_comma_are_read(tmp_path: Path, on: Bench) -> None:
    text = (HEAD + SAFE.replace("180 bar", "180.5 bar")).replace(",", ";").replace("180.5", "180,5")
    (found,) = checked(tmp_path, text, on)
    assert found.cells["hose_there"] == "fits"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty"),
        ("\n\n", "empty"),
        ("tag,position\nA1,3\n", "no column is a fact"),
        ("tag,working_presure\nA1,3\n", "the column working_presure is no fact; write working_pressure"),
        ("bore,bore\n8,8\n", "the column bore stands twice"),
        ("bore,outcome\n8,x\n", "the column outcome is one that the check writes"),
        ("bore,medium\n8,hm,46\n", "line 2: 3 cells under 2 columns"),
        ('bore,medium\n8,"hm\n', "line 2: not CSV"),
    ],
)
def test_a_file_that_will_not_do_is_told_in_a_line(
    tmp_path: Path, text: str, says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    path = register(tmp_path, text)
    with pytest.raises(FileError, match=r"^hoses\.csv: ") as caught:
        read_register(path)
    assert says in str(caught.value)
    assert main(["check", str(path)]) == 2
    assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.parametrize("data", [b"bore\n\xff\xfe8\n", b"bore\n8\0\n"])
def test_bytes_that_are_no_text_are_told(tmp_path: Path, data: bytes) -> None:
    path = tmp_path / "hoses.csv"
    path.write_bytes(data)
    with pytest.raises(FileError, match="save it as CSV UTF-8"):
        read_register(path)


def test_a_file_that_is_not_there(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", str(tmp_path / "none.csv")]) == 2
    assert "no such file" in capsys.readouterr().err
