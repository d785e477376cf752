"""Do the limits of size agree with published rows, and does the connection table agree with the limits?"""

from __future__ import annotations

import doctest

import pytest

from interview.engineering import threads
from interview.engineering.errors import EngineeringError
from interview.reference.connections import load_connections
from interview.reference.model import ConnectionSize

C = load_connections()
MM = 1e-3
INCH = 0.0254
ROUNDING = 0.0051  # the table prints hundredths of a millimetre


def test_examples_run() -> None:
    assert doctest.testmod(threads).failed == 0
    assert doctest.testmod(threads).attempted >= 14


@pytest.mark.parametrize(
    ("size", "tpi", "series", "largest", "smallest"),
    [
        # ASME B1.1 table 2A, class 2A major diameter limits in inch, as public thread charts restate them
        ("1/2", 20, "UNF", 0.4987, 0.4906),
        ("3/4", 16, "UNF", 0.7485, 0.7391),
        ("7/8", 14, "UNF", 0.8734, 0.8631),
        ("15/16", 12, "UN", 0.9358, 0.9244),
        ("15/16", 16, "UN", 0.9360, 0.9266),
        ("15/16", 20, "UNEF", 0.9361, 0.9280),
        ("5/8", 18, "UNF", 0.6236, 0.6149),
    ],
)
def test_un_external_against_rows_of_the_standard(
    size: str, tpi: int, series: str, largest: float, smallest: float
) -> None:
    low, high = threads.un_external(threads.inches(size), INCH / tpi, series)
    assert high / INCH == pytest.approx(largest, abs=1.1e-4)
    assert low / INCH == pytest.approx(smallest, abs=1.1e-4)


@pytest.mark.parametrize(
    ("size", "tpi", "smallest", "largest"),
    [
        # ASME B1.1 table 2B, class 2B minor diameter limits in inch, as public thread charts restate them
        ("1/2", 20, 0.446, 0.457),
        ("5/8", 18, 0.565, 0.578),
        ("3/4", 16, 0.682, 0.696),
        ("7/8", 14, 0.798, 0.814),
    ],
)
def test_un_internal_against_rows_of_the_standard(size: str, tpi: int, smallest: float, largest: float) -> None:
    low, high = threads.un_internal(threads.inches(size), INCH / tpi)
    assert low / INCH == pytest.approx(smallest, abs=8e-4)
    assert high / INCH == pytest.approx(largest, abs=8e-4)


@pytest.mark.parametrize(
    ("major", "pitch", "low", "high"),
    [
        # ISO 965-2 6g limits of the major diameter, mm (memory)
        (10, 1.0, 9.794, 9.974),
        (16, 1.5, 15.732, 15.968),
        (30, 2.0, 29.682, 29.962),
    ],
)
def test_metric_external_against_rows_of_the_standard(major: float, pitch: float, low: float, high: float) -> None:
    found = threads.metric_external(major * MM, pitch * MM)
    assert found[0] / MM == pytest.approx(low, abs=0.006)
    assert found[1] / MM == pytest.approx(high, abs=0.002)


@pytest.mark.parametrize(
    ("size", "e0", "e1"),
    [
        # ASME B1.20.1 table 2, pitch diameters E0 and E1 in inch (memory)
        ("1/8", 0.36351, 0.37360),
        ("1/4", 0.47739, 0.49163),
        ("1/2", 0.75843, 0.77843),
        ("1", 1.21363, 1.23863),
        ("2", 2.26902, 2.29627),
    ],
)
def test_npt_pitch_diameters_against_the_standard(size: str, e0: float, e1: float) -> None:
    found = threads.npt_pitch_diameters(size)
    assert found[0] / INCH == pytest.approx(e0, abs=2e-5)
    assert found[1] / INCH == pytest.approx(e1, abs=2e-5)


def agrees(row: ConnectionSize, male: threads.Limits, female: threads.Limits, tolerance: float) -> None:
    assert row.male_od is not None and row.female_id is not None
    for have, want in zip((*row.male_od, *row.female_id), (*male, *female), strict=True):
        assert have / MM == pytest.approx(want / MM, abs=tolerance), (row.family, row.size, have / MM, want / MM)


def rows(form: str) -> list[ConnectionSize]:
    return [r for f in C.families.values() if str(f.thread["form"]).startswith(form) for r in f.sizes]


def test_table_holds_asme_b1_1() -> None:
    found = rows("UN/UNF")
    assert len(found) == 66
    for row in found:
        thread = threads.parallel_thread(str(row.thread))
        assert thread is not None and row.pitch == pytest.approx(thread.pitch)
        agrees(
            row,
            threads.un_external(thread.major, thread.pitch, thread.series),
            threads.un_internal(thread.major, thread.pitch),
            ROUNDING,
        )


def test_table_holds_iso_965_1() -> None:
    found = rows("metric ISO 261")
    assert len(found) == 88
    for row in found:
        thread = threads.parallel_thread(str(row.thread))
        assert thread is not None and row.pitch == pytest.approx(thread.pitch)
        agrees(
            row,
            threads.metric_external(thread.major, thread.pitch),
            threads.metric_internal(thread.major, thread.pitch),
            ROUNDING + 0.006,  # the standard rounds the formulas to preferred numbers
        )


def test_table_holds_iso_228_1() -> None:
    found = rows("ISO 228-1") + rows("JIS B 0202")
    assert len(found) == 37
    for row in found:
        agrees(row, threads.g_external(row.size), threads.g_internal(row.size), ROUNDING)


def test_table_holds_asme_b1_20_1() -> None:
    found = [r for name in ("npt", "nptf") for r in C.families[name].sizes]
    assert len(found) == 18
    for row in found:
        agrees(row, threads.npt_external(row.size), threads.npt_internal(row.size), ROUNDING)


def test_table_holds_npsm_within_what_is_known() -> None:
    """The limits are from memory and agree with the construction from E1 within 0.0013 in; allowance not computed."""
    for row in C.families["npsm_swivel"].sizes:
        major, minor = threads.npsm_basic(row.size)
        assert row.male_od is not None and row.female_id is not None
        assert 0.0 <= (major - row.male_od[1]) / MM <= 0.10, row.size
        assert row.female_id[0] / MM == pytest.approx(minor / MM, abs=0.0013 * 25.4 + ROUNDING), row.size


def test_table_holds_iso_7_1() -> None:
    for row in C.families["bspt"].sizes:
        agrees(row, threads.r_external(row.size), threads.rc_internal(row.size), ROUNDING)


def test_table_holds_metric_taper() -> None:
    """Female limits are ISO 965-1 6H; the male range of DIN 158 takes in the nominal diameter."""
    for row in C.families["metric_taper"].sizes:
        thread = threads.parallel_thread(str(row.thread).split(" ")[0])
        assert thread is not None and row.male_od is not None and row.female_id is not None
        want = threads.metric_internal(thread.major, thread.pitch)
        assert row.female_id[0] / MM == pytest.approx(want[0] / MM, abs=ROUNDING + 0.006)
        assert row.male_od[0] < thread.major < row.male_od[1]
        assert (row.male_od[1] - row.male_od[0]) / MM < 0.8


def test_table_of_loose_threads_is_what_the_geometry_gives() -> None:
    assert len(C.loose_threads) == 114
    for row in C.loose_threads:
        male, female = threads.parallel_thread(row.male), threads.parallel_thread(row.female)
        assert male is not None and female is not None, (row.male, row.female)
        share, turns = threads.loose_fit(male, female)
        assert 100 * share == pytest.approx(row.flank_overlap_pct, abs=0.9), row
        assert abs(male.pitch - female.pitch) == pytest.approx(row.pitch_difference, abs=6e-7), row
        if row.free_turns is None:
            assert turns is None, row
        else:
            assert turns is not None and turns == pytest.approx(row.free_turns, abs=0.11), row


def test_g_half_stud_in_m22_port_is_found() -> None:
    """EN ISO 4413 guidance names the pair: G1/2 in M22x1.5, about a third of the flank height."""
    male, female = threads.parallel_thread("G1/2"), threads.parallel_thread("M22x1.5")
    assert male is not None and female is not None
    share, turns = threads.loose_fit(male, female)
    assert 0.25 < share < 0.42 and turns is not None and turns > 1.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: threads.un_external(0.0, 1e-3),
        lambda: threads.metric_external(10e-3, 9e-3),
        lambda: threads.un_internal(5e-3, 0.5e-3),
        lambda: threads.metric_internal(float("nan"), 1e-3),
        lambda: threads.g_external("5/9"),
        lambda: threads.r_external("5/8"),
    ],
)
def test_impossible_sizes_are_refused(call) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(EngineeringError):
        call()


def test_o_ring_numbers_carry_their_sizes() -> None:
    """AS568 by its own steps (memory): -011 is 0.301 in and each number of the 0.070 in row up to -028 adds 1/16 in;
    -210 is 0.734 in and each number of the 0.139 in row up to -222 adds 1/16 in; above, and the 900 row, by list."""
    listed = {
        29: 1.489,
        225: 1.859,
        228: 2.234,
        232: 2.734,
        237: 3.359,
        241: 3.859,
        245: 4.359,
        253: 5.359,
        902: 0.239,
        903: 0.301,
        904: 0.351,
        905: 0.414,
        906: 0.468,
        908: 0.644,
        910: 0.755,
        912: 0.924,
        914: 1.047,
        916: 1.171,
        920: 1.475,
        924: 1.720,
        932: 2.337,
    }
    section = {0: 0.070, 2: 0.139}
    count = 0
    for family in C.families.values():
        for row in family.sizes:
            named = str(row.details.get("oring", ""))
            if not named:
                continue
            number = int(named.removeprefix("AS568-"))
            if 11 <= number <= 28:
                inside = 0.301 + (number - 11) / 16
            elif 210 <= number <= 222:
                inside = 0.734 + (number - 210) / 16
            else:
                inside = listed[number]
            bore, _, cord = str(row.details["oring_mm"]).partition("x")
            assert float(bore) == pytest.approx(inside * 25.4, abs=0.05), (row.family, row.size, named)
            if number < 900:
                assert float(cord) == pytest.approx(section[number // 100] * 25.4, abs=0.006)
            count += 1
    assert count == 40
