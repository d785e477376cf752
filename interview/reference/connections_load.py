"""How are the connection tables read? CSV files in, checked rows out; a fault names its file and line."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

from interview.reference.connections_rows import (
    SEVERITIES,
    AdapterEdge,
    Guide,
    InterchangeWarning,
    LooseThread,
    Mate,
    PitchNeighbours,
    Rule,
    Tightening,
)
from interview.reference.model import PSI, ConnectionFamily, ConnectionSize, EndRating, Evidence, Tag

DATA = Path(__file__).resolve().parent / "data"
MM = 1e-3
MPA = 1e6
NUMBERS = frozenset(
    "tube_od_mm male_bore_mm nut_hex_mm dn head_dia_mm head_thickness_mm bolt_long_mm bolt_short_mm port_bore_mm "
    "torque_max_nm".split()
)
COMMON = frozenset("family size dash thread pitch_mm male_od_min male_od_max female_id_min female_id_max".split())
Row = dict[str, str]


class TableFault(ValueError):
    """A table of ours is damaged: which file and line, and what is wrong."""


def rows(name: str, folder: Path = DATA) -> Iterator[tuple[str, Row]]:
    """Each row with its place (`connections_mates.csv:7`), for messages."""
    path = folder / f"connections_{name}.csv"
    with path.open(encoding="utf-8", newline="") as handle:
        reader = csv.reader(handle)
        head = next(reader)
        for cells in reader:
            place = f"{path.name}:{reader.line_num}"
            if len(cells) != len(head):
                raise TableFault(f"{place}: {len(cells)} cells where the heading has {len(head)}")
            yield place, dict(zip(head, cells, strict=True))


def number(place: str, row: Row, column: str) -> float | None:
    text = row[column]
    if not text:
        return None
    try:
        value = float(text)
    except ValueError:
        raise TableFault(f"{place}: {column} is {text!r}, a number is wanted") from None
    if value < 0 or value != value:
        raise TableFault(f"{place}: {column} is {text}, which cannot be")
    return value


def needed(place: str, row: Row, column: str) -> float:
    value = number(place, row, column)
    if value is None:
        raise TableFault(f"{place}: {column} is empty")
    return value


def yes(place: str, row: Row, column: str) -> bool:
    if row[column] not in ("yes", "no"):
        raise TableFault(f"{place}: {column} is {row[column]!r}, yes or no is wanted")
    return row[column] == "yes"


def tag_of(place: str, text: str) -> Tag:
    try:
        return Tag(text)
    except ValueError:
        raise TableFault(f"{place}: tag {text!r} is none of {', '.join(Tag)}") from None


def span(place: str, row: Row, low: str, high: str) -> tuple[float, float] | None:
    """Two columns in millimetre as a pair in metre."""
    one, two = number(place, row, low), number(place, row, high)
    if one is None or two is None:
        return None
    if one > two:
        raise TableFault(f"{place}: {low} is above {high}")
    return one * MM, two * MM


def own_evidence(place: str, row: Row) -> Evidence:
    return Evidence(tag_of(place, row["tag"]), row["source"])


def read_evidence(folder: Path) -> dict[str, dict[str, Evidence]]:
    """family -> group of values -> evidence."""
    sources = {row["key"]: row["source"] for _, row in rows("sources", folder)}
    found: dict[str, dict[str, Evidence]] = {}
    for place, row in rows("evidence", folder):
        if row["source"] not in sources:
            raise TableFault(f"{place}: source {row['source']!r} is not in connections_sources.csv")
        found.setdefault(row["family"], {})[row["values"]] = Evidence(
            tag_of(place, row["tag"]), sources[row["source"]], confidence=row["confidence"] or None
        )
    return found


def read_ratings(folder: Path, evidence: dict[str, dict[str, Evidence]]) -> dict[tuple[str, str], list[EndRating]]:
    meaning = {(row["family"], row["column"]): row["of"] for _, row in rows("rating_columns", folder)}
    shared: dict[tuple[str, str, str], Evidence] = {}
    found: dict[tuple[str, str], list[EndRating]] = {}
    for place, row in rows("ratings", folder):
        family, column, values = row["family"], row["column"], row["values"]
        base = evidence.get(family, {}).get(values)
        if base is None:
            raise TableFault(f"{place}: no evidence for {family} {values}")
        if (family, column) not in meaning:
            raise TableFault(f"{place}: column {column!r} of {family} is not in connections_rating_columns.csv")
        key = (family, values, row["tag"])
        if key not in shared:
            tag = tag_of(place, row["tag"])
            shared[key] = base if tag is base.tag else Evidence(tag, base.source, confidence=base.confidence)
        psi, stated = number(place, row, "psi"), yes(place, row, "psi_stated")
        found.setdefault((family, row["size"]), []).append(
            EndRating(
                column=column,
                pressure=lower_of_pair(needed(place, row, "mpa") * MPA, psi if stated else None),
                psi=psi,
                psi_stated=stated,
                of=meaning[family, column],
                evidence=shared[key],
            )
        )
    return found


def lower_of_pair(pascal: float, psi: float | None) -> float:
    """Of a pair printed in MPa and psi the lower: 27.6 MPa stands beside 4,000 psi, which is 27.58."""
    return pascal if psi is None else min(pascal, psi * PSI)


def details(place: str, row: Row) -> dict[str, object]:
    """The further columns as they stand; the torque as a pair in N·m."""
    found: dict[str, object] = {}
    for column, text in row.items():
        if not text or column in COMMON or column.startswith("torque_nm"):
            continue
        found[column] = number(place, row, column) if column in NUMBERS else text
    low, high = number(place, row, "torque_nm_low"), number(place, row, "torque_nm_high")
    if low is not None and high is not None:
        found["torque_nm"] = (low, high)
    return found


def read_sizes(folder: Path, evidence: dict[str, dict[str, Evidence]]) -> dict[str, list[ConnectionSize]]:
    ratings = read_ratings(folder, evidence)
    found: dict[str, list[ConnectionSize]] = {}
    for table in ("threads", "flanges"):
        for place, row in rows(table, folder):
            family, size = row["family"], row["size"]
            if any(other.size == size for other in found.get(family, ())):
                raise TableFault(f"{place}: {family} {size} stands there twice")
            dash, pitch = row["dash"].removeprefix("-"), number(place, row, "tpi") if table == "threads" else None
            threaded = table == "threads"
            found.setdefault(family, []).append(
                ConnectionSize(
                    family=family,
                    size=size,
                    dash=float(dash) if dash else None,
                    thread=row["thread"] if threaded else None,
                    # the printed pitch of an inch thread is rounded; threads per inch are exact
                    pitch=25.4 * MM / pitch if pitch else needed(place, row, "pitch_mm") * MM if threaded else None,
                    male_od=span(place, row, "male_od_min", "male_od_max") if threaded else None,
                    female_id=span(place, row, "female_id_min", "female_id_max") if threaded else None,
                    ratings=tuple(ratings.pop((family, size), ())),
                    details=details(place, row),
                    evidence=evidence.get(family, {}),
                )
            )
    if ratings:
        raise TableFault(f"connections_ratings.csv: ratings without a size: {sorted(ratings)}")
    return found


def read_families(folder: Path = DATA) -> dict[str, ConnectionFamily]:
    evidence = read_evidence(folder)
    sizes = read_sizes(folder, evidence)
    found: dict[str, ConnectionFamily] = {}
    for place, row in rows("families", folder):
        if row["id"] in found:
            raise TableFault(f"{place}: {row['id']} stands there twice")
        angle = number(place, row, "seat_angle_deg")
        found[row["id"]] = ConnectionFamily(
            id=row["id"],
            names=tuple(row["names"].split(";")),
            standards=tuple(row["standards"].split(";")),
            seal={
                "method": row["seals_by"],
                "male": row["male"],
                "female": row["female"],
                "element": row["element"] or None,
                "usual_seal": row["usual_seal"] or None,
                "position": row["seals_at"],
                "male_cone": row["male_cone"] or None,
                "seat_angle_deg": angle,
                "included_angle_deg": None if angle is None else 2 * angle,
            },
            thread={
                "form": row["thread_form"] or None,
                "flank_angle_deg": number(place, row, "flank_angle_deg"),
                "taper": yes(place, row, "tapered"),
                "class": row["thread_class"] or None,
            },
            notes={
                "hose_end_standard": row["hose_end_standard"],
                "new_work": row["new_work"],
                "new_work_note": row["new_work_note"],
                "reuse": row["reuse"],
                "vibration": row["vibration"],
            },
            warning_ids=tuple(row["warnings"].split()),
            sizes=tuple(sizes.pop(row["id"], ())),
        )
    if sizes:
        raise TableFault(f"connections_families.csv lacks {', '.join(sorted(sizes))}")
    return found


def size_pairs(place: str, text: str) -> tuple[tuple[str, str], ...]:
    pairs = []
    for part in text.split():
        one, mark, other = part.partition("=")
        if not mark:
            raise TableFault(f"{place}: {part!r} is no pair of sizes (a=b)")
        pairs.append((one, other))
    return tuple(pairs)


def read_warnings(folder: Path = DATA) -> tuple[InterchangeWarning, ...]:
    found = []
    for place, row in rows("warnings", folder):
        if row["severity"] not in SEVERITIES:
            raise TableFault(f"{place}: severity {row['severity']!r} is none of {', '.join(SEVERITIES)}")
        found.append(
            InterchangeWarning(
                id=row["id"],
                a=row["a"],
                b=row["b"],
                severity=row["severity"],
                screws_together=yes(place, row, "screws_together"),
                sizes=size_pairs(place, row["sizes"]),
                reason=row["reason"],
                result=row["result"],
                tell_apart=row["tell_apart"],
                evidence=own_evidence(place, row),
            )
        )
    return tuple(found)


def read_mates(folder: Path = DATA) -> tuple[Mate, ...]:
    return tuple(
        Mate(row["male"], row["female"], yes(place, row, "conditional"), row["note"], own_evidence(place, row))
        for place, row in rows("mates", folder)
    )


def read_adapters(folder: Path = DATA) -> tuple[AdapterEdge, ...]:
    return tuple(
        AdapterEdge(row["a"], row["b"], row["standard"], Evidence(tag_of(place, row["tag"]), row["standard"]))
        for place, row in rows("adapters", folder)
    )


def read_rules(about: str, folder: Path = DATA) -> tuple[Rule, ...]:
    return tuple(
        Rule(row["rule"], own_evidence(place, row)) for place, row in rows("rules", folder) if row["about"] == about
    )


def read_tightening(folder: Path = DATA) -> tuple[Tightening, ...]:
    return tuple(
        Tightening(row["applies_to"], tuple(row["families"].split()), row["turn"], own_evidence(place, row))
        for place, row in rows("tightening", folder)
    )


def read_loose_threads(folder: Path = DATA) -> tuple[LooseThread, ...]:
    return tuple(
        LooseThread(
            row["male"],
            row["female"],
            needed(place, row, "flank_overlap_pct"),
            None if row["free_turns"] == "free" else needed(place, row, "free_turns"),
            needed(place, row, "pitch_diff_mm") * MM,
        )
        for place, row in rows("loose_threads", folder)
    )


def read_guide(folder: Path = DATA) -> Guide:
    lines = [(row["kind"], row["id"], row["text"]) for _, row in rows("identification", folder)]
    return Guide(
        order=tuple(text for kind, _, text in lines if kind == "step"),
        pitch_gauge_confusions=tuple(
            PitchNeighbours(
                row["a"], row["b"], needed(place, row, "a_mm") * MM, needed(place, row, "b_mm") * MM, row["where"]
            )
            for place, row in rows("pitch_neighbours", folder)
        ),
        tells={code: text for kind, code, text in lines if kind == "tell"},
    )
