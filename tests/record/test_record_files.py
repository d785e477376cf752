"""Does a document reach the disk whole or not at all, never over another, readable by its owner only?"""

from __future__ import annotations

import errno
import os
import stat
from pathlib import Path

import pytest
from record_jobs import SAWMILL, changed, fact_data

from interview.record.documents.files import DocumentError, document_name, safe_name, write_document
from interview.record.documents.page import Filed


def left_in(folder: Path) -> list[str]:
    return sorted(p.name for p in folder.iterdir())


def test_a_new_file_is_written_whole_and_private(tmp_path: Path) -> None:
    path = write_document(tmp_path / "record.md", "Grüße\n")
    assert path.read_bytes() == "Grüße\n".encode()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert left_in(tmp_path) == ["record.md"]


def test_an_existing_file_is_left_alone_until_told(tmp_path: Path) -> None:
    path = tmp_path / "record.md"
    path.write_text("old")
    with pytest.raises(DocumentError, match="exists already and was left as it is"):
        write_document(path, "new")
    assert path.read_text() == "old"
    assert write_document(path, "new", overwrite=True).read_text() == "new"
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert left_in(tmp_path) == ["record.md"]


def test_a_file_made_meanwhile_by_somebody_else_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "record.md"
    real = os.fsync

    def fsync(handle: int) -> None:
        real(handle)
        if not path.exists():
            path.write_text("theirs")

    monkeypatch.setattr(os, "fsync", fsync)
    with pytest.raises(DocumentError, match="exists already"):
        write_document(path, "ours")
    assert path.read_text() == "theirs" and left_in(tmp_path) == ["record.md"]


def test_without_hard_links_the_name_is_claimed_first(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def link(*_: object, **__: object) -> None:
        raise OSError(errno.EPERM, "no hard links here")

    monkeypatch.setattr(os, "link", link)
    assert write_document(tmp_path / "a.md", "one").read_text() == "one"
    with pytest.raises(DocumentError, match="exists already"):
        write_document(tmp_path / "a.md", "two")
    assert (tmp_path / "a.md").read_text() == "one" and left_in(tmp_path) == ["a.md"]


@pytest.mark.parametrize(
    ("code", "words"),
    [
        (errno.ENOSPC, "is full; nothing was written"),
        (errno.EDQUOT, "is full; nothing was written"),
        (errno.EROFS, "can only be read"),
        (errno.EACCES, "is not allowed"),
        (errno.EIO, "could not be written"),
    ],
)
@pytest.mark.parametrize("overwrite", [False, True])
def test_a_failing_disk_leaves_everything_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int, words: str, overwrite: bool
) -> None:
    path = tmp_path / "record.md"
    if overwrite:
        path.write_text("old")
    before = left_in(tmp_path)

    def fsync(_: int) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(os, "fsync", fsync)
    with pytest.raises(DocumentError, match=words):
        write_document(path, "new" * 1000, overwrite=overwrite)
    assert left_in(tmp_path) == before
    assert not overwrite or path.read_text() == "old"


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no disk that is always full")
def test_a_device_is_never_written_over() -> None:
    with pytest.raises(DocumentError, match="not an ordinary file"):
        write_document("/dev/full", "x", overwrite=True)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("", "A file name is needed"),
        ("missing/record.md", "There is no folder"),
        ("folder", "is a folder"),
        ("folder/", "names a folder"),
        ("file/record.md", "is not a folder|could not be written"),
        ("a\x00b.md", "control character"),
        ("a\x1b[31mb.md", "control character"),
        ("a\u202edm.exe", "hidden sign"),
        ("n" * 300 + ".md", "too long"),
        ("..", "folder"),
    ],
)
def test_a_name_that_will_not_do_is_refused_with_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, words: str
) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "file").write_text("x")
    monkeypatch.chdir(tmp_path)
    with pytest.raises(DocumentError, match=words):
        write_document(name, "x", overwrite=True)
    assert left_in(tmp_path) == ["file", "folder"]


@pytest.mark.parametrize(
    ("said", "name"),
    [
        ("Fernleigh Sawmill", "fernleigh-sawmill"),
        ("../../etc/passwd", "etc-passwd"),
        ("C:\\temp\\x", "c-temp-x"),
        ("CON", "x-con"),
        ("Müller & Söhne", "muller-sohne"),
        ("שלום", "שלום"),
        ("a\x00b\u202ec", "a-b-c"),
        ("  ", ""),
        ("x" * 10_000, "x" * 40),
    ],
)
def test_words_of_customers_make_safe_names(said: str, name: str) -> None:
    assert safe_name(said) == name


def test_the_name_of_a_document_says_what_it_is() -> None:
    assert document_name(SAWMILL, "build sheet", "pdf", Filed("260302-7K3Q", 2)) == (
        "build-sheet-fernleigh-sawmill-log-turner-deck-2-260302-7k3q-r2.pdf"
    )
    bad = changed(facts={"customer": fact_data("../" * 50), "machine": fact_data('a/b\\c:d*?"<>|' * 20)})
    name = document_name(bad, "record", "md")
    assert not set(name) & set('/\\:*?"<>|') and len(name) <= 130 and name.endswith(".md")


def test_bytes_are_written_as_they_are(tmp_path: Path) -> None:
    path = write_document(str(tmp_path / "x.pdf"), b"%PDF-1.4\r\n\x00\xff")
    assert path.read_bytes() == b"%PDF-1.4\r\n\x00\xff"
