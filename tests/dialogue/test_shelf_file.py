"""What does a shelf file say, and what is a bad one told? One line: file, line, what is wrong, what would do."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from interview.dialogue.session import Session, bench
from interview.dialogue.shelf_file import COLUMNS, load_shelf
from interview.dialogue.shelf_view import shelf_lines
from interview.selection.judge import Bench
from interview.selection.shelf import Item
from interview.yaml_file import FileError

HEAD = "item,hose,bore,left,rating,document,dated,made,non_conductive\n"
DAY = date(2026, 11, 25)


def read(folder: Path, text: str) -> tuple[Item, ...]:
    path = folder / "shelf.csv"
    path.write_text(text, encoding="utf-8")
    return load_shelf(path, bench(shelved=False).rules, DAY)


def test_an_item_as_a_shop_writes_it(tmp_path: Path) -> None:
    (one,) = read(tmp_path, HEAD + 'bin 14,EN 857 2SC,1/2,42 m,"5,000 psi",sheet 12,2026-03-01,3Q25,no\n')
    assert (one.name, one.construction, one.bore, one.left, one.left_said) == ("bin 14", "en857-2sc", 8, 42, "42 m")
    assert one.psi == pytest.approx(5000) and one.rating == pytest.approx(34_473_786.466)  # NIST SP 811 B.9
    assert (one.document, one.dated, one.made) == ("sheet 12", "2026-03-01", "2025-Q3")
    assert one.proven and not one.non_conductive and not one.too_old


def test_the_first_three_columns_are_enough_and_others_are_left_unread(tmp_path: Path) -> None:
    found = read(tmp_path, "price;bore;item;hose\n12,50;DN 16;bin 2;2SN\n\n;-8;bin 3;R1AT\n")
    assert [(i.name, i.construction, i.bore) for i in found] == [
        ("bin 2", "en853-2sn", 10),
        ("bin 3", "saej517-100r1at", 8),
    ]


@pytest.mark.parametrize(
    ("made", "too_old"),
    [
        ("4Q22", True),
        ("3Q22", True),
        ("2022-11-25", False),
        ("2022-11-01", True),
        ("2022", True),
        ("2023", False),
        ("", False),
    ],
)
def test_a_hose_is_as_old_as_it_may_be(tmp_path: Path, made: str, too_old: bool) -> None:
    """Four years at build (DESIGN, House rules), from the first day the date leaves open."""
    (one,) = read(tmp_path, f"item,hose,bore,made\nbin 1,2SN,-8,{made}\n")
    assert one.too_old is too_old


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "shelf.csv: empty; the first line names the columns"),
        ("hose,bore\n2SN,-8\n", "line 1: no column item; the columns are item,hose,bore"),
        (HEAD.replace("rating", "ratng"), "line 1: the column ratng is not read; name it rating"),
        ("item,hose,bore,item\n", "line 1: the column item stands twice"),
        (HEAD + "bin 1,,-8\n", "line 2: no hose; every item needs item, hose, bore"),
        (HEAD + "bin 1,2SN,12\n", "line 2: bore: '12': 12 of what? -12, DN 12 or the size in inches would do"),
        (HEAD.replace("rating", "WP"), "line 1: the column WP is not read; name it one of left, rating"),
        (HEAD.replace("made", "Manufactured"), "line 1: the column Manufactured is not read"),
        (HEAD.replace("left", "Left (m)"), "line 1: the column Left (m) is not read; name it one of left"),
        (HEAD + "bin 1,2SN 4000 psi,-8\n", "line 2: hose: '2SN 4000 psi': a pressure goes into the column rating"),
        (HEAD + "bin 1,2SN,-8,,400 bar,none,2026-03-01\n", "line 2: document: 'none' names no document"),
        (HEAD + "bin 1,2SN,-8,,400 bar,x,2026-03-01\n", "line 2: document: 'x' names no document"),
        (HEAD + "bin 1,2SN,-8,,400 bar,#N/A,2026-03-01\n", "line 2: document: '#N/A' names no document"),
        (HEAD + "bin 1,2SN,-8,,400 bar,sheet 1,2031-03-01\n", "line 2: dated: '2031-03-01' has not come yet"),
        (HEAD + "bin 1,2SN,-8,,,,,1Q31\n", "line 2: made: '1Q31' has not come yet"),
        (HEAD + "bin 1,2SN,-8,,900 bar,sheet 1,2026-03-01\n", "the standard's row says 275 bar (3,980 psi)"),
        (HEAD + "bin 1,2SN,-8,,6.500 psi\n", "the standard's row says 275 bar (3,980 psi); read the document again"),
        (HEAD + "bin 1,2SN,-8,,about 250 bar\n", "line 2: rating: 'about 250 bar': one figure, and surely"),
        (HEAD + "bin 1,2SN,-8,0 m\n", "line 2: left: '0 m'"),
        (HEAD + "bin 1,2SN,46024\n", "line 2: bore: '46024': 46024 of what? -8, 1/2 or DN 12 would do"),
        (HEAD + "bin 1,R5,-7\n", "line 2: bore: '-7': the tables have 100R5"),
        (HEAD + "bin 1,2SN,0.5\n", "line 2: bore: '0.5': 0.5 of what? 0.5 in or 0.5 mm would do"),
        (HEAD + "bin 1,2SN,3-Apr\n", "line 2: bore: '3-Apr': 'apr' is no word for a size; a date made of a fraction?"),
        (HEAD + "bin 1,2SN,04. Mrz\n", "line 2: bore: '04. Mrz': 'mrz' is no word"),
        (HEAD + "bin 1,2SN,-8,42\n", "line 2: left: '42': 42 of what? 42 m or 42 ft would do"),
        (HEAD + "bin 1,2SN,-8,,400\n", "line 2: rating: '400': 400 of what? 400 bar or 400 psi would do"),
        (HEAD + "bin 1,2SN,-8,,300 to 400 bar\n", "line 2: rating: '300 to 400 bar'"),
        (HEAD + "bin 1,2SN,-8,,400 apples\n", "line 2: rating: '400 apples'"),
        (HEAD + "bin 1,2SN,-28\n", "line 2: bore: '-28': the tables have 2SN in -3, -4"),
        (HEAD + "bin 1,9ZZ,-8\n", "line 2: hose: "),
        (HEAD + "bin 1,en853-9zz,-8\n", "one like en853-"),
        (HEAD + "bin 1,2SN,-8\n\nbin 1,2SC,-8\n", "line 4: the item bin 1 stands twice"),
        (HEAD + "bin 1,2SN,-8,,,,,soon\n", "line 2: made: 'soon'"),
        (HEAD + "bin 1,2SN,-8,,,,,,perhaps\n", "line 2: non_conductive: 'perhaps'"),
        (HEAD + "bin 1,2SN,-8,,,,,,,,,x\n", "line 2: 12 cells under 9 columns"),
        (HEAD + 'bin 1,"2SN,-8\n', "line 2: not CSV"),
        (HEAD + "bin 1,2SN,-8,\0\n", "holds bytes that are no text"),
    ],
)
def test_a_bad_file_is_told_so_in_one_line(tmp_path: Path, text: str, told: str) -> None:
    with pytest.raises(FileError) as error:
        read(tmp_path, text)
    assert told in str(error.value) and "\n" not in str(error.value)
    assert str(error.value).startswith("shelf.csv: ")


def test_what_an_item_bears_is_said_with_whose_word_it_is(tmp_path: Path) -> None:
    on = bench(shelved=False)
    items = read(
        tmp_path, HEAD + "a,2SC,-8,9 m\nb,2SC,-8,,400 bar\nc,2SC,-8,,400 bar,sheet 12,2026-03-01\nd,2SN,-8,,,,,1Q19\n"
    )
    text = "\n".join(shelf_lines(Bench.of(on.tables, on.connections, on.rules, items), "metric"))
    assert "a: EN 857 / ISO 11237 2SC, 1/2 in (-8, DN 12), bears 275 bar (3,980 psi); 9 m left\n" in text
    assert "Shelf item b is entered with 400 bar (5,800 psi); without the maker's document and its date" in text
    assert (
        "bears 400 bar (5,800 psi)\n  by the hose maker's rating of shelf item c: sheet 12, 2026-03-01 (maker)" in text
    )
    assert "Shelf item d is of 2019-Q1, older than the 4 years that hose may have at build" in text
    assert text.endswith("4 items, 3 to be built from")


def test_the_interview_offers_what_is_on_the_shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "shelf.csv"
    path.write_text("item,hose,bore,left\nbin 7,4SP,-8,60 ft\n", encoding="utf-8")
    monkeypatch.setenv("HOSEWRIGHT_SHELF", str(path))
    session = Session()
    session.open()
    session.say("burst hose, pressure line, -8, 150 bar, peaks 200 bar, HLP 46, oil to 70C, yard -10 to 35C, 40 l/min")
    first = session.fit_lines(3).lines[0]
    assert (first.construction, first.recommended, first.shelf) == ("en856-4sp", True, "bin 7, 60 ft left")
    session.say("800 mm long")
    assert session.fit_lines(1).lines[0].shelf == "bin 7, 60 ft left"
    session.say("no, 20 m long")
    assert session.fit_lines(1).lines[0].construction != "en856-4sp"


def test_the_columns_are_named_in_one_place() -> None:
    assert HEAD.strip().split(",") == list(COLUMNS)


def test_hose_printed_with_its_tube_is_found_by_its_print(tmp_path: Path) -> None:
    """SAE J517 100R5 -8 is printed for a 1/2 in tube and has a bore of 13/32 in (6.5 sixteenths)."""
    found = read(tmp_path, "item,hose,bore\na,R5,-8\nb,R5,13/32\nc,R5,13/32 in\nd,2SN,-8\n")
    assert [i.bore for i in found] == [6.5, 6.5, 6.5, 8]


def test_a_reel_and_what_a_terminal_would_obey(tmp_path: Path) -> None:
    (one,) = read(tmp_path, "item,hose,bore,left\n\x1b[31mS,2SC,-8,100 m\n")
    assert (one.name, one.left) == ("[31mS", 100)
