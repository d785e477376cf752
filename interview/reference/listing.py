"""What stands in the reference tables, and what does each value rest on?

Text lines and JSON-able dicts for whoever lists the tables: which tables there are, the rows of one, one row with every
value, and where the sources disagree. Nothing here prints.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from interview.reference.model import CAP, ConnectionSize, Construction, Evidence, Fluid, HoseSize, Tag, Window
from interview.reference.tables import Tables, load_tables

Json = dict[str, object]


@dataclass(frozen=True, slots=True)
class Value:
    """One value (or group of values that rest on the same evidence) of a row, worded; None: not known."""

    name: str
    shown: str | None
    evidence: Evidence | None

    def as_json(self) -> Json:
        if self.evidence is None:
            return {"name": self.name, "value": self.shown}
        e = self.evidence
        return {
            "name": self.name,
            "value": self.shown,
            "tag": e.tag.value,
            "source": e.source,
            "restatements": e.restatements,
            "confidence": e.confidence,
            "note": e.note,
        }


@dataclass(frozen=True, slots=True)
class Entry:
    """A row of a table: its key, one line that says what it is, and its values."""

    key: str
    title: str
    values: tuple[Value, ...]

    def as_json(self) -> Json:
        return {"key": self.key, "title": self.title, "values": [value.as_json() for value in self.values]}


def _num(value: float | None, per: float = 1.0, unit: str = "") -> str | None:
    return None if value is None else f"{value / per:.6g} {unit}".strip()


def _pair(pair: tuple[float, float] | None) -> str | None:
    return None if pair is None else _range(pair[0], pair[1], 1e-3, "mm")


def _range(low: float | None, high: float | None, per: float, unit: str) -> str | None:
    if low is None and high is None:
        return None
    if low is None or high is None:
        return f"up to {_num(high, per, unit)}" if low is None else f"from {_num(low, per, unit)}"
    return f"{_num(low, per)} to {_num(high, per, unit)}"


def _window(window: Window | None) -> str | None:
    return None if window is None else f"{window.low:g} to {window.high:g} °C"


def _words(items: frozenset[str] | tuple[str, ...]) -> str | None:
    return " ".join(sorted(items)) or None


def _flag(value: bool | None) -> str | None:
    return None if value is None else "yes" if value else "no"


def _by_bore(values: dict[float, float], per: float, unit: str) -> str | None:
    """`8: 125 %`; equal values of neighbouring bores are one."""
    groups: list[tuple[float, float, float]] = []
    for bore, value in values.items():
        if groups and groups[-1][2] == value:
            groups[-1] = (groups[-1][0], bore, value)
        else:
            groups.append((bore, bore, value))
    return "; ".join(f"bore {a:g}{'' if a == b else f' to {b:g}'}: {v / per:g} {unit}" for a, b, v in groups) or None


def _construction(row: Construction) -> Entry:
    e = row.evidence.get
    older = _by_bore(dict(row.legacy_wp), 1e5, "bar")
    length = None if row.length_change is None else f"{row.length_change[0]:g} to {row.length_change[1]:g} %"
    water_based = e("temperature_water_based") or e("temperature")
    values = [
        Value("reinforcement", f"{row.reinforcement_text} ({row.layers})", e("reinforcement")),
        Value("tube", row.tube, e("materials")),
        Value("cover", row.cover, e("materials")),
        Value("temperature, oil", _window(row.temperature["oil"]), e("temperature")),
        Value("temperature, water based", _window(row.temperature["water_based"]), water_based),
        Value("temperature, water", _window(row.temperature["water"]), e("temperature")),
        Value("media listed", _words(row.media), e("media")),
        Value(
            "media excluded",
            "; ".join(filter(None, (_words(row.excluded), *row.excluded_words))) or None,
            e("exclusions"),
        ),
        Value("media to ask the maker about", _words(row.ask), e("exclusions")),
        Value("impulse cycles", _num(row.impulse_cycles), e("impulse")),
        Value("impulse test required", _flag(row.impulse_required), e("impulse")),
        Value("impulse pressure, of working pressure", _by_bore(dict(row.impulse_percent), 1, "%"), e("impulse")),
        Value("vacuum", _by_bore(dict(row.vacuum), 1e5, "bar"), e("vacuum")),
        Value("proof ratio", _num(row.proof_ratio), e("ratios")),
        Value("burst ratio", _num(row.burst_ratio), e("ratios")),
        Value("length change at working pressure", length, e("length_change")),
        Value("non-conductive option", _flag(row.non_conductive_option), e("electrical")),
        Value("conductive tube", _flag(row.conductive_tube), e("electrical")),
    ]
    if older:
        values.append(Value("older working pressures", older.replace("bore", "dash"), e("legacy")))
    return Entry(row.id, f"{row.standard} {row.type}, {row.tube}, {len(row.sizes)} sizes", tuple(values))


def _size(row: HoseSize) -> Entry:
    e = row.evidence.get
    psi = f" ({row.wp_psi:g} psi{'' if row.wp_psi_stated else ', computed'})"
    values = (
        Value("working pressure", f"{row.wp / 1e5:g} bar{psi}", e("working_pressure")),
        Value("pressure to select by", _num(row.wp_select, 1e5, "bar"), e("working_pressure")),
        Value("proof pressure", _num(row.proof, 1e5, "bar"), e("burst")),
        Value("least burst pressure", _num(row.burst_min, 1e5, "bar"), e("burst")),
        Value("bend radius", _num(row.bend_radius, 1e-3, "mm"), e("bend_radius")),
        Value("inside diameter", _range(row.id_min, row.id_max, 1e-3, "mm"), e("id")),
        Value("outside diameter", _range(row.od_min, row.od_max, 1e-3, "mm"), e("od")),
    )
    dash = "no dash" if row.marked_dash is None else f"dash {row.marked_dash:g}"
    flags = f", {'; '.join(row.flags)}" if row.flags else ""
    return Entry(f"{row.construction} {row.bore:g}", f"DN {row.dn}, {row.inch} in, {dash}{flags}", values)


def _triple(value: tuple[float, float, float] | None, per: float, unit: str) -> str | None:
    if value is None:
        return None
    typical, low, high = (_num(v, per) for v in value)
    return f"{typical} ({low} to {high}) {unit}".strip()


def _fluid(row: Fluid) -> Entry:
    shown = {
        "density_15": _triple(row.density_15, 1, "kg/m3"),
        "viscosity_index": _triple(row.viscosity_index, 1, ""),
        "pour_point": _triple(row.pour_point, 1, "°C"),
        "bulk_modulus": _triple(row.bulk_modulus, 1e9, "GPa"),
        "viscosity_40": _triple(row.viscosity_40, 1e-6, "mm2/s"),
        "viscosity_100": _triple(row.viscosity_100, 1e-6, "mm2/s"),
        "temperature": _window(row.temperature),
    }
    values = tuple(
        Value(name.replace("_", " "), shown.get(name, e.note or None), e) for name, e in row.evidence.items()
    )
    return Entry(row.id, f"{row.name} ({row.scope.replace('_', ' ')}; group {row.group})", values)


def _connection(row: ConnectionSize) -> Entry:
    values = [Value(f"rating, {r.column}", f"{r.pressure / 1e5:g} bar, {r.of}", r.evidence) for r in row.ratings]
    thread = row.evidence.get("threads")
    values += [
        Value("thread", row.thread, thread),
        Value("pitch", _num(row.pitch, 1e-3, "mm"), thread),
        Value("male outside diameter", _pair(row.male_od), thread),
        Value("female inside diameter", _pair(row.female_id), thread),
    ]
    for name, value in row.details.items():
        worded = " to ".join(map(str, value)) if isinstance(value, tuple) else str(value)
        values.append(Value(name, worded, row.evidence.get(name, thread)))
    return Entry(f"{row.family} {row.size}", row.thread or row.size, tuple(values))


def _hoses(tables: Tables) -> Iterator[Entry]:
    return (_construction(row) for row in tables.constructions.values())


def _sizes(tables: Tables) -> Iterator[Entry]:
    return (_size(size) for row in tables.constructions.values() for size in row.sizes)


def _fluids(tables: Tables) -> Iterator[Entry]:
    return (_fluid(row) for row in tables.fluids.values())


def _refer(tables: Tables) -> Iterator[Entry]:
    for row in tables.refer_rules.values():
        yield Entry(
            row.id,
            row.title,
            (
                Value("why", row.why, row.evidence),
                Value("advice", row.advice, row.evidence),
                Value("governed by", "; ".join(row.governed_by), row.evidence),
            ),
        )


def _materials(tables: Tables) -> Iterator[Entry]:
    for row in tables.materials.values():
        if row.temperature is None or row.cold_evidence == row.evidence:
            values = [Value("temperature", _window(row.temperature), row.evidence)]
        else:
            values = [
                Value("lowest temperature, as a seal", f"{row.temperature.low:g} °C", row.cold_evidence),
                Value("highest temperature", f"{row.temperature.high:g} °C", row.evidence),
            ]
        yield Entry(row.id, row.name, tuple(values))


def _cells(tables: Tables) -> Iterator[Entry]:
    for row in tables.cells.values():
        values = [Value("verdict", row.verdict.replace("_", " "), row.evidence)]
        if row.max_c is not None:
            values.append(Value("highest temperature", f"{row.max_c:g} °C", CAP))
        yield Entry(f"{row.material} {row.group}", row.note, tuple(values))


def _service(tables: Tables) -> Iterator[Entry]:
    return (Entry(row.id, row.topic, (Value("rule", row.text, row.evidence),)) for row in tables.service.values())


def _connections(tables: Tables) -> Iterator[Entry]:
    return (_connection(size) for family in tables.connections.families.values() for size in family.sizes)


def _lengths(tables: Tables) -> Iterator[Entry]:
    for band in tables.length_bands:
        unit = "%" if band.percent else "mm"
        key = f"{band.home} up to {band.length_to:g} mm, DN {band.dn_to:g}".replace("up to inf mm", "any length")
        tolerance = Value("tolerance", f"-{band.minus:g} / +{band.plus:g} {unit}", band.evidence)
        yield Entry(key.replace(", DN inf", ""), "", (tolerance,))


TABLES: dict[str, tuple[str, Callable[[Tables], Iterator[Entry]]]] = {
    "hoses": ("hose constructions: temperatures, media, tests", _hoses),
    "sizes": ("hose sizes: pressures, bend radius, diameters", _sizes),
    "connections": ("hose-end connections by size: ratings, threads", _connections),
    "fluids": ("media and their properties", _fluids),
    "refer": ("uses and media that belong elsewhere", _refer),
    "materials": ("polymers and metals", _materials),
    "compatibility": ("material against fluid group", _cells),
    "service": ("storage, life, cleanliness, heat, cold, electricity, gas", _service),
    "lengths": ("length tolerances of assemblies", _lengths),
}


def entries(table: str, tables: Tables | None = None) -> Iterator[Entry]:
    """The rows of one table. ValueError with the names there are where there is no such table."""
    if table not in TABLES:
        raise ValueError(f"there is no table {table!r}; the tables are {', '.join(TABLES)}")
    return TABLES[table][1](tables or load_tables())


def entry(table: str, key: str, tables: Tables | None = None) -> Entry:
    """One row by its key, without regard to case."""
    wanted = " ".join(key.lower().split())
    for row in entries(table, tables):
        if row.key.lower() == wanted:
            return row
    raise ValueError(f"{table} has no row {key!r}; list the table to see its keys")


def tables_json(tables: Tables | None = None) -> list[Json]:
    """Each table: rows, known values, values not known, and how many values rest on which tag."""
    held = tables or load_tables()
    found: list[Json] = []
    for name, (what, listed) in TABLES.items():
        tags: Counter[str] = Counter()
        count = unknown = 0
        for row in listed(held):
            count += 1
            for value in row.values:
                if value.shown is None:
                    unknown += 1
                elif value.evidence is not None:
                    tags[value.evidence.tag.value] += 1
                else:
                    tags["no tag"] += 1
        by_tag = {tag.value: tags[tag.value] for tag in Tag} | ({"no tag": tags["no tag"]} if tags["no tag"] else {})
        found.append(
            {
                "table": name,
                "what": what,
                "rows": count,
                "values": sum(tags.values()),
                "not_known": unknown,
                "by_tag": by_tag,
            }
        )
    return found


def tables(source: Tables | None = None) -> list[str]:
    """The same as lines."""
    held = source or load_tables()
    heads = ["table", "rows", "values", "unknown", *(tag.value for tag in Tag)]
    lines = ["".join((f"{heads[0]:<15}", *(f"{h:>10}" for h in heads[1:])))]
    for row in tables_json(held):
        by_tag = row["by_tag"]
        assert isinstance(by_tag, dict)
        cells = [row["rows"], row["values"], row["not_known"], *(by_tag[tag.value] for tag in Tag)]
        lines.append("".join((f"{row['table']:<15}", *(f"{cell:>10}" for cell in cells))))
    return [*lines, f"tables version {held.version}"]


def rows_json(table: str, tables: Tables | None = None) -> list[Json]:
    """Every row of a table with all its values."""
    return [row.as_json() for row in entries(table, tables)]


def rows(table: str, tables: Tables | None = None) -> list[str]:
    """One line for each row of a table."""
    held = entries(table, tables)
    found = [(row.key, row.title or "; ".join(v.shown for v in row.values if v.shown)) for row in held]
    wide = max(len(key) for key, _ in found)
    return [f"{key:<{wide}}  {title}" for key, title in found]


def row_json(table: str, key: str, tables: Tables | None = None) -> Json:
    """One row with every value, its tag and its source."""
    return entry(table, key, tables).as_json()


def row(table: str, key: str, tables: Tables | None = None) -> list[str]:
    """The same as lines."""
    found = entry(table, key, tables)
    lines = [f"{found.key}: {found.title}" if found.title else found.key]
    for value in found.values:
        lines.append(f"  {value.name}: {'not known' if value.shown is None else value.shown}")
        if value.evidence is not None:
            lines.append(f"    {evidence_words(value.evidence)}")
    return lines


def evidence_words(e: Evidence) -> str:
    """Tag, how often restated, how sure, source and note in one line."""
    often = "" if e.restatements is None else f", {e.restatements} time{'' if e.restatements == 1 else 's'}"
    sure = "" if e.confidence is None else f", {e.confidence} confidence"
    return f"{e.tag.value}{often}{sure}: {e.source}" + (f" ({e.note})" if e.note else "")


def disagreements_json(tables: Tables | None = None) -> list[Json]:
    """Where sources differ, what each says and what was taken; and the hose sizes flagged for such a reason."""
    held = tables or load_tables()
    found: list[Json] = [{"subject": d.subject, "said": list(d.said), "taken": d.taken} for d in held.disagreements]
    for row in held.constructions.values():
        for size in row.sizes:
            said = [flag for flag in size.flags if " " in flag and not flag.startswith("no_dash_size")]
            if said:
                found.append(
                    {
                        "subject": f"{row.id}, bore {size.bore:g}",
                        "said": said,
                        "taken": f"working pressure to select by {size.wp_select / 1e5:g} bar, outside diameter "
                        f"{_range(size.od_min, size.od_max, 1e-3, 'mm') or 'not known'}",
                    }
                )
    return found


def disagreements(tables: Tables | None = None) -> list[str]:
    """The same as lines."""
    lines: list[str] = []
    for row in disagreements_json(tables):
        said = row["said"]
        assert isinstance(said, list)
        lines += [str(row["subject"]), *(f"  {line}" for line in said), f"  taken: {row['taken']}"]
    return lines
