"""Where does a job stand? Stops, outcome, what it is ready for, the assembly's rating, and what follows."""

from __future__ import annotations

import pytest
from selection_jobs import PLAIN, PSI, fact, index, judged, plain, said, standing

from interview.catalogue import CATALOGUE
from interview.facts import Fact, Known, Origin, Span
from interview.ledger import Ledger
from interview.selection.assembly import assemble
from interview.selection.judge import Bench, judge, known_with
from interview.selection.outcome import SETTLED_FACTS, Standing, standing_of, stop_of

# Both ends read from their markings, so that nothing is missing for a build.
READ_ENDS = {
    "end_a_family": fact("end_a_family", "orfs", Origin.READ),
    "end_b_family": fact("end_b_family", "orfs", Origin.READ),
}
BUILD = plain(**READ_ENDS)


def stands(on: Bench, **changes: object) -> Standing:
    return standing(on, **{n: v for n, v in {**BUILD, **changes}.items() if v is not ...})


def with_origin(on: Bench, name: str, origin: Origin) -> Standing:
    job = said(**BUILD).with_fact(fact(name, BUILD[name], origin))
    return standing_of(judge(known_with(job, on), on), "metric")


def test_a_job_wholly_known_is_specified_and_ready_to_build(on: Bench) -> None:
    found = stands(on)
    assert (found.outcome, found.ready_for) == ("specified", "build")
    assert found.open == found.missing_for_build == found.missing_for_quote == ()
    assert found.assumed == ()


# ---- stops ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("use", [u for u in CATALOGUE["regulated_use"].choices if u != "none"])
def test_every_regulated_use_is_referred(on: Bench, use: str) -> None:
    found = stands(on, regulated_use=[use])
    assert (found.outcome, found.ready_for) == ("referred", "none")
    assert found.stop is not None and (found.stop.kind, found.stop.id) == ("regulated_use", use)
    assert found.preferred is None and found.assembly is None


def test_every_gas_and_every_stop_medium_is_referred(on: Bench) -> None:
    """DESIGN 9: any gas, steam, a medium outside hydraulics."""
    for medium, fluid in on.tables.fluids.items():
        wanted = medium != "unknown" and (fluid.scope == "stop_and_refer" or fluid.family == "gas")
        found = stands(on, medium=medium)
        assert (found.stop is not None and found.stop.kind == "medium") == wanted, medium
        assert (found.outcome == "referred") == wanted, medium
    assert {"steam", "nitrogen", "air", "oxygen", "castor", "dot4", "petrol"} <= {
        m for m in on.tables.fluids if stands(on, medium=m).outcome == "referred"
    }


def test_a_live_line_with_nothing_that_could_be_marked_is_referred(on: Bench) -> None:
    found = stands(on, near_power_line=True, surge_pressure=500)
    assert found.stop is not None and found.stop.kind == "non_conductive"
    open_one = stands(on, near_power_line=True, working_pressure=50, surge_pressure=60)
    assert open_one.stop is None
    assert open_one.outcome == "provisional" and open_one.ready_for == "none"


def test_regulated_use_nobody_knows_is_no_stop_and_no_pass(on: Bench) -> None:
    """DESIGN 14: answered "don't know" it stays open: provisional, not for build."""
    found = stands(on, regulated_use=None)
    assert found.stop is None
    assert found.outcome == "provisional" and found.ready_for == "quote"
    assert "regulated_use" in found.open and "regulated_use" in found.missing_for_build


def test_no_stop_where_nothing_is_known() -> None:
    assert stop_of(Known()) is None


# ---- outcome -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", SETTLED_FACTS)
def test_every_settled_fact_left_unknown_is_open_and_provisional(on: Bench, name: str) -> None:
    found = stands(on, **{name: None})
    assert found.outcome == "provisional"
    assert name in found.open
    assert found.ready_for != "build" or name in ("ambient_temperature_min",)


def test_unmatched_means_that_all_fail(on: Bench) -> None:
    found = stands(on, surge_pressure=1900)
    assert (found.outcome, found.ready_for) == ("unmatched", "none")
    assert found.judgement.standing == ()


def test_nothing_fits_but_some_fail_nothing_is_provisional_and_ready_for_none(on: Bench) -> None:
    """DESIGN 13."""
    found = stands(on, medium="hepg", end_a_metal="STEEL", end_b_metal="STEEL")
    assert found.judgement.counts()[0] == 0 and found.judgement.standing
    assert (found.outcome, found.ready_for) == ("provisional", "none")


def test_an_assumption_makes_it_provisional_and_says_how_to_confirm(on: Bench) -> None:
    found = stands(on, surge_pressure=None, shock="smooth", relief_setting=150, working_pressure=150)
    assert found.outcome == "provisional"
    assumed = {f.name: f for f in found.assumed}
    assert set(assumed) == {"surge_pressure"}
    assert assumed["surge_pressure"].value == pytest.approx(1.2 * 150e5)
    assert assumed["surge_pressure"].confirm_by and assumed["surge_pressure"].because
    assert "surge_pressure" in found.open


# ---- ready for what ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "gone",
    [
        ("line_function",),
        ("bore", "flow_rate"),
        ("working_pressure",),
        ("end_a_family",),
        ("end_b_family",),
        ("end_a_size",),
        ("end_b_size",),
        ("overall_length",),
        ("medium",),
    ],
)
def test_what_a_quote_needs(on: Bench, gone: tuple[str, ...]) -> None:
    found = stands(on, **dict.fromkeys(gone, ...))
    assert found.ready_for == "none"
    assert found.missing_for_quote
    assert set(found.missing_for_quote) <= set(found.missing_for_build)


@pytest.mark.parametrize("name", ["working_pressure", "surge_pressure", "overall_length"])
def test_copied_never_closes_a_pressure_or_a_length(on: Bench, name: str) -> None:
    """DGUV 113-020 4.1.1: the replaced hose proves a value only where it was itself to specification (seen)."""
    found = with_origin(on, name, Origin.COPIED)
    assert found.ready_for == "quote"
    assert name in found.missing_for_build
    for firm in (Origin.STATED, Origin.READ, Origin.MEASURED):
        assert with_origin(on, name, firm).ready_for == "build"


@pytest.mark.parametrize("name", ["regulated_use", "medium", "fluid_temperature_max", "ambient_temperature_max"])
def test_a_build_wants_firm_facts(on: Bench, name: str) -> None:
    for soft in (Origin.ASSUMED, Origin.COMPUTED, Origin.COPIED):
        found = with_origin(on, name, soft)
        assert found.ready_for != "build", soft
        assert name in found.missing_for_build


def test_an_end_that_is_only_named_is_missing_for_build(on: Bench) -> None:
    named = stands(on, end_a_family="orfs")
    assert named.ready_for == "quote"
    assert named.missing_for_build == ("end_a_family",)
    for origin in (Origin.READ, Origin.MEASURED):
        assert stands(on, end_a_family=fact("end_a_family", "orfs", origin)).ready_for == "build"
    assert "end_a_family" in stands(on, end_a_family=fact("end_a_family", "orfs", Origin.COPIED)).missing_for_build


def test_three_readings_close_an_end(on: Bench) -> None:
    """SAE J514 37 degree, -10: 7/8-14 UNF, 22.2 mm over the crests, pitch 25.4/14 = 1.814 mm, seat 37 degrees."""
    job = {"end_a_family": "flare37", "end_a_size": "-10", "end_a_gender": "male", "end_a_swivel": False}
    readings = {"end_a_thread_diameter": 22.2, "end_a_thread_pitch": 25.4 / 14, "end_a_seat_angle": 37}
    assert "end_a_family" in stands(on, **job).missing_for_build
    for missing in readings:
        assert (
            "end_a_family" in stands(on, **job, **{n: v for n, v in readings.items() if n != missing}).missing_for_build
        )
    assert "end_a_family" not in stands(on, **job, **readings).missing_for_build


def test_readings_that_speak_against_the_name_keep_it_open(on: Bench) -> None:
    """A metric 24 degree cone (M22x1.5) is no 37 degree 7/8-14."""
    found = stands(
        on,
        end_a_family="flare37",
        end_a_size="-10",
        end_a_gender="male",
        end_a_thread_diameter=21.9,
        end_a_thread_pitch=1.5,
        end_a_seat_angle=24,
    )
    assert found.outcome == "provisional" and "end_a_family" in found.open and found.ready_for != "build"


def test_severe_shock_without_a_measured_spike_is_never_for_build(on: Bench) -> None:
    """House rule: surge not known, severe shock: never ready for build."""
    for shock in ("severe", None, ...):
        found = stands(on, surge_pressure=None, working_pressure=120, relief_setting=120, shock=shock)
        assert "surge_pressure" in found.missing_for_build, shock
    smooth = stands(on, surge_pressure=None, working_pressure=120, relief_setting=120, shock="smooth")
    assert "surge_pressure" not in smooth.missing_for_build


@pytest.mark.parametrize(
    ("facts", "missing"),
    [
        ({"end_a_form": "elbow90", "end_b_form": "elbow45"}, "end_angle"),
        ({"near_power_line": None}, "near_power_line"),
        ({"bend_plane": "twisting", "motion": "flexing"}, "bend_plane"),
        ({"burst_consequence": ["steering_lost"]}, "burst_consequence"),
        ({"repeat_failure": True}, "failure_sign"),
        ({"end_b_family": "other"}, "end_b_rating"),
    ],
)
def test_what_keeps_a_build_back(on: Bench, facts: dict[str, object], missing: str) -> None:
    found = stands(on, **facts)
    assert missing in found.missing_for_build
    assert found.ready_for != "build"


def test_two_bent_ends_with_their_angle_may_be_built(on: Bench) -> None:
    assert stands(on, end_a_form="elbow90", end_b_form="elbow45", end_angle=270).ready_for == "build"
    assert stands(on, end_a_form="elbow90").ready_for == "build"


# ---- the assembly --------------------------------------------------------------------------------------------------


def test_the_lowest_part_rates_the_assembly(on: Bench) -> None:
    """SAE J517 JUL2003/JUL2020 and J516 JUL2005 scopes: the lower of hose and fitting."""
    swivel = stands(on, end_a_family="flare37", end_a_size="-10")
    assert swivel.assembly is not None
    assert swivel.assembly.limited_by == "end_a" and swivel.assembly.rating == pytest.approx(3000 * PSI, rel=5e-3)
    own = stands(on)
    assert own.assembly is not None and own.preferred is not None
    assert own.assembly.limited_by == "hose"
    assert own.assembly.rating == on.candidates[own.preferred.index].size.wp_select
    adapter = stands(on, adapter_b_family="other", adapter_b_rating=206)
    assert adapter.assembly is not None and (adapter.assembly.limited_by, adapter.assembly.rating) == ("adapter", 206e5)


def test_a_rating_stays_open_while_a_part_s_is_not_known(on: Bench) -> None:
    found = stands(on, end_b_family="other")
    assert found.assembly is not None
    assert found.assembly.rating is None and found.assembly.limited_by is None and found.assembly.proof is None
    assert found.assembly.unknown == ("end_b_rating",)
    assert found.assembly.at_most is not None
    assert found.outcome == "provisional" and "end_b_rating" in found.open


def test_proof_is_twice_the_rating_and_never_above_a_part_s_test_pressure(on: Bench) -> None:
    """ISO 6605:2017 5.2.1: proof = 2 x maximum working pressure (seen)."""
    needs = judged(on, **BUILD).needs
    for i, candidate in enumerate(on.candidates):
        made = assemble(needs, candidate)
        assert made.rating is not None and made.proof is not None, i
        assert made.proof <= 2 * made.rating * (1 + 1e-12)
        assert made.rating <= candidate.size.wp_select
        if candidate.size.proof is not None:
            assert made.proof <= candidate.size.proof


# ---- what follows --------------------------------------------------------------------------------------------------


def derived(on: Bench, **facts: object) -> Known:
    return known_with(said(**facts), on)


def test_flow_from_the_pump(on: Bench) -> None:
    """45 cm3/rev at 1800 rpm is 81 L/min (exact)."""
    known = derived(on, line_function="pressure", pump_displacement=45, pump_speed=1800)
    assert known["pump_flow"].json_value() == pytest.approx(81)
    assert known["flow_rate"].json_value() == pytest.approx(81)
    assert known.origin("flow_rate") is Origin.COMPUTED and set(known["flow_rate"].rests_on) == {
        "pump_flow",
        "line_function",
    }
    assert not derived(on, line_function="pilot", pump_displacement=45, pump_speed=1800).has("flow_rate")


def test_flow_of_a_return_line_from_the_cylinder(on: Bench) -> None:
    """Bore 100, rod 70: area ratio 100^2/(100^2-70^2) = 1.961; the cap side empties faster, the rod side slower."""
    ratio = 100**2 / (100**2 - 70**2)
    base = {"line_function": "return", "pump_flow": 50, "cylinder_bore": 100, "cylinder_rod": 70}
    assert derived(on, **base, cylinder_side="cap")["flow_rate"].json_value() == pytest.approx(50 * ratio)
    assert derived(on, **base, cylinder_side="rod")["flow_rate"].json_value() == pytest.approx(50 / ratio)
    assert derived(on, **base)["flow_rate"].json_value() == pytest.approx(50 * ratio)  # side not known: the adverse one
    unknown = derived(on, line_function="return", pump_flow=50, cylinder_bore=None)
    assert unknown.origin("flow_rate") is Origin.ASSUMED and unknown.high("flow_rate") == pytest.approx(100 / 60000)


@pytest.mark.parametrize(("shock", "factor"), [("smooth", 1.2), ("moderate", 1.5), ("severe", 1.5), (None, 1.5)])
def test_the_spike_nobody_measured(on: Bench, shock: str | None, factor: float) -> None:
    """House rule: 1.2 where the pressure is smooth, else 1.5 times the highest of setting and working pressure."""
    known = derived(
        on, line_function="pressure", working_pressure=180, relief_setting=200, surge_pressure=None, shock=shock
    )
    assert known["surge_pressure"].json_value() == pytest.approx(factor * 200)
    assert known.origin("surge_pressure") is Origin.ASSUMED
    never_asked = derived(on, line_function="pressure", working_pressure=180, relief_setting=200)
    assert not never_asked.answered("surge_pressure")


def test_a_blocked_rod_side_multiplies(on: Bench) -> None:
    """Force balance on a blocked rod side: the setting times the area ratio, 2:1 here."""
    base = {
        "line_function": "pressure",
        "working_pressure": 200,
        "surge_pressure": None,
        "cylinder_bore": 100,
        "cylinder_rod": 70.71067811865476,
        "cylinder_side": "rod",
    }
    assert derived(on, **base)["surge_pressure"].json_value() == pytest.approx(400)
    assert derived(on, **base, throttled=False)["surge_pressure"].json_value() == pytest.approx(300)


def test_assumptions_only_where_somebody_was_asked_and_nobody_knows(on: Bench) -> None:
    known = derived(on, surroundings="open_air", medium="hm")
    assert not known.answered("ambient_temperature_max") and not known.answered("fluid_temperature_max")
    asked = derived(
        on,
        surroundings="open_air",
        medium="hm",
        ambient_temperature_max=None,
        ambient_temperature_min=None,
        fluid_temperature_max=None,
    )
    assert (asked.high("ambient_temperature_max"), asked.low("ambient_temperature_min")) == (45, -40)
    assert asked.high("fluid_temperature_max") == 80
    assert asked.low("fluid_temperature_min") == -40  # the coldest fluid is the coldest air
    for around in ("engine_bay", "near_heat", "cold_store", "underground"):
        assert not derived(on, surroundings=around, ambient_temperature_max=None).has("ambient_temperature_max"), around


def test_what_may_not_be_assumed(on: Bench) -> None:
    """The temperature of a water-based fluid, and a pressure nobody knows."""
    assert not derived(on, medium="hfc", fluid_temperature_max=None).has("fluid_temperature_max")
    assert not derived(on, working_pressure=None, surge_pressure=None).has("surge_pressure")
    assert not derived(on, working_pressure=None, surge_pressure=None).has("working_pressure")


def test_a_range_travels_through_what_follows(on: Bench) -> None:
    known = derived(on, line_function="pressure", pump_displacement=(40, 50), pump_speed=1000)
    value = known["flow_rate"].value
    assert isinstance(value, Span)
    assert (value.low, value.high) == (pytest.approx(40 / 60000), pytest.approx(50 / 60000))


def test_the_plain_job_is_what_it_says(on: Bench) -> None:
    """The job these tests change is itself firm: a slip in it would make them prove nothing."""
    found = standing(on, **PLAIN)
    assert found.outcome == "specified" and found.ready_for == "quote"
    assert found.preferred is not None and found.preferred.index != index(on, "en853-1sn", 8)


# ---- what nobody has settled ---------------------------------------------------------------------------------------


def test_two_answers_that_nobody_chose_between_are_never_built(on: Bench) -> None:
    """1/2 and 3/4 said, nobody chose: the larger need governs, and nothing is ready."""
    ledger = Ledger()
    for name, value in BUILD.items():
        ledger.put(fact(name, value))
    assert standing_of(judge(known_with(ledger.known(), on), on), "metric").ready_for == "build"
    for name, value in (("bore", 12), ("fluid_temperature_max", 95)):
        ledger.put(fact(name, value))
        found = standing_of(judge(known_with(ledger.known(), on), on), "metric")
        assert found.outcome == "provisional" and found.ready_for != "build"
        assert name in found.open and name in found.missing_for_build
        ledger.settle(name, 0, 9)
        assert standing_of(judge(known_with(ledger.known(), on), on), "metric").ready_for == "build"


@pytest.mark.parametrize(
    ("sign", "wanted", "closes"),
    [
        ("burst_outer_bend", "bend_radius_available", 300),
        ("kinked", "bend_radius_available", 300),
        ("burst_near_end", "length_was_tight", False),
        ("stretched_tight", "length_was_tight", False),
    ],
)
def test_the_failure_asks_for_the_place_to_be_looked_at(on: Bench, sign: str, wanted: str, closes: object) -> None:
    """A hose that burst at its bend, and "no tight bend": measured before another goes there."""
    nothing = Fact(wanted, None, Origin.STATED)  # said not to apply
    assert wanted in standing(on, **plain(failure_sign=[sign], **{wanted: nothing})).missing_for_build
    assert wanted not in standing(on, **plain(failure_sign=[sign], **{wanted: closes})).missing_for_build


def test_an_adapter_nobody_can_name_leaves_the_rating_open(on: Bench) -> None:
    """Ticked: it is in the line, and what it bears is not known."""
    ticked = Fact("adapter_a_family", None, Origin.UNKNOWN, hedged=True)
    found = standing(on, **plain(adapter_a_family=ticked))
    assert found.assembly is not None and found.assembly.rating is None and found.assembly.at_most is not None
    assert found.outcome == "provisional" and "adapter_a_family" in found.missing_for_build
    assert standing(on, **plain(adapter_a_family="none")).assembly.rating is not None  # type: ignore[union-attr]


def test_a_height_nobody_knows_is_assumed_and_not_built_on(on: Bench) -> None:
    """Sea level is the kindest guess: 2,000 m take a fifth of the air (ISO 2533, restated)."""
    known = known_with(said(line_function="suction", altitude=None), on)
    assert (known.low("altitude"), known.origin("altitude")) == (0.0, Origin.ASSUMED)
    pulls = {"line_function": "suction", "working_pressure": ..., "surge_pressure": ..., "vacuum": 0.15, "bore": 24}
    line = {"pump_inlet_limit": 0.8, "lift": -0.5, "line_length": 1, "viscosity_index": 100}
    found = [standing(on, **plain(**pulls, **line, altitude=height)) for height in (None, 20)]
    assert ["altitude" in job.missing_for_build for job in found] == [True, False]
    assert ["altitude" in job.open for job in found] == [True, False]
    assert all(job.preferred is not None for job in found)
