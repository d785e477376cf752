"""Do the connection tables hold what their sources say, and is a damaged table refused with its place?"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from interview.reference import connections_load as load
from interview.reference.connections import load_connections
from interview.reference.model import Tag

C = load_connections()
BAR = 1e5


def rated(family: str, size: str, gender: str | None, **known: object) -> float:
    found = C.rating(family, size, gender=gender, **known)  # type: ignore[arg-type]
    assert found is not None
    return round(found.pressure / BAR, 1)


def test_every_family_and_size_is_there() -> None:
    assert len(C.families) == 26
    assert sum(len(family.sizes) for family in C.families.values()) == 254
    assert len(C.warnings) == 34 and len({w.id for w in C.warnings}) == 34
    assert len(C.mates) == 22 and len(C.adapter_edges) == 26 and len(C.same_thread_groups) == 48


@pytest.mark.parametrize(
    ("family", "size", "gender", "known", "bar"),
    [
        # SAE J514 table of working pressures, restated publicly: 3/4-16 rigid 4500 psi, swivel nut 4000 psi
        ("flare37", "-8", "male", {}, 310),
        ("flare37", "8", "female", {}, 275.8),
        ("flare37", "-8", "female", {"swivel": False}, 310),
        ("flare37", "-8", None, {}, 275.8),
        # SAE J1453-3:2012, restated: dash 16 41.3 MPa, with an adjustable stud 34.5 MPa
        ("orfs", "-16", "female", {}, 413),
        ("orfs", "-16", "male", {"form": "adjustable"}, 344.7),
        ("orb_sae", "-12", "male", {"form": "straight"}, 241),
        ("orb_sae", "-12", "male", {"form": "elbow90"}, 206.8),
        ("orb_sae", "-12", "male", {}, 206.8),
        # ISO 8434-1:2007 series: 25-16-10 MPa light, 63-40-25 MPa heavy
        ("cone24_L", "15L", "female", {}, 250),
        ("cone24_L", "22l", "female", {}, 160),
        ("cone24_S", "20S", "female", {}, 400),
        # ISO 6149-2 and -3 by size (memory): the lowest where series and stud are not known
        ("iso6149", "M22x1.5", "male", {}, 250),
        ("iso6149", "M22x1.5", "male", {"series": "heavy", "form": "straight"}, 630),
        ("bspp_port", "1/2", "male", {}, 250),
        ("bspp_port", "1/2", "male", {"series": "heavy"}, 630),
        # the lower of ISO 6162-1 and SAE J518
        ("flange_c61", "1", "male", {}, 320),
        ("flange_c61", "1/2", "male", {}, 344.7),
        ("flange_c61", "5", "male", {}, 34),
        ("flange_c62", "1", "male", {}, 413.7),
        ("nptf", "3/4", "male", {}, 172),
        ("npsm_swivel", "3/4", "female", {}, 155),
    ],
)
def test_the_lowest_figure_that_may_apply_governs(
    family: str, size: str, gender: str | None, known: dict[str, object], bar: float
) -> None:
    """Of a pair printed in MPa and psi the lower: 4,000 psi is 275.8 bar, not the 276 printed beside it."""
    assert rated(family, size, gender, **known) == bar


@pytest.mark.parametrize(
    ("family", "size", "gender"),
    [
        ("other", "x", "male"),
        ("bspt", "1/2", "male"),
        ("flare45", "-8", "female"),
        ("flare37", "-7", "male"),
        ("npsm_swivel", "1/2", "male"),
        ("bspp_port", "2", "male"),
    ],
)
def test_no_table_no_rating(family: str, size: str, gender: str) -> None:
    assert C.rating(family, size, gender=gender) is None


def test_less_knowledge_never_raises_a_rating() -> None:
    for family in C.families.values():
        for row in family.sizes:
            unknown = C.rating(family.id, row.size, gender=None)
            for gender in ("male", "female"):
                for swivel in (None, True, False):
                    for form in (None, "straight", "elbow45", "elbow90"):
                        for series in (None, "light", "heavy"):
                            known = C.rating(
                                family.id, row.size, gender=gender, swivel=swivel, form=form, series=series
                            )
                            if known is not None:
                                assert unknown is not None and unknown.pressure <= known.pressure
                                assert known.pressure == min(r.pressure for r in known.columns)


def test_both_standards_are_shown_where_they_differ() -> None:
    found = C.rating("flange_c61", "1-1/4", gender="male")
    assert found is not None
    assert {rating.column for rating in found.columns} == {"iso", "sae"}
    assert found.column == "sae" and found.psi == 4000 and found.psi_stated
    assert "confirm" in found.note
    small = C.rating("flange_c61", "1-1/2", gender="male")
    assert small is not None and "confirm" not in small.note


def test_psi_and_megapascal_agree() -> None:
    """A printed pair is rounded: 1 psi = 6894.757 Pa (NIST SP 811), within 2 %."""
    for family in C.families.values():
        for row in family.sizes:
            for rating in row.ratings:
                assert rating.psi is not None
                assert rating.pressure == pytest.approx(rating.psi * 6894.757, rel=0.02)


def test_ratings_do_not_rise_with_size() -> None:
    for family in C.families.values():
        columns = {rating.column for row in family.sizes for rating in row.ratings}
        for column in columns:
            row_of = [r.pressure for row in family.sizes for r in row.ratings if r.column == column]
            assert row_of == sorted(row_of, reverse=True), (family.id, column)


def test_every_value_has_evidence() -> None:
    counts: dict[Tag, int] = {}
    for family in C.families.values():
        for row in family.sizes:
            assert row.evidence, row
            if row.thread is not None:
                assert row.evidence["threads"].source
            for rating in row.ratings:
                counts[rating.evidence.tag] = counts.get(rating.evidence.tag, 0) + 1
                assert len(rating.evidence.source) > 20
    assert counts == {Tag.RESTATED: 120, Tag.MEMORY: 93, Tag.STANDARD: 8}


def test_every_rule_and_pair_names_its_source() -> None:
    evidence = [
        *(w.evidence for w in C.warnings),
        *(m.evidence for m in C.mates),
        *(e.evidence for e in C.adapter_edges),
        *(r.evidence for r in (*C.adapter_rules, *C.port_rules)),
        *(t.evidence for t in C.tightening),
    ]
    assert len(evidence) == 34 + 22 + 26 + 8 + 11 + 5
    assert all(found.source for found in evidence)


def test_limits_are_in_order() -> None:
    for family in C.families.values():
        for row in family.sizes:
            if row.male_od and row.female_id:
                assert row.male_od[0] < row.male_od[1] and row.female_id[0] < row.female_id[1]
                assert row.female_id[1] < row.male_od[1]


def test_printed_pitch_is_that_of_the_threads_per_inch() -> None:
    for place, row in load.rows("threads"):
        if row["tpi"]:
            assert float(row["pitch_mm"]) == pytest.approx(25.4 / float(row["tpi"]), abs=6e-4), place
        assert row["pitch_mm"], place


def test_dash_is_the_bore_in_sixteenths_of_inch_flanges() -> None:
    for family in ("flange_c61", "flange_c62"):
        for row in C.families[family].sizes:
            whole, _, part = row.size.rpartition("-")
            fraction = part if "/" in part else f"{part}/1"
            top, bottom = (int(piece) for piece in fraction.split("/"))
            assert row.dash == 16 * ((int(whole) if whole else 0) + top / bottom)


def test_default_seal() -> None:
    assert C.default_seal("orfs") == "NBR"
    assert C.default_seal("cone24_S") == "NBR"
    for family in ("flare37", "npt", "bspt", "other"):
        assert C.default_seal(family) is None


def test_guide_steps_and_tells() -> None:
    guide = C.identification
    assert len(guide.order) == 8 and len(guide.pitch_gauge_confusions) == 11
    assert {"SEAT", "TAPER", "PITCH", "DRYSEAL", "SAMEFIT"} <= set(guide.tells)
    for pair in guide.pitch_gauge_confusions:
        assert abs(pair.a_pitch - pair.b_pitch) < 0.125e-3


def test_same_thread_groups_hold_the_known_ones() -> None:
    assert set(C.same_thread_groups["M30x2"]) == {("cone24_L", "22L"), ("cone24_S", "20S")}
    assert ("orfs", "-4") in C.same_thread_groups["9/16-18 UNF"]
    assert ("flare37", "-6") in C.same_thread_groups["9/16-18 UNF"]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for path in load.DATA.glob("connections_*.csv"):
        shutil.copy(path, tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("table", "old", "new", "told"),
    [
        ("ratings", "restated", "hearsay", "connections_ratings.csv:2: tag 'hearsay'"),
        ("ratings", "34.5", "-3", "connections_ratings.csv:2: mpa is -3"),
        ("threads", "7.73", "8.73", "connections_threads.csv:2: male_od_min is above male_od_max"),
        ("threads", "7.73", "seven", "connections_threads.csv:2: male_od_min is 'seven'"),
        ("evidence", "un_pairs5", "nobody", "connections_evidence.csv:2: source 'nobody'"),
        ("families", ",37° flare", "x,37° flare", "connections_families.csv lacks flare37"),
        ("flanges", "flange_c61,3/4", "flange_c61,1/2", "connections_flanges.csv:3: flange_c61 1/2 stands there twice"),
    ],
)
def test_a_damaged_table_names_file_and_line(folder: Path, table: str, old: str, new: str, told: str) -> None:
    path = folder / f"connections_{table}.csv"
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(load.TableFault) as caught:
        load.read_families(folder)
    assert told in str(caught.value)
