"""Where does it stand? Stops, what is open, what is assumed, the outcome, and what it is ready for.

Gates: a quote needs line function, size or flow, pressure, both ends, a length and a medium; a build needs them closed
and not assumed (common practice, no source; the list of properties follows SAE J1273 as restated).
"""

from __future__ import annotations

from dataclasses import dataclass

from interview.facts import Fact, Known, Origin
from interview.reference.connections import Connections
from interview.selection.assembly import Assembly, assemble
from interview.selection.candidates import Candidate
from interview.selection.checks.routing import least_length, seat_to_seat
from interview.selection.choice import Preferred, Ranking, recommend
from interview.selection.contradictions import contradictions
from interview.selection.end_readings import identified
from interview.selection.finding import Verdict
from interview.selection.judge import Judgement
from interview.selection.needs import UNKNOWN, Needs

FIRM = (Origin.STATED, Origin.READ, Origin.MEASURED)
SETTLED_FACTS = (
    "regulated_use",
    "line_function",
    "medium",
    "fluid_temperature_max",
    "ambient_temperature_max",
    "ambient_temperature_min",
    "working_pressure",
    "surge_pressure",
)
BENT = ("elbow45", "elbow90")
# Which fact stands on the list of what is open, where a check hangs on a maker's word and on no question.
CONFIRM = {
    "fluid_hot": "medium",
    "ambient_hot": "medium",
    "fluid_cold": "medium",
    "electrical": "non_conductive",
    "flame": "flame_resistant",
}


@dataclass(frozen=True, slots=True)
class Stop:
    """Why the interview ends at once. `kind` and `id` name the text that says where to go instead."""

    kind: str  # regulated_use | medium | non_conductive
    id: str


@dataclass(frozen=True)
class Standing:
    """The whole state of the job: judgement, choice, assembly, outcome, gates."""

    judgement: Judgement
    stop: Stop | None
    preferred: Preferred | None
    assembly: Assembly | None
    outcome: str
    ready_for: str
    missing_for_quote: tuple[str, ...]
    missing_for_build: tuple[str, ...]
    open: tuple[str, ...]
    assumed: tuple[Fact, ...]


def stop_of(known: Known, judgement: Judgement | None = None) -> Stop | None:
    """Regulated use, gas, steam or a medium outside hydraulics: the first that applies."""
    for use in known.many("regulated_use") or ():
        return Stop("regulated_use", use)
    medium = known.text("medium")
    if medium and judgement is not None:
        fluid = judgement.bench.tables.fluids.get(medium)
        if fluid is not None and medium != "unknown" and (fluid.scope == "stop_and_refer" or fluid.family == "gas"):
            return Stop("medium", medium)
    if known.flag("non_conductive") and judgement is not None and not judgement.standing:
        return Stop("non_conductive", "non_conductive")
    return None


def settled_facts(known: Known) -> tuple[str, ...]:
    """The facts that are always settled: a suction line is asked for its inlet, not for pressures."""
    if known.text("line_function") == "suction":
        return (*SETTLED_FACTS[:-2], "vacuum")
    return SETTLED_FACTS


def root_assumptions(known: Known) -> tuple[Fact, ...]:
    """Assumed facts that do not merely follow from another assumed fact."""
    assumed = [f for f in known.values() if f.origin is Origin.ASSUMED]
    names = {f.name for f in assumed}
    return tuple(f for f in assumed if not (f.because.startswith("the coldest fluid") and set(f.rests_on) & names))


def standing_of(judgement: Judgement, home: str) -> Standing:
    """What the answers amount to now."""
    known = judgement.needs.known
    stop = stop_of(known, judgement)
    if stop is not None:
        return Standing(judgement, stop, None, None, "referred", "none", (), (), (), ())
    choice = recommend(judgement, Ranking.of(judgement.needs, judgement.bench, home))
    if choice is None:
        return Standing(
            judgement, None, None, None, "unmatched", "none", (), (), _still_open(known, judgement, None, None), ()
        )
    candidate = judgement.bench.candidates[choice.index]
    assembly = assemble(judgement.needs, candidate)
    if judgement.needs.bore == UNKNOWN and judgement.needs.flow == UNKNOWN:
        # Without bore or flow every size stands: naming one of them would be a guess.
        quote = missing_for_quote(known)
        build = tuple(dict.fromkeys((*quote, *missing_for_build(known, assembly, False, judgement.bench.connections))))
        return Standing(
            judgement,
            None,
            None,
            None,
            "provisional",
            "none",
            quote,
            build,
            _still_open(known, judgement, choice, assembly),
            root_assumptions(known),
        )
    open_facts = _still_open(known, judgement, choice, assembly)
    assumed = root_assumptions(known)
    fits = judgement.verdict(choice.index) is Verdict.FITS
    outcome = "specified" if fits and not open_facts and not assumed else "provisional"
    quote = missing_for_quote(known)
    build = tuple(dict.fromkeys((*quote, *missing_for_build(known, assembly, fits, judgement.bench.connections))))
    build = _length_closed(build, judgement.needs, candidate)
    ready = "none" if quote or not fits else "quote" if build else "build"
    return Standing(judgement, None, choice, assembly, outcome, ready, quote, build, open_facts, assumed)


def _still_open(
    known: Known, judgement: Judgement, choice: Preferred | None, assembly: Assembly | None
) -> tuple[str, ...]:
    names: dict[str, None] = {}
    for name in settled_facts(known):
        fact = known.get(name)
        if fact is None or not fact.known or fact.origin is Origin.ASSUMED:
            names[name] = None
        elif name in ("working_pressure", "surge_pressure") and fact.origin is Origin.COPIED:
            names[name] = None
    for fact in root_assumptions(known):
        names[fact.name] = None
    for wrong in contradictions(known):
        names.update(dict.fromkeys((wrong.high, wrong.low)))
    names.update(dict.fromkeys(fact.name for fact in known.values() if fact.applies or fact.disputed))
    if set(known.many("burst_consequence") or ()) & {"steering_lost", "brake_lost"}:
        names["burst_consequence"] = None  # whether such a line is regulated is not for the counter to settle
    if choice is not None:
        for finding in judgement.findings(choice.index):
            if finding.verdict is Verdict.OPEN:
                names.update(dict.fromkeys(finding.hangs_on or (CONFIRM.get(finding.check, finding.check),)))
    if assembly is not None:
        names.update(dict.fromkeys(assembly.unknown))
    fluid = judgement.needs.fluid
    if fluid is not None and fluid.family in ("water_based", "water"):
        # House rule: a plated end meets a water-based fluid only where somebody has said so.
        names.update(
            dict.fromkeys(
                f"{e}_metal" for e in ("end_a", "end_b") if known.has(f"{e}_family") and not known.has(f"{e}_metal")
            )
        )
    return tuple(names)


def _has(known: Known, name: str) -> bool:
    return known.has(name)


def missing_for_quote(known: Known) -> tuple[str, ...]:
    missing: list[str] = []
    if not _has(known, "line_function"):
        missing.append("line_function")
    if not _has(known, "bore") and not _has(known, "flow_rate"):
        missing.append("bore")
    if known.text("line_function") != "suction" and not _has(known, "working_pressure"):
        missing.append("working_pressure")
    for end in ("end_a", "end_b"):
        if not _has(known, f"{end}_family"):
            missing.append(f"{end}_family")
        elif known.text(f"{end}_family") != "other" and not _has(known, f"{end}_size"):
            missing.append(f"{end}_size")
    if not _has(known, "overall_length") and not _has(known, "port_distance"):
        missing.append("overall_length")
    if not _has(known, "medium"):
        missing.append("medium")
    return tuple(missing)


def missing_for_build(known: Known, assembly: Assembly, fits: bool, connections: Connections) -> tuple[str, ...]:
    """What a build still needs; copied figures never close a pressure or a length, a named end is not identified."""
    missing: dict[str, None] = {}

    def firm(name: str) -> bool:
        return known.has(name) and known.origin(name) in FIRM

    for name in ("regulated_use", "medium", "fluid_temperature_max", "ambient_temperature_max"):
        if not firm(name):
            missing[name] = None
    if known.text("line_function") == "suction":
        if not known.has("vacuum") or known.origin("vacuum") in (Origin.ASSUMED, Origin.UNKNOWN):
            missing["vacuum"] = None
        if not known.has("pump_inlet_limit") or known.origin("pump_inlet_limit") is Origin.ASSUMED:
            missing["pump_inlet_limit"] = None
        if known.origin("altitude") is Origin.ASSUMED:
            missing["altitude"] = None
    else:
        if not firm("working_pressure"):
            missing["working_pressure"] = None
        if not firm("surge_pressure") and known.text("shock") not in ("smooth", "moderate"):
            missing["surge_pressure"] = None
    for end in ("end_a", "end_b"):
        missing.update(dict.fromkeys(_end_missing(known, end, connections)))
    missing.update(dict.fromkeys(assembly.unknown))
    if not firm("overall_length") or known.low("overall_length") != known.high(
        "overall_length"
    ):  # "about a metre" is no length
        missing["overall_length"] = None
    if known.flag("length_was_tight") and not firm("port_distance"):  # a length that was wrong is no measure
        missing["port_distance"] = None
    bent = [known.text(f"{end}_form") in BENT for end in ("end_a", "end_b")]
    if all(bent) and not known.has("end_angle"):
        missing["end_angle"] = None
    if known.answered("near_power_line") and known.flag("near_power_line") is None:
        missing["near_power_line"] = None
    if known.text("bend_plane") in ("two", "twisting"):
        missing["bend_plane"] = None
    for wrong in contradictions(known):
        missing.update(dict.fromkeys((wrong.high, wrong.low)))
    missing.update(dict.fromkeys(fact.name for fact in known.values() if fact.applies or fact.disputed))
    missing.update(dict.fromkeys(asked_for_by_failure(known)))
    if set(known.many("burst_consequence") or ()) & {"steering_lost", "brake_lost"}:
        missing["burst_consequence"] = None
    if known.flag("repeat_failure") and not set(known.many("failure_sign") or ()) - {
        "burst"
    }:  # where it burst is not said
        missing["failure_sign"] = None
    if not fits:
        missing["hose"] = None
    return tuple(missing)


# What a failure says of the place, and what has to be measured or looked at before another goes there (common practice,
# no source).
ASKS_FOR = {
    "burst_outer_bend": "bend_radius_available",
    "kinked": "bend_radius_available",
    "burst_near_end": "length_was_tight",
    "stretched_tight": "length_was_tight",
}


def asked_for_by_failure(known: Known) -> tuple[str, ...]:
    """What the failure makes to be closed before a build: the room of a hose that burst at its bend, above all."""
    asked = (ASKS_FOR.get(sign) for sign in known.many("failure_sign") or ())
    return tuple(name for name in asked if name is not None and not known.has(name))


def _length_closed(missing: tuple[str, ...], needs: Needs, candidate: Candidate) -> tuple[str, ...]:
    """The machine's own distances close a length from seat to seat; a loop below its least is closed by no wish."""
    known, least = needs.known, least_length(needs, candidate)[0]
    if least is None:
        return missing
    if seat_to_seat(needs):
        taped = all(
            known.origin(n) in FIRM and known.low(n) == known.high(n)
            for n in ("port_distance", "port_offset")
            if known.has(n)
        )
        return tuple(n for n in missing if n != "overall_length") if taped else missing
    said = known.low("overall_length")
    return missing if said is not None and said >= least else tuple(dict.fromkeys((*missing, "overall_length")))


def _end_missing(known: Known, end: str, connections: Connections) -> list[str]:
    family = known.text(f"{end}_family")
    wanted: tuple[str, ...] = ("family", "size", "gender", "form")
    if known.text(f"{end}_family") in ("flange_c61", "flange_c62"):
        wanted = ("family", "size", "form")  # a flange head is clamped: it is neither male nor female
    missing = [f"{end}_{what}" for what in wanted if not known.has(f"{end}_{what}")]
    if family == "other":
        missing = [m for m in missing if m != f"{end}_size"]
    if family and not identified(known, end, connections):
        missing.append(f"{end}_family")
    return missing
