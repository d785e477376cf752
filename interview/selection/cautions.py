"""Which cautions does this job trigger? Ids only, most severe first; the words are in the flow files."""

from __future__ import annotations

import re
from math import inf

from interview.facts import Known, Origin

SEVERITY = (
    "fluid_injection",
    "never_feel_for_leaks",
    "release_pressure",
    "stored_energy",
    "falling_load",
    "whip",
    "electric_shock",
    "fire",
    "regulated_use",
    "no_mixed_components",
    "crimp_data",
    "no_reuse",
    "above_rating",
    "proof_test",
    "aged_hose",
    "suction",
    "temperature",
    "medium",
    "static_charge",
    "hot_fluid",
    "fitting_up",
    "cleanliness",
    "protective_equipment",
    "environment",
    "not_an_approval",
)
ESTERS = ("hetg", "hees", "hfdu", "hfdr", "hepg", "castor")
# Figures in `triggered`: 50 bar and 50 degC are those of EN 474-1:2006+A3:2013 5.18.3 (standard); half a metre to a hot
# part, 90 degC in the fluid and 60 degC in the air are our own bounds, no source: they only show a caution.
# Machines that hold something up with oil, by a word of their name (common practice, no source).
HOLDS_A_LOAD = frozenset(
    "boom crane mast lift lifts hoist jack tipper tipping tip dumper forklift loader telehandler handler grab "
    "excavator digger platform ramp gantry press".split()
)
# Signs of a hose out of which oil comes; where along it and how is not yet known when it is looked for.
LEAKS = frozenset(
    "pinhole weep_at_ferrule leak_at_seat burst burst_clean burst_fatigue burst_outer_bend burst_near_end "
    "fitting_blew_off fitting_blew_off_wires_left cover_blister_oil tube_eroded cut_or_crushed".split()
)
AGED = ("cover_cracked", "tube_hardened", "cracked_in_cold", "corroded_end", "cover_bubbles")


def triggered(
    known: Known, *, stopped: bool = False, rating: float | None = None, builds: bool = False
) -> tuple[str, ...]:
    """Ids of all cautions whose trigger is met, severest first; `crimp_data` and `not_an_approval` always.

    A pressure or a heat nobody knows is never taken for a harmless one; only a suction line is taken to have none.
    `builds`: the job is ready for building, and its sheet orders a proof test. `rating` in pascal.
    """
    hit: set[str] = {"crimp_data", "not_an_approval"}
    line = known.text("line_function")
    signs = set(known.many("failure_sign") or ())
    if stopped:
        hit.add("regulated_use")
    pressure = max(_upto(known, "working_pressure"), _upto(known, "surge_pressure"))
    if not pressure and known and line != "suction" and not stopped:
        pressure = inf
    if line in ("pressure", "pilot") or pressure > 0 or known.flag("injury"):
        hit.add("fluid_injection")
    untold = known.text("job_kind") == "failed_hose" and known.answered("failure_sign") and not signs
    if signs & LEAKS or (untold and line != "suction"):
        hit.add("never_feel_for_leaks")
    if known.text("job_kind") in ("failed_hose", "repeat"):
        hit |= {"release_pressure", "environment", "no_reuse"}
    if known.flag("accumulator"):
        hit.add("stored_energy")
    consequences = set(known.many("burst_consequence") or ())
    machine = set(re.findall(r"[a-z]+", (known.text("machine") or "").lower()))
    if "load_drops" in consequences or machine & HOLDS_A_LOAD:
        hit |= {"falling_load", "stored_energy"}
    if (known.flag("people_near") or "person_near" in consequences) and pressure > 50e5:
        hit.add("whip")
    if (
        known.flag("near_power_line")
        or known.flag("non_conductive")
        or (known.answered("near_power_line") and known.origin("near_power_line") is Origin.UNKNOWN)
    ):
        hit.add("electric_shock")
    exposure = set(known.many("exposure") or ())
    hot_part = known.low("heat_source_distance")
    if (
        exposure & {"flame", "hot_particles"}
        or (hot_part is not None and hot_part < 0.5)
        or "oil_on_heat" in consequences
        or known.text("surroundings") == "near_heat"
        or "charred" in signs
    ):
        hit |= {"fire", "temperature"}
    hottest = known.high("fluid_temperature_max")
    nobody_knows_heat = known.answered("fluid_temperature_max") and hottest is None
    if nobody_knows_heat or (hottest is not None and hottest > 50):
        hit.add("hot_fluid")
    air = known.high("ambient_temperature_max")
    if (
        (hottest is not None and hottest > 90)
        or (air is not None and air > 60)
        or signs & {"tube_hardened", "cover_cracked", "cracked_in_cold"}
    ):
        hit.add("temperature")
    if known.text("medium") in ESTERS or "tube_swollen" in signs:
        hit.add("medium")
    if known.text("medium") in ("diesel", "b100", "kerosene"):
        hit |= {"static_charge", "fire"}
    if line == "suction" or (known.high("vacuum") or 0) > 0 or "collapsed" in signs:
        hit.add("suction")
    if signs & set(AGED) or known.has("hose_date"):
        hit.add("aged_hose")
    if signs & {"burst_clean", "burst_fatigue", "fitting_blew_off_wires_left"} or (
        rating is not None and inf > pressure > rating
    ):
        hit.add("above_rating")
    if signs & {"fitting_blew_off", "fitting_blew_off_wires_left", "weep_at_ferrule", "tube_extruded"}:
        hit.add("no_mixed_components")
    if known.flag("proof_test") or builds:
        hit |= {"proof_test", "protective_equipment"}
    if known.has("end_a_family") or known.has("end_b_family"):
        hit |= {"no_mixed_components", "fitting_up", "cleanliness"}
    return tuple(c for c in SEVERITY if c in hit)


def _upto(known: Known, name: str) -> float:
    """The most it may be: endless where it is known from below only, nothing where it is not known."""
    high = known.high(name)
    return high if high is not None else inf if known.has(name) else 0.0
