"""Is a mate only what the tables pair, and are the dangerous pairs named with their reason?"""

from __future__ import annotations

import itertools

import pytest

from interview.reference.connections import load_connections
from interview.selection.mating import (
    End,
    Meeting,
    adapter_rating,
    adapters_between,
    hazards_for,
    meet,
    tightening_for,
    warnings_among,
)

C = load_connections()
SIZES = [(family.id, row.size) for family in C.families.values() for row in family.sizes]
BAR = 1e5


def test_listed_pairs_of_one_size_mate() -> None:
    checked = 0
    for mate in C.mates:
        for row in C.families[mate.male].sizes:
            if C.size(mate.female, row.size) is None:
                continue
            joint = meet(End(mate.male, row.size, "male"), End(mate.female, row.size, "female"), C)
            wanted = Meeting.MATES_WITH_WARNING if mate.conditional else Meeting.MATES
            assert joint.meeting is wanted, (mate, row.size)
            assert (joint.severity == "") is (wanted is Meeting.MATES)
            checked += 1
    assert checked > 190


def test_nothing_mates_that_no_table_pairs() -> None:
    listed = {(m.male, m.female) for m in C.mates if not m.conditional}
    seen = set()
    for (fa, sa), (fb, sb) in itertools.product(SIZES[::5], SIZES[::3]):
        joint = meet(End(fa, sa, "male"), End(fb, sb, "female"), C)
        seen.add(joint.meeting)
        if joint.meeting is Meeting.MATES:
            assert (fa, fb) in listed and sa == sb
        elif joint.meeting is Meeting.MUST_NOT:
            assert joint.reason and joint.result and joint.severity and joint.because and joint.evidence
    assert seen == {Meeting.MATES, Meeting.MATES_WITH_WARNING, Meeting.MUST_NOT}


def test_it_does_not_matter_which_end_is_named_first() -> None:
    for (fa, sa), (fb, sb) in itertools.product(SIZES[::11], SIZES[::7]):
        one = meet(End(fa, sa, "male"), End(fb, sb, "female"), C)
        two = meet(End(fb, sb, "female"), End(fa, sa, "male"), C)
        assert (one.meeting, one.because) == (two.meeting, two.because)


@pytest.mark.parametrize(
    ("male", "female", "severity", "because", "told"),
    [
        (("flare37", "-8"), ("flare45", "-8"), "high", "W01", "8° a side"),
        (("flare37", "-6"), ("flare45", "-6"), "low", "not paired", "no table"),
        (("orb_sae", "-8"), ("flare37", "-8"), "high", "W02", "O-ring"),
        (("flare37", "-6"), ("orfs", "-4"), "high", "W04", "9/16-18"),
        (("cone24_S", "20S"), ("cone24_L", "22L"), "high", "W10", "another tube"),
        (("cone24_LL", "5LL"), ("cone24_LL", "6LL"), "high", "same thread", "M10x1"),
        # EN ISO 4413 guidance: the G1/2 stud in an M22x1.5 port
        (("bspp_port", "1/2"), ("iso9974", "M22x1.5"), "critical", "W16", "unnoticed"),
        (("bspp_port", "1/2"), ("iso6149", "M22x1.5"), "critical", "W17", "unnoticed"),
        (("flange_c61", "1"), ("flange_c62", "1"), "critical", "W25", "heads differ"),
        (("flange_c61", "1"), ("flange_c62", "3/4"), "critical", "W25", "heads differ"),
        (("npt", "1/2"), ("bspt", "1/2"), "high", "W06", "taper"),
        (("metric_taper", "M22x1.5 keg"), ("cone24_L", "15L"), "high", "taper in parallel", "tapered"),
        (("jis_g_flare30", "1/4"), ("flare37", "-6"), "high", "loose thread", "turns before it binds"),
        (("flare37", "-6"), ("flare37", "-8"), "low", "size", "differ"),
    ],
)
def test_dangerous_pairs(
    male: tuple[str, str], female: tuple[str, str], severity: str, because: str, told: str
) -> None:
    joint = meet(End(*male, "male"), End(*female, "female"), C)
    assert joint.meeting is Meeting.MUST_NOT
    assert (joint.severity, joint.because) == (severity, because)
    assert told in joint.reason and joint.result


def test_plain_and_dryseal_pipe_go_together_with_a_warning() -> None:
    joint = meet(End("npt", "1/2", "male"), End("nptf", "1/2", "female"), C)
    assert joint.meeting is Meeting.MATES_WITH_WARNING and joint.because == "W21"


@pytest.mark.parametrize(
    ("one", "two"),
    [
        (End("other", None, "female"), End("flare37", "-8", "male")),
        (End(None), End("flare37", "-8", "male")),
        (End("flare37", None, "female"), End("flare37", "-8", "male")),
        (End("flare37", "-7", "female"), End("flare37", "-8", "male")),
        (End("metric30_seat", None, "female"), End("cone24_LL", "6LL", "male")),
    ],
)
def test_what_is_not_known_is_unknown(one: End, two: End) -> None:
    joint = meet(one, two, C)
    assert joint.meeting is Meeting.UNKNOWN and joint.reason


def test_families_that_never_meet_need_no_size() -> None:
    assert meet(End("flare37", None, "male"), End("orb_sae", "-8", "female"), C).meeting is Meeting.MUST_NOT


def test_two_of_one_gender_do_not_go_together() -> None:
    assert meet(End("flare37", "-8", "female"), End("flare37", "-8", "female"), C).meeting is Meeting.MUST_NOT


def test_a_missing_gender_suits_the_other() -> None:
    assert meet(End("orfs", "-16", "female"), End("orfs", "16"), C).meeting is Meeting.MATES
    assert meet(End("orfs", "-16"), End("orfs", "-16"), C).meeting is Meeting.MATES
    assert meet(End("npsm_swivel", "1/2"), End("nptf", "1/2"), C).meeting is Meeting.MATES_WITH_WARNING


def test_hazards_of_one_end() -> None:
    found = hazards_for("bspp_port", "1/2", C, "male")
    assert [h.because for h in found[:3]] == ["W16", "W17", "W33"]
    assert all(h.severity == "critical" for h in found[:3])
    assert any(h.because == "loose thread" and h.partner == "M22x1.5" for h in found)
    order = ["critical", "high", "medium", "low"]
    assert [order.index(h.severity) for h in found] == sorted(order.index(h.severity) for h in found)


def test_hazards_hold_for_the_size() -> None:
    """W01 names dashes 2, 3, 4, 5, 8 and 10 (SAE J514 and J512); dash 6 has its own thread."""
    assert "W01" in {h.because for h in hazards_for("flare37", "8", C)}
    assert "W01" not in {h.because for h in hazards_for("flare37", "-6", C)}
    assert "W01" in {h.because for h in hazards_for("flare37", None, C)}
    shared = [h for h in hazards_for("cone24_L", "15L", C) if h.because == "same thread"]
    assert len(shared) == 1 and "metric port with flat seal M22x1.5" in shared[0].text


def test_every_warning_of_a_family_is_raised_for_it() -> None:
    for family in C.families.values():
        raised = {h.because for h in hazards_for(family.id, None, C)}
        assert set(family.warning_ids) <= raised, family.id


def test_texts_are_sentences_of_their_own() -> None:
    for family, size in SIZES:
        for hazard in hazards_for(family, size, C):
            assert hazard.text.endswith(".") and ".." not in hazard.text and "_" not in hazard.text


def test_warnings_among_candidates() -> None:
    ends = [("cone24_L", "22L"), ("cone24_S", "20S")]
    assert [w.id for w in warnings_among(ends, C)] == ["W10"]
    assert next(w.id for w in warnings_among([("flange_c61", "1")], C)) == "W25"


def test_adapters() -> None:
    found = adapters_between("flare37", "iso6149", C)
    assert [edge.standard for edge in found] == ["ISO 8434-2"]
    assert adapters_between("iso6149", "flare37", C) == found
    assert adapters_between("flare45", "orfs", C) == ()


def test_an_adapter_is_rated_at_its_lower_end() -> None:
    """Note to the SAE J514 table; dash 8: 37° male 310 bar, adjustable O-ring stud 4,000 psi."""
    rated = adapter_rating(End("flare37", "-8", "male"), End("orb_sae", "-8", "male"), C)
    assert rated is not None and rated.pressure == pytest.approx(4000 * 6894.757293168361)
    assert adapter_rating(End("flare37", "-8", "male"), End("bspt", "1/2", "male"), C) is None
    assert adapter_rating(End("flare37", "-8", "male"), End("orb_sae"), C) is None


def test_tightening_ends_with_the_rule_for_all() -> None:
    words = tightening_for(C.families["orfs"], C)
    assert "past contact" in words[0] and words[-1].startswith("every end")
