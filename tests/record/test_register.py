"""A register of hoses, a row each: what holds, what does not and why, and what a bad file is told."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from interview.catalogue import CATALOGUE
from interview.cli import main
from interview.dialogue.safety_texts import safety_texts
from interview.dialogue.session import bench
from interview.record.register import WRITES, Checked, _read, check_register, read_register, tally
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
        (SAFE.replace(",none", ",road_brake"), "fails", "", "road brake: This stops here"),
        (SAFE.replace(",none", ","), "open", "fits", ""),
        (SAFE.replace("180 bar", "180 apples"), "unread", "", "working_pressure: '180 apples': 'apples' is not"),
        (SAFE.replace("en853-2sn", "en853-9xx"), "unread", "", "old_construction: 'en853-9xx': not in the tables"),
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
    assert found.cells["open"] == "" and "not_read" not in found.cells
    assert tally([found]) == "1 hose: 1 holds, 0 are open, 0 fail, 0 could not be read."
    # The same with a date nobody can read, without the hose's name, and with the ends not named.
    dated = head.strip() + ",hose_date\n" + SAFE.strip() + rest.strip()
    nameless = head + SAFE.strip().replace("en853-2sn", "") + rest
    endless = head + SAFE.strip() + rest.replace("orfs,-8,female", "?,?,?")
    for text in (f"{dated},31Q99\n", nameless, endless):
        (found,) = checked(tmp_path, text, on)
        assert found.stands == "open", text
    (found,) = checked(tmp_path, f"{dated},3Q25\n", on)
    assert found.stands == "holds"


def test_the_answer_keeps_the_rows_and_adds_to_them(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    weak = SAFE.replace("A1", "=A2").replace("en853-2sn", "en853-1sn")
    path, out = register(tmp_path, HEAD + SAFE + weak), tmp_path / "out.csv"
    assert main(["check", str(path), "--out", str(out)]) == 1
    told = capsys.readouterr()
    assert "2 hoses: 0 hold, 1 is open, 1 fails, 0 could not be read." in told.err and "unread: tag." in told.err
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


# ---- cells -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("date", ["2012", "31Q99", "long ago"])
def test_a_date_that_cannot_be_read_is_left_out_and_named(tmp_path: Path, on: Bench, date: str) -> None:
    (found,) = checked(tmp_path, HEAD.strip() + ",hose_date\n" + SAFE.strip() + f",{date}\n", on)
    assert (found.stands, found.cells["hose_there"]) == ("open", "fits")
    told = str(found.cells["not_read"])
    assert told.startswith(f"hose_date: {date!r}: ") and "a quarter 2026-Q1 would do" in told


def test_every_bad_cell_of_a_row_is_named(tmp_path: Path, on: Bench) -> None:
    row = SAFE.replace("180 bar", "lots").replace(",hm,", ",oily,").replace("30 L/min", "a bit")
    (found,) = checked(tmp_path, HEAD + row, on)
    assert found.stands == "unread"
    for column, read in (("working_pressure", "lots"), ("medium", "oily"), ("flow_rate", "a bit")):
        assert f"{column}: {read!r}: " in str(found.cells["why"])


@pytest.mark.parametrize(("column", "number"), [("180 bar", "3000"), ("220 bar", "4500")])
def test_a_pressure_that_only_lacks_its_unit_is_told_so(tmp_path: Path, on: Bench, column: str, number: str) -> None:
    (found,) = checked(tmp_path, HEAD + SAFE.replace(column, number), on)
    assert found.stands == "unread"
    assert f"{number!r}: no unit, and in bar it cannot be" in str(found.cells["why"])
    assert "with its unit, like 2500 psi or 172 bar would do" in str(found.cells["why"])


@pytest.mark.parametrize("word", ["?", "don't know", "Unknown", "not known", "don’t know"])
def test_a_dont_know_in_a_cell_is_one(tmp_path: Path, on: Bench, word: str) -> None:
    rows = (SAFE.replace("180 bar,220 bar", f"{word},{word}").replace(",none", f",{said}") for said in ("", word))
    blank = SAFE.replace("180 bar,220 bar", ",").replace(",none", ",")
    *told, empty = checked(tmp_path, HEAD + "".join(rows) + blank, on)
    assert all(found == empty for found in told)
    assert empty.stands == "open" and "working pressure" in str(empty.cells["open"])


def test_what_would_do_is_offered_in_words(tmp_path: Path, on: Bench) -> None:
    row = SAFE.replace("en853-2sn", "en853-2sx").replace(",hm,", ",hmx,").replace(",none", ",trains")
    told = str(checked(tmp_path, HEAD + row.replace("A1,pressure", "A1,sideways"), on)[0].cells["why"])
    assert "en853-2sn (EN 853 / ISO 1436 2SN)" in told
    assert "hm (anti-wear hydraulic oil)" in told
    assert "case drain" in told and "road brake" in told and "_" not in told.split("line_function")[1].split("|")[0][1:]


def test_an_end_of_no_table_is_named_and_other_ends_are_said_so(tmp_path: Path, on: Bench) -> None:
    head = HEAD.strip() + ",end_a_family\n"
    strange, other, trade = checked(
        tmp_path, head + "".join(f"{SAFE.strip()},{end}\n" for end in ("orfz", "other", "JIC")), on
    )
    assert strange.stands == "unread" and "end_a_family: 'orfz': not in the tables; one like orfs (" in str(
        strange.cells["why"]
    )
    assert other.stands == trade.stands == "open"


def test_every_choice_offered_in_words_is_read_in_words(on: Bench) -> None:
    for name, spec in CATALOGUE.items():
        for choice in spec.choices:
            heard = _read(name, choice.replace("_", " "), on)
            assert choice in (heard.value if isinstance(heard.value, tuple) else (heard.value,)) or choice == "none"


def test_a_row_that_is_short_is_said(tmp_path: Path, on: Bench) -> None:
    (found,) = checked(tmp_path, HEAD + "A1,pressure,en853-2sn,8,180 bar,220 bar,hm\n", on)
    assert found.stands == "open"
    told = str(found.cells["not_read"])
    assert told.startswith("the row has 7 cells under 13 columns; not known: viscosity_grade, ")
    assert told.endswith("regulated_use")


# ---- the hose there and the hose that would be built -----------------------------------------------------------------


def test_a_size_that_a_construction_is_not_made_in_is_said(tmp_path: Path, on: Bench) -> None:
    """EN 857 2SC ends at DN 25 (standard as restated)."""
    (found,) = checked(tmp_path, HEAD + SAFE.replace("en853-2sn,8", "en857-2sc,20"), on)
    assert (found.stands, found.cells["hose_there"]) == ("open", "")
    assert str(found.cells["why"]).startswith(
        "EN 857 / ISO 11237 2SC is not made in the size named, 1-1/4 in (-20, DN 31); read the print again."
    )


def test_advice_about_the_hose_there_names_it_where_another_would_be_built(tmp_path: Path, on: Bench) -> None:
    strong = SAFE.replace("en853-2sn", "en857-2sc").replace("180 bar,220 bar", "350 bar,380 bar")
    other, same = checked(tmp_path, HEAD + strong + SAFE.replace("en853-2sn", "en857-2sc"), on)
    assert "4SP" in str(other.cells["would_build"])
    assert str(other.cells["advice"]).startswith("of EN 857 / ISO 11237 2SC, 1/2 in (-8, DN 12), the hose there: ")
    assert "the hose there" not in str(same.cells["advice"])


@pytest.mark.parametrize(
    ("use", "begins"), [("road_brake", "road brake: This stops here."), ("oxygen", "oxygen: This stops here.")]
)
def test_a_referred_row_names_the_use_and_where_to_go(tmp_path: Path, on: Bench, use: str, begins: str) -> None:
    (found,) = checked(tmp_path, HEAD + SAFE.replace(",none", f",{use}"), on)
    assert (found.stands, found.cells["outcome"]) == ("fails", "referred")
    assert str(found.cells["why"]).startswith(begins)
    assert str(found.cells["why"]).endswith(safety_texts().regulated[use].where)


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
