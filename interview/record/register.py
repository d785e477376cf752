"""Which hoses of a register hold? A row a hose: its facts in, the verdict on it and what would be built today out.

A column is named after a fact and holds it as a person would type it; a bare number is in the fact's JSON unit. Any
other column is carried along unread. What a row leaves out is a "don't know", never a pass.
"""

from __future__ import annotations

import difflib
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from interview.catalogue import CATALOGUE, Kind
from interview.csv_file import CsvFile, read_csv
from interview.dialogue.events import Referred
from interview.dialogue.flows import flow_files
from interview.dialogue.review import headline, nearest
from interview.dialogue.session import Session
from interview.dialogue.views import referral
from interview.dialogue.wording import PARTS, finding_sentence, hose_name, label, remark_sentence
from interview.language.model import Heard, Misread
from interview.language.read import read_knows
from interview.language.show import show
from interview.record.documents.csv_cells import csv_text
from interview.selection.assembly import assemble
from interview.selection.finding import Verdict
from interview.selection.judge import Bench
from interview.selection.outcome import Standing

MOST_TURNS = 200
JOB = "repeat"  # a hose that is in service and asked about again; the column job_kind says otherwise
WRITES = (
    "outcome",
    "ready_for",
    "hose_there",
    "why",
    "would_build",
    "carries_bar",
    "limited_by",
    "open",
    "advice",
    "not_read",
)
NOBODY_KNOWS = frozenset(("?", "??", "don't know", "dont know", "do not know", "don’t know", "unknown", "not known"))
OFFERED = 6  # ids offered in place of one that is not in the tables


@dataclass(frozen=True, slots=True)
class Register:
    """The rows as read, with the line each begins on."""

    name: str
    head: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]

    @property
    def facts(self) -> tuple[str, ...]:
        return tuple(name for name in self.head if name in CATALOGUE)

    @property
    def carried(self) -> tuple[str, ...]:
        """The columns that are not read."""
        return tuple(name for name in self.head if name not in CATALOGUE)


@dataclass(frozen=True, slots=True)
class Checked:
    """What a row came to: the columns of `WRITES`, and how it stands.

    holds: its hose passes every check, its ends are rated too and nothing is open; open: nothing fails, and something
    is not known well enough (or a cell was left out); fails: its hose does not hold, or no hose does, or it is not for
    a counter; unread: a cell that decides could not be read.
    """

    cells: Mapping[str, object]
    stands: Literal["holds", "open", "fails", "unread"]


def read_register(path: Path) -> Register:
    """A register from a CSV file (comma, semicolon or tab). Raises FileError: file, line, what is wrong."""
    file = read_csv(path, "machine,working_pressure")
    head = tuple(fact if (fact := name.lower()) in CATALOGUE else name for name in file.head)
    _check_head(file, head)
    return Register(file.name, head, file.rows)


def _check_head(file: CsvFile, head: Sequence[str]) -> None:
    file.no_column_twice(head)
    for column in head:
        if column in WRITES:
            raise file.error(file.head_line, f"the column {column} is one that the check writes; rename it")
        if column not in CATALOGUE and (meant := difflib.get_close_matches(column, CATALOGUE, 1, 0.85)):
            raise file.error(
                file.head_line, f"the column {column} is no fact; write {meant[0]}, or a name less like it"
            )
    if not any(column in CATALOGUE for column in head):
        raise file.error(
            file.head_line, "no column is a fact; name them like line_function, bore, working_pressure, medium"
        )


def check_register(register: Register, bench: Bench, home: str) -> Iterator[Checked]:
    """Each row judged by today's tables and rules, in the order of the file."""
    for _, cells in register.rows:
        short = register.head[len(cells) :]
        row = dict(zip(register.head, cells, strict=False))
        left_out = []
        if short:
            left_out.append(
                f"the row has {_count(len(cells), 'cell')} under {_count(len(register.head), 'column')}; not known: "
                f"{', '.join(short)}"
            )
        yield _checked(row, left_out, bench, home)


def _checked(row: Mapping[str, str], left_out: list[str], bench: Bench, home: str) -> Checked:
    said, wrong = _said(row, bench)
    left_out += [_named(column, error) for column, error in wrong if _is_date(column)]
    if decisive := [_named(column, error) for column, error in wrong if not _is_date(column)]:
        return Checked(
            {"outcome": "unread", "why": " | ".join(decisive), "not_read": " | ".join([*decisive, *left_out])}, "unread"
        )
    session = Session(home=home, job=str(said.pop("job_kind", Heard("job_kind", JOB)).value), on=bench)
    session.open()
    session.answer(said)
    for _ in range(MOST_TURNS):
        if session.finished or session.asked is None:
            break
        session.answer(dict.fromkeys(session.asked.parts))
    found = _told(session)
    if not left_out:
        return found
    # What is printed there and cannot be read may speak against the hose.
    stands = "open" if found.stands == "holds" else found.stands
    return Checked({**found.cells, "not_read": " | ".join(left_out)}, stands)


def _is_date(column: str) -> bool:
    """A date decides no verdict: a row is judged without it, and never holds."""
    return CATALOGUE[column].kind is Kind.DAY


def _named(column: str, error: Misread) -> str:
    return f"{column}: {error.read!r}: {error.why}; {error.would_do}"


def _said(row: Mapping[str, str], bench: Bench) -> tuple[dict[str, Heard], list[tuple[str, Misread]]]:
    """The cells of a row as facts, and every cell that cannot be read, with its column."""
    said: dict[str, Heard] = {}
    wrong: list[tuple[str, Misread]] = []
    for name, cell in row.items():
        if name not in CATALOGUE or not cell or cell.lower().rstrip(".") in NOBODY_KNOWS:
            continue
        try:
            said[name] = _read(name, cell, bench)
        except Misread as error:
            wrong.append((name, error))
    return said, wrong


def _read(name: str, cell: str, bench: Bench) -> Heard:
    """One cell as a fact. Raises Misread: what was read, why it will not do, what would."""
    spec, known = CATALOGUE[name], _known_ids(name, bench)
    value: object = cell.split("|") if spec.kind is Kind.MANY else _number(cell)
    try:
        heard = read_knows(name, [part.strip() for part in value] if isinstance(value, list) else value)
    except Misread as error:
        if spec.kind is Kind.QUANTITY and spec.unit and isinstance(value, float):
            without = f"no unit, and in {spec.unit} it cannot be: {error.why}"
            raise Misread(cell, without, f"the number with its unit, like {error.would_do}") from error
        if spec.choices:
            of = "any of" if spec.kind is Kind.MANY else "one of"
            words = ", ".join(choice.replace("_", " ") for choice in spec.choices)
            raise Misread(cell, error.why, f"{of} {words} would do") from error
        if known:
            raise _not_in(cell, known) from error
        raise Misread(cell, error.why, error.would_do) from error
    if known and str(heard.value) not in known:
        raise _not_in(cell, known)
    return heard


def _not_in(cell: str, known: Mapping[str, str]) -> Misread:
    close = difflib.get_close_matches(cell.lower(), known, OFFERED, 0.6) or list(known)[:OFFERED]
    more = ", ..." if len(known) > len(close) else ""
    words = ", ".join(f"{id_} ({known[id_]})" for id_ in close)
    return Misread(cell, "not in the tables", f"one like {words}{more} would do")


def _known_ids(name: str, bench: Bench) -> Mapping[str, str]:
    """The ids a fact may have, each in words; empty where any value may stand."""
    if name == "medium":
        return {id_: fluid.name for id_, fluid in bench.tables.fluids.items()}
    if name == "old_construction":
        return {id_: f"{c.standard} {c.type}" for id_, c in bench.tables.constructions.items()}
    if name.endswith("_family") and name.startswith(("end_", "adapter_")):
        families = {id_: family.names[0] if family.names else id_ for id_, family in bench.connections.families.items()}
        return {**families, "other": "none of the tables", "none": "no adapter"}
    if name == "job_kind":
        return {path.stem: path.stem.replace("_", " ") for path in flow_files()}
    return {}


def _number(cell: str) -> object:
    """A bare number as a number, so that it is read in the JSON unit."""
    try:
        return float(cell)
    except ValueError:
        return cell


def _told(session: Session) -> Checked:
    standing, home = session.standing(), session.home
    judgement = standing.judgement
    there = _hose_there(standing)
    chosen = standing.preferred.index if standing.preferred is not None else None
    verdict = judgement.verdict(there) if there is not None else None
    about = there if there is not None else chosen
    advice = " | ".join(remark_sentence(r, home) for r in judgement.remarks(about)) if about is not None else ""
    if advice and there is not None and there != chosen:
        advice = f"of {hose_name(judgement.bench.candidates[there], home)}, the hose there: {advice}"
    cells: dict[str, object] = {
        "outcome": standing.outcome,
        "ready_for": standing.ready_for,
        "hose_there": verdict.value if verdict is not None else "",
        "why": _why(session, standing, there),
        "would_build": hose_name(judgement.bench.candidates[chosen], home) if chosen is not None else "",
        "open": "; ".join(label(name) if name in CATALOGUE else name.replace("_", " ") for name in standing.open),
        "advice": advice,
    }
    if standing.assembly is not None and standing.assembly.rating is not None:
        cells["carries_bar"] = round(standing.assembly.rating / 1e5, 1)
        cells["limited_by"] = PARTS[standing.assembly.limited_by or "hose"]
    if standing.outcome in ("referred", "unmatched") or verdict is Verdict.FAILS:
        return Checked(cells, "fails")
    if there is None or verdict is not Verdict.FITS or standing.outcome != "specified":
        return Checked(cells, "open")
    rated = assemble(judgement.needs, judgement.bench.candidates[there]).rating is not None
    return Checked(cells, "holds" if rated else "open")


def _hose_there(standing: Standing) -> int | None:
    """The candidate that is the hose in the row, by construction and bore or printed dash; None where it is none."""
    known, bench = standing.judgement.needs.known, standing.judgement.bench
    name, bore, dash = known.text("old_construction"), known.low("bore"), known.low("marked_size")
    if name is None or standing.stop is not None:
        return None
    of_it = (c for c in bench.candidates if c.id == name)
    return next((c.index for c in of_it if c.bore == bore or (bore is None and c.size.marked_dash == dash)), None)


def _why(session: Session, standing: Standing, there: int | None) -> str:
    """What stands against the hose that is there; without one, how the job stands; after a stop, where to go."""
    judgement, home = standing.judgement, session.home
    if standing.stop is not None:
        told = referral(standing.stop, session)
        assert isinstance(told, Referred)
        return f"{_use(standing.stop.kind, standing.stop.id)}{told.text} {told.where}"
    if there is None:
        how = nearest(standing, home) if standing.outcome == "unmatched" else headline(standing, home)
        return f"{_no_hose(standing, home)} {how}"
    verdict = judgement.verdict(there)
    against = [f for f in judgement.findings(there) if f.verdict is verdict]
    return "" if verdict is Verdict.FITS else "; ".join(finding_sentence(f, home) for f in against)


def _use(kind: str, id_: str) -> str:
    return f"{id_.replace('_', ' ')}: " if kind == "regulated_use" else ""


def _no_hose(standing: Standing, home: str) -> str:
    """Why no hose of the tables is the one in the row."""
    known, bench = standing.judgement.needs.known, standing.judgement.bench
    name = known.text("old_construction")
    if name is None:
        return "No hose is named."
    hose = bench.tables.constructions[name]
    words = f"{hose.standard} {hose.type}"
    size = "bore" if known.has("bore") else "marked_size"
    if not known.has(size):
        return f"{words} is named without its size."
    return f"{words} is not made in the size named, {show(size, known.value(size), home)}; read the print again."


def _count(number: int, word: str) -> str:
    return f"{number} {word}" if number == 1 else f"{number} {word}s"


def tally(checked: Sequence[Checked]) -> str:
    """How many hold, are open, fail or could not be read, in a sentence."""
    count = Counter(found.stands for found in checked)

    def some(stands: Literal["holds", "open", "fails"], one: str, many: str) -> str:
        return f"{count[stands]} {one if count[stands] == 1 else many}"

    return (
        f"{_count(len(checked), 'hose')}: {some('holds', 'holds', 'hold')}, {some('open', 'is open', 'are open')}, "
        f"{some('fails', 'fails', 'fail')}, {count['unread']} could not be read."
    )


def register_csv(register: Register, checked: Sequence[Checked]) -> str:
    """The register with what was found beside each row, every cell safe in a spreadsheet."""
    width = len(register.head)
    rows = (
        (*cells, *[""] * (width - len(cells)), *(found.cells.get(name, "") for name in WRITES))
        for (_, cells), found in zip(register.rows, checked, strict=True)
    )
    return csv_text((*register.head, *WRITES), rows)
