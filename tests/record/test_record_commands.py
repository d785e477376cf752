"""What do `records …` and the lines about records print, and what do they refuse in a sentence?"""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from record_jobs import SAWMILL, changed, fact_data, with_customer

from interview.cli import main
from interview.record.store import open_store
from interview.record.store.commands import listed


@pytest.fixture
def kept(tmp_path: Path) -> tuple[str, str, str]:
    """The store, and the numbers of two records in it: the first revised once."""
    url = str(tmp_path / "records.sqlite")
    with open_store(url) as store:
        first = store.save(SAWMILL).number
        store.revise(first, changed(facts={"quantity": fact_data(3.0)}), based_on=1)
        second = store.save(with_customer("Kilnbank Brick")).number
    return url, first, second


def told(capsys: pytest.CaptureFixture[str], url: str, *words: str) -> tuple[int, str, str]:
    code = main(["records", *words, "--store", url])
    caught = capsys.readouterr()
    return code, caught.out, caught.err


def test_a_word_finds_by_customer_machine_tag_or_number(
    kept: tuple[str, str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    url, first, second = kept
    for word, numbers in (("kilnbank", {second}), ("turner", {first, second}), ("LT-07", {first, second})):
        _, out, _ = told(capsys, url, "find", word)
        assert {line.split()[0] for line in out.splitlines()} == numbers
    for number in (first, second):
        assert told(capsys, url, "find", number.lower())[1].startswith(f"{number} r")
    _, out, _ = told(capsys, url, "find", "turner", "--customer", "kilnbank")
    assert [line.split()[0] for line in out.splitlines()] == [second]
    _, out, _ = told(capsys, url, "list", "--json")
    assert [json.loads(line)["number"] for line in out.splitlines()] == [second, first]  # the newest first
    with open_store(url) as store:
        assert [line.split()[0] for line in listed(store, "kilnbank")] == [second]
    assert told(capsys, url, "find", "nobody")[1] == f"No records in {url}.\n"


def test_a_list_goes_into_a_file_for_a_spreadsheet(
    kept: tuple[str, str, str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    url, first, second = kept
    file = tmp_path / "list.csv"
    code, out, _ = told(capsys, url, "list", "--out", str(file))
    assert (code, out) == (0, f"{file}\n")
    rows = list(csv.DictReader(file.read_text(encoding="utf-8").splitlines()))
    assert [(row["number"], row["revision"]) for row in rows] == [(second, "1"), (first, "2")]


def test_two_revisions_are_compared_and_one_is_shown(
    kept: tuple[str, str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    url, first, _ = kept
    for words in ((), ("1",), ("1", "2")):
        assert told(capsys, url, "compare", first, *words)[1] == "quantity: 2 (stated) -> 3 (stated)\n"
    assert told(capsys, url, "compare", first, "2", "2")[1] == "No difference.\n"
    assert f"Record {first}, revision 1" in told(capsys, url, "show", first.lower(), "1")[1]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("show", "{0}", "two"), "two is no revision; a revision is a whole number, for example 2"),
        (("compare", "{0}", "1", "0"), "0 is no revision"),
        (("compare", "{0}", "1", "-"), "- is no revision"),
        (("show", "{0}", "9"), "There is no record {0} with a revision 9"),
        (("show",), "the record's number is missing"),
        (("burn", "{0}"), "records burn: no such action; there are list"),
        (("import",), "the file is missing"),
        (("import", "nowhere.json"), "nowhere.json: cannot be read"),
    ],
)
def test_what_cannot_be_done_is_said_in_one_line(
    kept: tuple[str, str, str], capsys: pytest.CaptureFixture[str], words: tuple[str, ...], says: str
) -> None:
    url, first, _ = kept
    code, out, err = told(capsys, url, *(word.format(first) for word in words))
    assert (code, out) == (2, "") and says.format(first) in err and err.count("\n") == 1


@pytest.mark.parametrize(("action", "goes_on"), [("revise", True), ("repeat", False)])
def test_a_kept_record_is_gone_on_with_in_the_interview(
    kept: tuple[str, str, str],
    action: str,
    goes_on: bool,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    url, first, _ = kept
    monkeypatch.setenv("HOSEWRIGHT_STATE", str(tmp_path))
    monkeypatch.setattr("sys.stdin", io.StringIO("save\nquit\n"))
    assert told(capsys, url, action, first.lower())[0] == 0
    with open_store(url) as store:
        assert [row.revision for row in store.history(first)][-1] == (3 if goes_on else 2)
        assert store.count() == (2 if goes_on else 3)


def test_a_record_that_is_not_there_opens_no_interview(
    kept: tuple[str, str, str], capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, err = told(capsys, kept[0], "revise", "9999-0001")
    assert code == 2 and not out and "9999-0001" in err and err.count("\n") == 1


def test_a_long_list_says_that_there_is_more(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    url = str(tmp_path / "many.sqlite")
    with open_store(url) as store:
        for _ in range(51):
            store.save(SAWMILL)
    _, out, _ = told(capsys, url, "list")
    assert len(out.splitlines()) == 51 and out.splitlines()[-1].startswith("The newest 50 of 51:")
    assert "The newest" not in told(capsys, url, "list", "--json")[1]
