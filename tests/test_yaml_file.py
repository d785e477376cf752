"""How is one of our YAML files read? Duplicates, surprises of YAML 1.1, lines, and everything malformed."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import BaseModel, ConfigDict

from interview.yaml_file import LARGEST, FileError, faults_of, parse_yaml, read_yaml, validated


class Inner(BaseModel):
    model_config = ConfigDict(extra="forbid")
    name: str
    size: float = 0.0


class Outer(BaseModel):
    model_config = ConfigDict(extra="forbid")
    title: str
    parts: tuple[Inner, ...] = ()
    by_name: dict[str, Inner] = {}


def fault(text: str) -> str:
    with pytest.raises(FileError) as caught:
        validated(parse_yaml(text, "shop.yaml"), Outer)
    assert "\n" not in str(caught.value)
    return str(caught.value)


@pytest.mark.parametrize(
    ("written", "read"),
    [
        # YAML 1.1 turns these into booleans, sexagesimals, octals, dates and floats; here they stay what was written.
        ("yes", "yes"),
        ("no", "no"),
        ("on", "on"),
        ("off", "off"),
        ("Yes", "Yes"),
        ("12:30", "12:30"),
        ("010", "010"),
        ("08", "08"),
        ("-08", "-08"),
        ("1_000", "1_000"),
        ("1e3", "1e3"),
        ("0x10", "0x10"),
        ("0o17", "0o17"),
        ("2026-03-01", "2026-03-01"),
        ("2026-Q3", "2026-Q3"),
        (".inf", ".inf"),
        (".nan", ".nan"),
        ('"8"', "8"),
        ("'true'", "true"),
        ("1/2", "1/2"),
        ("true", True),
        ("false", False),
        ("null", None),
        ("~", None),
        ("", None),
        ("8", 8),
        ("-8", -8),
        ("+8", 8),
        ("2.5", 2.5),
        ("0", 0),
        ("0.5", 0.5),
    ],
)
def test_only_plain_numbers_true_false_and_null_are_more_than_text(written: str, read: object) -> None:
    value = parse_yaml(f"key: {written}\n", "shop.yaml").data
    assert value == {"key": read}
    assert type(value["key"]) is type(read)  # type: ignore[index]


def test_a_key_is_always_text() -> None:
    assert parse_yaml("yes: 1\n8: 2\n", "shop.yaml").data == {"yes": 1, "8": 2}


def test_a_duplicate_key_is_an_error_with_its_line() -> None:
    assert (
        fault("title: one\nparts: []\ntitle: two\n")
        == "shop.yaml: line 3: the key 'title' stands twice; keep one of them"
    )
    assert "line 5" in fault("title: x\nby_name:\n  a:\n    name: x\n    name: y\n")


def test_an_unknown_key_is_an_error_with_its_line() -> None:
    found = fault("title: one\nparts:\n  - name: a\n  - name: b\n    colour: red\n")
    assert found.startswith("shop.yaml: line 5: parts.1.colour: no such key here")


def test_a_number_where_a_text_belongs() -> None:
    assert fault("title: 12\n").startswith("shop.yaml: line 1: title:")
    found = fault("title: one\nparts:\n  - name: a\n  - name: 7\n")
    assert found.startswith("shop.yaml: line 4: parts.1.name:") and "7" in found


def test_a_text_where_a_number_belongs() -> None:
    found = fault("title: one\nparts:\n  - {name: a, size: large}\n")
    assert found.startswith("shop.yaml: line 3: parts.0.size:") and "large" in found


def test_a_missing_key_names_the_nearest_line() -> None:
    assert fault("title: one\nparts:\n  - name: a\n  -\n    size: 3\n") == "shop.yaml: line 5: parts.1.name: missing"
    assert "title: missing" in fault("parts: []\n")


def test_a_misspelt_key_is_named_and_what_it_stands_for_is_not_told_missing() -> None:
    assert fault("titel: one\n") == "shop.yaml: line 1: titel: no such key here; title would do"
    assert (
        fault("title: one\nby_name:\n  x: {nome: y}\n")
        == "shop.yaml: line 3: by_name.x.nome: no such key here; name would do"
    )


def test_a_strange_key_names_those_there_are() -> None:
    assert fault("title: one\nparts:\n  - {name: a, colour: red}\n") == (
        "shop.yaml: line 3: parts.0.colour: no such key here; the keys here are name, size"
    )


def test_all_faults_in_the_order_of_the_file() -> None:
    file = parse_yaml("title: 12\nparts:\n  - {name: a, size: large}\ncolour: red\n", "shop.yaml")
    assert [str(f) for f in faults_of(file, Outer)] == [
        "shop.yaml: line 1: title: has to be text; put it in quotes where it looks like a number (read 12)",
        "shop.yaml: line 3: parts.0.size: has to be a plain number, like 2.5 (read 'large')",
        "shop.yaml: line 4: colour: no such key here; the keys here are title, parts, by_name",
    ]
    assert faults_of(parse_yaml("title: one\n", "shop.yaml"), Outer) == []


@pytest.mark.parametrize("text", ["", "- a\n- b\n", "just words\n", "42\n"])
def test_a_file_that_is_no_mapping(text: str) -> None:
    assert fault(text).startswith("shop.yaml: line 1: the file:")


def test_an_alias_that_contains_itself() -> None:
    found = fault("title: one\nby_name: &a\n  x: *a\n")
    assert "alias that contains itself" in found and "line" in found


def test_an_alias_bomb_ends() -> None:
    """Nine levels of nine aliases would be 400 million values; it must end in an error or quickly, never hang."""
    lines = ["a0: &a0 [x, x, x, x, x, x, x, x, x]"]
    lines += [f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]" for i in range(1, 9)]
    with pytest.raises(FileError):
        parse_yaml("\n".join(lines) + "\n", "shop.yaml")


def test_deep_nesting_is_an_error() -> None:
    for text in ("[" * 100 + "]" * 100, "[" * 100_000 + "]" * 100_000):
        with pytest.raises(FileError):
            parse_yaml(text, "shop.yaml")


@pytest.mark.parametrize(
    "text",
    [
        "title: [one\n",
        'title: "one\n',
        "title: one\n\tparts: []\n",
        "title: @one\n",
        "title: one\n parts: []\n",
        "%",
        "title: *nowhere\n",
        "? [a, b]\n: c\n",
        "{{a: 1}: 2}\n",
        "title: one\x00two\n",
        "a: b: c\n",
        "--- a\n--- b\n",
    ],
)
def test_what_is_not_yaml_is_told_with_its_line(text: str) -> None:
    with pytest.raises(FileError, match=r"^shop\.yaml: line \d+: ") as caught:
        parse_yaml(text, "shop.yaml")
    assert "\n" not in str(caught.value)


def test_the_line_of_a_syntax_error_is_right() -> None:
    with pytest.raises(FileError, match="line 3"):
        parse_yaml("title: one\nparts:\n  - name: @b\n", "shop.yaml")


def test_python_tags_are_never_objects() -> None:
    """`!!python/object/apply` must not run anything; at most it is text."""
    try:
        data = parse_yaml("title: !!python/object/apply:os.getcwd []\n", "shop.yaml").data
    except FileError:
        return
    assert data == {"title": []}


def test_lines_of_values() -> None:
    file = parse_yaml(
        "title: one\n\n# a comment\nparts:\n  - name: a\n    size: 1\n  - {name: b,\n     size: 2}\n", "shop.yaml"
    )
    assert file.line(("title",)) == 1
    assert file.line(("parts",)) == 4
    assert file.line(("parts", 0, "name")) == 5
    assert file.line(("parts", 0, "size")) == 6
    assert file.line(("parts", 1, "size")) == 8
    assert file.line(("parts", 1, "missing")) == 7
    assert file.line(("nowhere",)) == 1


@given(st.lists(st.tuples(st.sampled_from("abcdefgh"), st.integers(0, 3)), unique_by=lambda p: p[0], min_size=1))
def test_the_line_of_every_key_is_its_line(pairs: list[tuple[str, int]]) -> None:
    text, where = "", {}
    for key, blanks in pairs:
        text += "\n" * blanks
        where[key] = text.count("\n") + 1
        text += f"{key}: 1\n"
    file = parse_yaml(text, "shop.yaml")
    assert {key: file.line((key,)) for key in where} == where


@given(st.text(max_size=200))
def test_any_text_is_data_or_one_line_of_complaint(text: str) -> None:
    try:
        parse_yaml(text, "shop.yaml")
    except FileError as error:
        assert "\n" not in str(error)


# ---- files ---------------------------------------------------------------------------------------------------------


def test_a_file_of_two_megabytes_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "big.yaml"
    path.write_bytes(b"# " + b"x" * LARGEST)
    with pytest.raises(FileError, match="larger than 2 MB"):
        read_yaml(path)


@pytest.mark.parametrize(
    "raw", [b"title: \xff\xfe\n", b"\x89PNG\r\n\x1a\n\x00\x01", "title: größe\n".encode("latin-1")]
)
def test_a_file_that_is_not_utf_8(tmp_path: Path, raw: bytes) -> None:
    path = tmp_path / "odd.yaml"
    path.write_bytes(raw)
    with pytest.raises(FileError, match=r"^odd\.yaml: not text in UTF-8 \(byte \d+\)"):
        read_yaml(path)


def test_a_file_that_is_not_there_or_is_a_folder(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="cannot be read"):
        read_yaml(tmp_path / "missing.yaml")
    with pytest.raises(FileError, match="cannot be read"):
        read_yaml(tmp_path)


def test_lines_ending_in_cr_lf_and_a_byte_order_mark(tmp_path: Path) -> None:
    path = tmp_path / "windows.yaml"
    path.write_bytes("title: größe\r\nparts: []\r\n".encode())
    assert read_yaml(path).data == {"title": "größe", "parts": []}
    path.write_bytes("title: größe\r\n".encode("utf-8-sig"))
    assert read_yaml(path).data == {"title": "größe"}
