"""Does every entry of the phrasebook say what it claims, and does a faulty file say where?"""

from __future__ import annotations

from pathlib import Path

import pytest

from interview.catalogue import CATALOGUE, Kind
from interview.language.line import take_apart
from interview.language.listen import listen
from interview.language.phrasebook import Entry, PhrasebookError, mend, phrasebook, read_phrasebook

BOOK = phrasebook()


def _ids(entries: list[Entry]) -> list[str]:
    return [entry.where for entry in entries]


FACTS = [e for e in BOOK.entries if e.section == "facts"]
ENDS = [e for e in BOOK.entries if e.section == "ends"]
CUES = [e for e in BOOK.entries if e.section == "cues"]
MARKS = [e for e in BOOK.entries if e.section == "marks"]


@pytest.mark.parametrize("entry", FACTS, ids=_ids(FACTS))
def test_the_example_of_a_fact_is_heard(entry: Entry) -> None:
    heard = {h.name: h.value for h in listen(entry.example).facts}
    for name, value in entry.gives:
        if CATALOGUE[name].kind is Kind.MANY:
            assert set(value) <= set(heard.get(name, ())), entry.example  # type: ignore[arg-type]
        else:
            assert heard.get(name) == value, entry.example


@pytest.mark.parametrize("entry", ENDS, ids=_ids(ENDS))
def test_the_example_of_an_end_is_heard(entry: Entry) -> None:
    says = dict(entry.gives)
    heard = {h.name: h.value for h in listen(entry.example).facts}
    for key in ("family", "gender", "form", "swivel", "seal", "metal"):
        if key in says:
            want: object = says[key] == "yes" if key == "swivel" else says[key]
            assert want in (heard.get(f"end_a_{key}"), heard.get(f"end_b_{key}")), (entry.example, heard)


@pytest.mark.parametrize("entry", CUES, ids=_ids(CUES))
def test_the_example_of_a_cue_is_heard(entry: Entry) -> None:
    if entry.tag not in CATALOGUE:
        assert any(cue.tag == entry.tag for cue in take_apart(entry.example, (), "metric").cues), entry.example
        return
    assert entry.tag in {h.name for h in listen(entry.example).facts}, entry.example


@pytest.mark.parametrize("entry", MARKS, ids=_ids(MARKS))
def test_the_example_of_a_mark_is_heard(entry: Entry) -> None:
    assert any(mark.tag == entry.tag for mark in take_apart(entry.example, (), "metric").marks), entry.example


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        (
            "facts:\n  - gives: {wear: rubbing}\n    say: [rubs]\n    example: rubs\n  - gives: {wer: rubbing}\n    "
            "say: [x]\n    example: x\n",
            5,
            "not a fact",
        ),
        ("facts:\n  - gives: {wear: sore}\n    say: [rubs]\n    example: rubs\n", 2, "no choice of wear"),
        ("facts:\n  - gives: {wear: rubbing}\n    say: ['(rubs']\n    example: rubs\n", 2, "not closed"),
        ("facts:\n  - gives: {wear: rubbing}\n    say: [rubs]\n", 2, "example"),
        ("cues:\n  - cue: presure\n    say: [x]\n    example: x\n", 2, "not a fact"),
        ("fax:\n  - say: [x]\n", 1, "not a list of one of"),
        ("facts:\n  - gives: {vibration: 3}\n    say: [x]\n    example: x\n", 2, "yes or no"),
        ("facts:\n  - [\n", 3, "not YAML"),
    ],
)
def test_a_faulty_file_is_told_with_its_line(tmp_path: Path, text: str, line: int, words: str) -> None:
    file = tmp_path / "phrasebook.yaml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(PhrasebookError) as caught:
        read_phrasebook(file)
    assert str(caught.value).startswith(f"phrasebook.yaml:{line}:"), caught.value
    assert words in str(caught.value)


@pytest.mark.parametrize(
    ("slip", "word"),
    [
        ("preasure", "pressure"),
        ("vaccum", "vacuum"),
        ("swivle", "swivel"),
        ("accumlator", "accumulator"),
        ("femaile", "female"),
        ("vibraton", "vibration"),
    ],
)
def test_slips_in_words_are_mended(slip: str, word: str) -> None:
    assert mend(slip) == word


@pytest.mark.parametrize(
    "word", "retain section retrain pivot steal stream house break bust mail meter marine horse battle coil".split()
)
def test_sound_words_are_not_taken_for_slips(word: str) -> None:
    assert mend(word) == word
