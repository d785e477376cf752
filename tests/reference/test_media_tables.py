"""Do fluids, materials, service rules and length tolerances hold together, and is a damaged table said so?

Outside sources beside the checks: ISO 3448 (middle ±10 %), EN 853 and ISO 6743-4 classes, BS F 156, DIN 20066,
SAE J517.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from interview.reference.model import Tag
from interview.reference.table_rows import DATA, TableError
from interview.reference.tables import Tables, load_tables

T = load_tables()


def test_counts() -> None:
    assert (len(T.fluids), len(T.refer_rules), len(T.materials), len(T.cells)) == (61, 25, 30, 900)


def test_iso_3448_limits_are_the_middle_plus_or_minus_a_tenth() -> None:
    grades = [grade for grade, *_ in T.iso_vg]
    assert grades == [2, 3, 5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500]
    for grade, low, mid, high in T.iso_vg:
        assert low == pytest.approx(0.9 * mid, rel=1e-6)
        assert high == pytest.approx(1.1 * mid, rel=1e-6)
        assert round(mid * 1e6) == grade


def test_grades_do_not_overlap() -> None:
    for (_, _, _, high), (_, low, _, _) in zip(T.iso_vg, T.iso_vg[1:], strict=False):
        assert high < low


def test_every_fluid_group_is_a_column_of_the_matrix() -> None:
    groups = {group for _, group in T.cells}
    for fluid in T.fluids.values():
        assert fluid.group in groups | {"none"}, fluid.id
        assert fluid.id == fluid.id.lower()
        if fluid.group == "none":
            assert fluid.scope == "stop_and_refer" or fluid.family == "gas"
    assert set(T.group_caps) == groups
    assert {(m, g) for m in T.materials for g in groups} == set(T.cells)


def test_only_mineral_base_counts_as_mineral() -> None:
    mineral = {fluid.id for fluid in T.fluids.values() if fluid.mineral}
    assert mineral == {"hh", "hl", "hm", "hr", "hv", "hg", "atf", "utto", "engine_oil", "mil5606"}


@pytest.mark.parametrize(
    ("family", "ids"),
    [
        ("oil", "hm hetg hees hepr hfdr hfdu diesel"),
        ("water_based", "hfae hfas hfb hfc"),
        ("water", "water seawater"),
        ("gas", "air nitrogen oxygen steam lpg ammonia"),
        ("other", "unknown petrol castor dot4"),
    ],
)
def test_families(family: str, ids: str) -> None:
    assert {T.fluids[i].family for i in ids.split()} == {family}


def test_every_stop_says_where_to_go() -> None:
    for fluid in T.fluids.values():
        if fluid.scope == "stop_and_refer":
            assert fluid.rule in T.refer_rules
    for rule in T.refer_rules.values():
        assert rule.governed_by and rule.advice and rule.why


def test_fluid_figures() -> None:
    hm = T.fluids["hm"]
    assert hm.density_15 == (875.0, 855.0, 895.0)
    assert hm.bulk_modulus is not None and hm.bulk_modulus[0] == pytest.approx(1.72e9)
    assert hm.evidence["bulk_modulus"].tag is Tag.PRACTICE
    assert T.fluids["atf"].viscosity_40 == pytest.approx((34e-6, 28e-6, 38e-6))
    assert T.fluids["vacuum"].density_15 is None and T.fluids["vacuum"].temperature is None
    hfc = T.fluids["hfc"].temperature
    assert hfc is not None and hfc.high <= 70  # no hose standard goes above +70 for water-based fluids


def test_classic_mistakes_of_the_counter_fail() -> None:
    """BS F 156: ethylene-propylene is unsuitable for mineral oil. ANSI K61.1: ammonia attacks copper alloys."""
    for material, group in [
        ("EPDM", "mineral"),
        ("IIR", "mineral"),
        ("NBR", "hfdr_aryl"),
        ("FKM", "hfdr_alkyl"),
        ("AU", "hfc"),
        ("STEEL_ZN", "hfc"),
        ("BRASS", "ammonia"),
    ]:
        cell = T.cell(material, group)
        assert cell is not None and cell.verdict == "not_suitable", (material, group)
    nbr = T.cell("NBR", "mineral")
    assert nbr is not None and (nbr.verdict, nbr.max_c) == ("good", 100.0)


def test_no_cell_is_an_unknown_that_passes() -> None:
    assert T.cell("NBR", "none") is None and T.cell("UNOBTANIUM", "mineral") is None
    for cell in T.cells.values():
        assert cell.evidence.source
        if cell.verdict == "no_data":
            assert cell.max_c is None
        caps = [T.group_cap(cell.group)]
        window = T.materials[cell.material].temperature
        if window is not None:
            caps.append(window.high)
        known = [cap for cap in caps if cap is not None]
        if cell.max_c is not None and known:
            assert cell.max_c <= min(known)


def test_seal_limit_governs_over_the_polymers_own() -> None:
    nbr, fkm = T.materials["NBR"].temperature, T.materials["FKM"].temperature
    assert nbr is not None and (nbr.low, nbr.high) == (-30, 100)  # -30 from memory of DIN 3771-3
    cold, hot = T.materials["NBR"].cold_evidence, T.materials["NBR"].evidence
    assert cold is not None and hot is not None and (cold.tag, hot.tag) == (Tag.MEMORY, Tag.HANDBOOK)
    assert fkm is not None and fkm.low == -15
    assert T.materials["SS316"].temperature is None


def test_service_rules_keep_their_source() -> None:
    rule = T.service["storage.assembly_years"]
    assert rule.evidence.tag is Tag.RESTATED and "DIN 20066" in rule.evidence.source
    assert T.service["gas.restraint"].evidence.source == "common practice, no source"
    assert all(rule.text for rule in T.service.values())


@pytest.mark.parametrize(
    ("length", "dn", "minus", "plus"),
    [  # DIN 20066, EN 853 to 857
        (0.630, 25, 3, 7),
        (0.6301, 25, 4, 12),
        (1.250, 25, 4, 12),
        (1.2501, 19, 6, 20),
        (2.5, 6, 6, 20),
        (0.630, 31, 4, 12),
        (0.9, 38, 6, 20),
        (2.0, 51, 6, 25),
        (0.4, 60, 6, 25),
        (4.0, 12, 20, 60),
        (10.0, 12, 100, 300),
    ],
)
def test_length_tolerances_of_din_20066(length: float, dn: float, minus: float, plus: float) -> None:
    found = T.length_tolerance(length, dn, "EN/ISO")
    assert found[:2] == pytest.approx((minus / 1000, plus / 1000))
    assert found[2].tag is Tag.RESTATED


@pytest.mark.parametrize(("length", "tolerance"), [(0.3, 3), (0.301, 5), (0.45, 5), (0.9, 6), (1.2, 12), (3.0, 30)])
def test_length_tolerances_of_sae_j517(length: float, tolerance: float) -> None:
    minus, plus, evidence = T.length_tolerance(length, 12, "SAE")
    assert (minus, plus) == pytest.approx((tolerance / 1000, tolerance / 1000))
    assert (evidence.tag, evidence.confidence) == (Tag.MEMORY, "medium")


@pytest.mark.parametrize(
    ("length", "dn", "home"),
    [
        (0, 12, "SAE"),
        (1, 0, "SAE"),
        (float("nan"), 12, "SAE"),
        (1, 12, "JIS"),
        (1, 150, "EN/ISO"),
    ],
)
def test_no_tolerance_without_a_band(length: float, dn: float, home: str) -> None:
    with pytest.raises(ValueError):
        T.length_tolerance(length, dn, home)


@pytest.mark.parametrize(
    ("name", "line", "old", "new", "read"),
    [
        ("fluids.csv", 2, ",yes,", ",maybe,", lambda t: t.fluids),
        ("fluids.csv", 2, ",oil,", ",oils,", lambda t: t.fluids),
        ("fluid_properties.csv", 2, "875,850", "875,885", lambda t: t.fluids),
        ("fluid_properties.csv", 2, "density_15_kg_m3", "density", lambda t: t.fluids),
        ("refer_rules.csv", 2, "FMVSS106", "FMVSS999", lambda t: t.refer_rules),
        ("materials.csv", 2, ",100,", ",,", lambda t: t.materials),
        ("compatibility.csv", 2, ",good,", ",fine,", lambda t: t.cells),
        ("compatibility.csv", 3, "NBR,pao", "NBR,mineral", lambda t: t.cells),
        ("service_rules.csv", 2, "practice", "hearsay", lambda t: t.service),
        ("iso_vg.csv", 2, "1.98", "2.98", lambda t: t.iso_vg),
        ("length_tolerances.csv", 2, "EN/ISO", "DIN", lambda t: t.length_bands),
    ],
)
def test_damage_names_file_and_line(
    tmp_path: Path, name: str, line: int, old: str, new: str, read: Callable[[Tables], object]
) -> None:
    folder = tmp_path / "data"
    shutil.copytree(DATA, folder)
    lines = (folder / name).read_text(encoding="utf-8").splitlines()
    assert old in lines[line - 1]
    lines[line - 1] = lines[line - 1].replace(old, new, 1)
    (folder / name).write_text("\n".join(lines) + "\n", encoding="utf-8")
    with pytest.raises(TableError) as caught:
        read(Tables(folder))
    assert (caught.value.file, caught.value.line) == (name, line)
    assert caught.value.right


def test_version_follows_the_content(tmp_path: Path) -> None:
    folder = tmp_path / "data"
    shutil.copytree(DATA, folder)
    assert Tables(folder).version == T.version
    with (folder / "iso_vg.csv").open("a", encoding="utf-8") as handle:
        handle.write("2200,1980,2200,2420\n")
    assert Tables(folder).version != T.version
