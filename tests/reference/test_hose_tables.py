"""Do the hose tables hold together, and does a damaged one say where?

Outside sources beside the checks: ISO 1307 / ISO 4397 nominal sizes, the 4 to 1 burst and 2 to 1 proof ratios of
SAE J517 and ISO 1436, the pound per square inch by definition, and that no standard rates a larger bore of one
construction above a smaller one.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from interview.reference.hoses import SIZE_GROUPS, read_hoses
from interview.reference.model import Construction, HoseSize, Tag
from interview.reference.table_rows import DATA, TableError
from interview.reference.tables import load_tables

PSI = 6894.757293168
HOSES = load_tables().constructions
SIZES = [(c, s) for c in HOSES.values() for s in c.sizes]
TUBE = "dash_is_tube_size_not_bore"
# dash -> nominal size (DN) as EN 853 to 857 and SAE J517 print them side by side (ISO 4397 nominal bores)
DASH_TO_DN = {
    3: 5,
    4: 6,
    5: 8,
    6: 10,
    8: 12,
    10: 16,
    12: 19,
    16: 25,
    20: 31,
    24: 38,
    32: 51,
    40: 63,
    48: 76,
    56: 89,
    64: 102,
}


def by_pairs(construction: Construction) -> list[tuple[HoseSize, HoseSize]]:
    return list(zip(construction.sizes, construction.sizes[1:], strict=False))


def test_all_constructions_and_sizes_are_there() -> None:
    assert (len(HOSES), len(SIZES)) == (41, 357)
    assert next(iter(HOSES)) == "saej517-100r1at"


@pytest.mark.parametrize("construction", HOSES.values(), ids=lambda c: c.id)
def test_pressure_never_rises_and_radius_never_shrinks_with_the_bore(construction: Construction) -> None:
    for small, large in by_pairs(construction):
        flagged = any(flag.startswith("wp_uncertain_kept_low") for flag in (*small.flags, *large.flags))
        assert small.wp >= large.wp or flagged, (small.bore, large.bore)
        if small.bend_radius is not None and large.bend_radius is not None:
            assert small.bend_radius <= large.bend_radius
        if small.od_max is not None and large.od_max is not None:
            assert small.od_max < large.od_max
        assert small.nominal_bore < large.nominal_bore


def test_only_one_size_rises_in_pressure_with_the_bore() -> None:
    rising = [(c.id, large.bore) for c in HOSES.values() for small, large in by_pairs(c) if large.wp > small.wp]
    assert rising == [("saej517-100r1at", 4.0)]


@pytest.mark.parametrize(("construction", "size"), SIZES, ids=lambda x: getattr(x, "id", None) or f"{x.bore:g}")
def test_figures_of_one_size_agree(construction: Construction, size: HoseSize) -> None:
    assert size.wp_psi * PSI == pytest.approx(size.wp, rel=0.025)  # SAE pairs are rounded twice
    assert size.wp_select <= size.wp
    assert size.wp_select == pytest.approx(min(size.wp, size.wp_psi * PSI), rel=0.006, abs=5e3)  # printed to 0.01 MPa
    if size.burst_min is not None:  # 4 to 1, SAE J517, ISO 1436, EN 853
        assert size.burst_min == pytest.approx(4 * size.wp, rel=0.005)
    if size.proof is not None:
        assert size.proof == pytest.approx(2 * size.wp, rel=0.005)
    if size.id_min is not None and size.id_max is not None:
        assert size.id_min < size.id_max
        assert size.id_min <= size.nominal_bore * 1.02
    if size.bend_radius is not None and size.od_max is not None:
        assert size.bend_radius >= 1.5 * size.od_max  # no standard hose bends tighter than about this
    assert set(size.evidence) == set(SIZE_GROUPS)


def test_bore_is_the_true_bore() -> None:
    for _, size in SIZES:
        if TUBE in size.flags or size.marked_dash is None:
            assert size.bore == round(size.nominal_bore / 1.5875e-3 * 2) / 2
        else:
            assert size.bore == size.marked_dash
            assert DASH_TO_DN[int(size.marked_dash)] == size.dn
    r5 = {size.marked_dash: size.bore for size in HOSES["saej517-100r5"].sizes}
    assert r5[8] == 6.5  # 13/32 in bore (10.3 mm) of the -8 hose, SAE J517
    assert [s.bore for s in HOSES["en854-3te"].sizes if s.marked_dash is None] == [38.0, 50.5, 63.0]


def test_twins_resolve_both_ways() -> None:
    for construction in HOSES.values():
        for twin in construction.twins:
            if twin.id is not None:
                assert twin.id in HOSES
    back = {(c.id, t.id) for c in HOSES.values() for t in c.twins if t.id}
    assert {(a, b) for a, b in back if (b, a) not in back} == set()


def test_every_stated_group_has_evidence() -> None:
    for c in HOSES.values():
        stated = {
            "reinforcement": True,
            "materials": True,
            "temperature": True,
            "media": True,
            "exclusions": True,
            "impulse": True,
            "vacuum": True,
            "ratios": True,
            "electrical": True,
            "length_change": c.length_change is not None,
            "legacy": bool(c.legacy_wp),
        }
        assert {g for g, there in stated.items() if there} <= set(c.evidence), c.id
        assert all(e.source and isinstance(e.tag, Tag) for e in c.evidence.values())


def test_size_evidence_beats_that_of_the_construction() -> None:
    r1 = HOSES["saej517-100r1at"].sizes
    own = r1[0].evidence["working_pressure"]
    assert (own.tag, own.confidence) == (Tag.RESTATED, "low")
    assert r1[1].evidence["working_pressure"].tag is Tag.MEMORY
    assert r1[0].evidence["burst"] is r1[1].evidence["burst"]


def test_unknown_stays_none_and_unrated_stays_out() -> None:
    assert HOSES["en853-1sn"].vacuum == {}  # rated: not seen
    assert HOSES["saej517-100r1at"].vacuum == {}  # rated: no
    assert HOSES["en854-2te"].vacuum == {}  # rated, level not seen
    r14 = HOSES["saej517-100r14a"]
    assert r14.impulse_cycles is None and r14.impulse_percent == {} and r14.impulse_required is True
    assert r14.temperature["water_based"] is None
    assert all(s.od_max is None and s.id_min is None for s in r14.sizes)
    assert HOSES["en854-1te"].impulse_required is False  # ISO 4079:2020 clause 4 note
    assert HOSES["saej517-100r4"].length_change is None
    assert HOSES["saej517-100r1at"].conductive_tube is None


def test_steps_reach_the_bores_they_name() -> None:
    sn = HOSES["en853-1sn"].impulse_percent  # ISO 1436:2020 clause 7.4.2: 125 % to DN 25, 100 % above
    assert (sn[16], sn[20]) == (125, 100)
    r4 = HOSES["saej517-100r4"].vacuum
    assert (r4[32], r4[40], r4[64]) == (85e3, 68e3, 58e3)
    r5 = HOSES["saej517-100r5"]
    by_dash = {s.marked_dash: r5.impulse_percent[s.bore] for s in r5.sizes}
    assert (by_dash[12], by_dash[16]) == (125, 100)


def test_water_based_cap_of_sae_hose_is_the_counterparts_and_says_so() -> None:
    for name, low, high in (("100r2at", -40, 70), ("100r7", 0, 60), ("100r17", 0, 70), ("100r3", -40, 60)):
        c = HOSES[f"saej517-{name}"]
        window = c.temperature["water_based"]
        assert window is not None and (window.low, window.high) == (low, high)
        assert c.evidence["temperature_water_based"].tag is Tag.PRACTICE
        for twin in c.twins:  # never kinder than a counterpart
            other = HOSES[twin.id].temperature["water_based"] if twin.id and twin.id in HOSES else None
            if other is not None:
                assert window.low >= other.low and window.high <= other.high


def test_named_exclusions_and_what_follows_from_ester() -> None:
    sn = HOSES["en853-1sn"]  # EN 853:2015 scope, note 1
    assert sn.excluded == {"hfdr", "hfds", "hfdt", "hetg", "hees"}
    assert {"hm", "hfc"} <= sn.media and {"hfdu", "hepg", "hepr"} <= sn.ask
    for c in HOSES.values():
        assert not (c.media & c.excluded or c.media & c.ask or c.excluded & c.ask), c.id


@pytest.mark.parametrize(
    ("construction", "kind"),
    [
        ("saej517-100r3", "textile_braid"),
        ("en854-2te", "textile_braid"),
        ("saej517-100r5", "wire_braid"),
        ("en857-2sc", "wire_braid"),
        ("iso11237-r19", "wire_braid"),
        ("en856-4sh", "wire_spiral"),
        ("saej517-100r13", "wire_spiral"),
        ("saej517-100r4", "wire_helix"),
        ("iso3949-r18", "fibre_braid"),
        ("saej517-100r14b", "ptfe_wire_braid"),
    ],
)
def test_reinforcement(construction: str, kind: str) -> None:
    assert HOSES[construction].reinforcement == kind


def test_known_figures() -> None:
    """EN 853 2SN DN 12: 275 bar, 180 mm; EN 857 2SC DN 12: 275 bar, 130 mm (as hose sheets restate the standards)."""
    sn = next(s for s in HOSES["en853-2sn"].sizes if s.bore == 8)
    sc = next(s for s in HOSES["en857-2sc"].sizes if s.bore == 8)
    assert [sn.wp, sc.wp] == pytest.approx([27.5e6, 27.5e6])
    assert [sn.bend_radius, sc.bend_radius] == pytest.approx([0.180, 0.130])
    assert HOSES["saej517-100r1at"].legacy_wp[8] == pytest.approx(14e6)


def damaged(tmp_path: Path, name: str, line: int, old: str, new: str) -> Path:
    folder = tmp_path / "data"
    shutil.copytree(DATA, folder)
    lines = (folder / name).read_text(encoding="utf-8").splitlines()
    assert old in lines[line - 1]
    lines[line - 1] = lines[line - 1].replace(old, new, 1)
    (folder / name).write_text("\n".join(lines) + "\n", encoding="utf-8")
    return folder


@pytest.mark.parametrize(
    ("name", "line", "old", "new", "says"),
    [
        ("hose_sizes.csv", 3, ",22.5,", ",22;5,", "wp_mpa is '22;5'"),
        ("hose_sizes.csv", 3, ",22.5,", ",-22.5,", "wp_mpa is -22.5"),
        ("hose_sizes.csv", 3, ",22.5,", ",nan,", "wp_mpa is nan"),
        ("hose_sizes.csv", 3, ",22.5,", ",", "17 cells"),
        ("hose_sizes.csv", 3, "saej517-100r1at", "saej517-100r99", "id is 'saej517-100r99'"),
        ("hose_sizes.csv", 3, "at,4,4,", "at,4,3,", "bore 3 of saej517-100r1at comes after 3"),
        ("hose_sizes.csv", 1, "bore", "boar", "the heading is"),
        ("hose_evidence.csv", 2, "tables-a", "tables-q", "'tables-q"),
        ("hose_evidence_sources.csv", 2, "memory", "hearsay", "tag is 'hearsay'"),
        ("hose_temperatures.csv", 2, "-40..100", "100..-40", "oil is '100..-40'"),
        ("hose_media.csv", 2, "hm ", "hetg ", "hetg stands in two columns"),
        ("hose_tests.csv", 2, "16:125", "16-125", "impulse_percent has '16-125'"),
        ("hose_twins.csv", 2, "iso1436-r1ats,iso1436-r1ats", "iso1436-r1ats,iso1436", "entry is 'iso1436'"),
        ("hose_constructions.csv", 2, "wire_braid", "wirebraid", "reinforcement is 'wirebraid'"),
    ],
)
def test_damage_names_file_line_and_cure(tmp_path: Path, name: str, line: int, old: str, new: str, says: str) -> None:
    with pytest.raises(TableError) as caught:
        read_hoses(damaged(tmp_path, name, line, old, new))
    fault = caught.value
    assert (fault.file, fault.line) == (name, line)
    assert says in fault.wrong and fault.right
    assert str(fault).startswith(f"{name}, line {line}: ")
    assert isinstance(fault, ValueError)


def test_missing_file_is_one_clear_error(tmp_path: Path) -> None:
    with pytest.raises(TableError, match=r"hose_evidence_sources\.csv, line 0: the file is missing"):
        read_hoses(tmp_path)
