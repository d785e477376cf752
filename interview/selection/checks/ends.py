"""Do the ends hold it? A known weaker end or adapter fails every candidate; seals against medium and cold.

Lower-of rule: SAE J516 and J518 scopes (seen). Seal limits: memory (DIN 3771-3, seen in a damaged copy only); the
matrix decides media.
"""

from __future__ import annotations

from collections.abc import Iterator

from interview.reference.connections import load_connections
from interview.reference.model import CAP, COMMON_PRACTICE, Evidence, Tag
from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check, on_word_of
from interview.selection.end_readings import READINGS, contradicts
from interview.selection.finding import Answer, Finding, Remark, Verdict, against_floor, against_limit
from interview.selection.mating import hazards_for
from interview.selection.needs import PRESSURE_RESTS_ON, UNKNOWN, EndNeed, Needs, Pair, one_figure
from interview.selection.statement import written

END_FACTS = (
    " ".join(
        f"{part}_{what}"
        for part in ("end_a", "end_b")
        for what in ("family", "size", "gender", "form", "swivel", "rating")
    )
    + " "
    + " ".join(f"adapter_{s}_{w}" for s in "ab" for w in ("family", "size", "rating"))
)


def limit_for(needs: Needs, end: EndNeed) -> tuple[float | None, float | None, float]:
    """Need low, need high and limit in the unit both are printed in: psi where both were stated so, else pascal."""
    low, high = needs.pressure
    assert end.rating is not None
    rated = end.rated
    if (
        needs.pressure_psi is not None
        and rated is not None
        and rated.psi_stated
        and rated.psi
        and low == high
        and end.rating == rated.pressure
    ):
        return needs.pressure_psi, needs.pressure_psi, rated.psi
    return low, high, end.rating


def judge_ends(needs: Needs, candidate: Candidate) -> Answer:
    """The weakest end whose rating is known; an unknown rating is a finding of the assembly, not of the candidate."""
    rated = [e for e in needs.ends if e.rating is not None]
    if not rated or needs.pressure == UNKNOWN:
        return None
    weakest = min(rated, key=lambda e: e.rating or 0.0)
    low, high, limit = limit_for(needs, weakest)
    verdict = against_limit(low, high, limit, grace=needs.rules.pressure_rounding_percent / 100)
    worst = high if high is not None else low
    margin = limit / worst - 1 if worst else None
    hangs: tuple[str, ...] = ()
    if verdict is Verdict.OPEN:
        hangs = tuple(
            n
            for n, p in (("working_pressure", needs.working), ("surge_pressure", needs.surge))
            if p[1] is None or p[0] != p[1]
        )
    elif verdict is Verdict.FAILS and weakest.rating_most is not None and weakest.rating_most > (weakest.rating or 0.0):
        most = min(max(e.rating or 0.0, e.rating_most or 0.0) for e in rated)
        if against_limit(*needs.pressure, most, grace=needs.rules.pressure_rounding_percent / 100) is not Verdict.FAILS:
            verdict, hangs = Verdict.OPEN, (f"{weakest.part}_rating",)  # known as a range that may just do
    return Finding(
        "ends",
        "ends",
        verdict,
        "end_rating",
        "pressure",
        needs.pressure_shown,
        weakest.rating,
        margin,
        verdict is Verdict.FITS and margin is not None and margin < needs.rules.thin_margin_percent / 100,
        weakest.rated.evidence if weakest.rated else None,
        hangs,
        data={
            "part": weakest.part,
            "family": weakest.family,
            "size": weakest.size,
            "psi": weakest.psi_printed,
        },
    )


def judge_seals(needs: Needs, candidate: Candidate) -> Answer:
    """A stated seal or metal against medium, heat and cold; what nobody stated is for the assembly to choose."""
    found: list[Finding] = []
    for part in ("end_a", "end_b"):
        for what in ("seal", "metal"):
            material = needs.known.text(f"{part}_{what}")
            if material is not None:
                found += _material(needs, part, what, material)
    return max(found, key=lambda f: (f.verdict is Verdict.FAILS, f.verdict is Verdict.OPEN, f.remark), default=None)


def _material(needs: Needs, part: str, what: str, material_id: str) -> Iterator[Finding]:
    """What cold, heat and medium say of one seal or metal; a range that straddles a limit is open."""
    tables = load_tables()
    material = tables.materials.get(material_id.upper())
    data = {"part": part, "what": what, "material": material_id, "fluid": needs.fluid.name if needs.fluid else None}

    def against(
        verdict: Verdict, reason: str, need: Pair, limit: float, evidence: Evidence | None, fact: str
    ) -> Iterator[Finding]:
        if need != UNKNOWN and verdict is not Verdict.FITS:
            yield Finding(
                "seals",
                "ends",
                verdict,
                reason,
                "temperature",
                one_figure(need),
                limit,
                evidence=evidence,
                hangs_on=(fact,) if verdict is Verdict.OPEN else (),
                data=data,
            )

    hot, cold, hottest = needs.fluid_max, needs.ambient_min, "fluid_temperature_max"
    if material is not None and material.temperature is not None and what == "seal":
        low, high = material.temperature.low, material.temperature.high
        bears = on_word_of(needs.known, "ambient_temperature_min", against_floor(*cold, low))
        yield from against(bears, "seal_cold", cold, low, material.cold_evidence, "ambient_temperature_min")
        yield from against(against_limit(*hot, high), "seal_hot", hot, high, material.evidence, hottest)
    if needs.fluid is None:
        return
    cell = tables.cell(material_id.upper(), needs.fluid.group)
    statement = written(needs.known, "fluid_statement")
    if statement and (cell is None or cell.verdict != "good"):
        # The one way to overrule the matrix: the fluid maker's word in writing, on the record.
        yield Finding(
            "seals", "ends", Verdict.FITS, "fluid_statement", remark=True, data={**data, "statement": statement}
        )
        return
    if cell is None or cell.verdict == "no_data":
        yield Finding("seals", "ends", Verdict.OPEN, "material_no_data", data=data)
        return
    if cell.verdict == "not_suitable":
        yield Finding("seals", "ends", Verdict.FAILS, "material_not_suitable", evidence=cell.evidence, data=data)
        return
    if cell.max_c is not None:
        yield from against(against_limit(*hot, cell.max_c), "material_hot", hot, cell.max_c, CAP, hottest)
    yield Finding(
        "seals",
        "ends",
        Verdict.FITS,
        "material_suits",
        evidence=cell.evidence,
        remark=cell.verdict == "limited",
        data=data,
    )


def judge_identity(needs: Needs, candidate: Candidate) -> Answer:
    """Readings that leave no room for the connection named: open until somebody settles it."""
    connections = load_connections()
    for end in ("end_a", "end_b"):
        found = contradicts(needs.known, end, connections)
        if found is not None:
            could = ", ".join(f"{connections.families[m.family].names[0]} {m.size}" for m in found.candidates[:3])
            return Finding(
                "identity",
                "ends",
                Verdict.OPEN,
                "readings_against",
                hangs_on=(f"{end}_family",),
                data={"part": end, "could": could or "nothing in the tables"},
            )
    return None


def judge_lookalikes(needs: Needs, candidate: Candidate) -> Answer:
    """What screws onto these ends and must not: the gravest warning of each."""
    connections = load_connections()
    texts: dict[str, Evidence] = {}
    for end in ("end_a", "end_b"):
        family, size = needs.known.text(f"{end}_family"), needs.known.text(f"{end}_size")
        if family in connections.families:
            grave = [
                h
                for h in hazards_for(str(family), size, connections, needs.known.text(f"{end}_gender"))
                if h.severity == "high"
            ]
            if grave:
                texts[grave[0].text.rstrip(".")] = grave[0].evidence
    if not texts:
        return None
    softest = max(texts.values(), key=lambda e: list(Tag).index(e.tag))
    return Remark("lookalikes", "ends", "lookalike", softest, {"text": "; ".join(texts)})


def judge_seal_choice(needs: Needs, candidate: Candidate) -> Answer:
    """The seal this record would specify by house rule, against the cold: NBR and FKM end above -40 degC (memory)."""
    cold, hot = needs.ambient_min[0], needs.fluid_max[1]
    rule = needs.rules.seal_not_known
    connections = load_connections()
    soft = [
        e
        for e in ("end_a", "end_b")
        if not needs.known.has(f"{e}_seal")
        and connections.families.get(needs.known.text(f"{e}_family") or "") is not None
        and connections.default_seal(str(needs.known.text(f"{e}_family")))
    ]
    if not soft or needs.fluid is None or not needs.fluid.mineral:
        return None
    name = rule.default if hot is None or hot <= rule.nbr_up_to else rule.above
    material = load_tables().materials.get(name)
    low = material.temperature.low if material is not None and material.temperature is not None else None
    if cold is not None and low is not None and cold < low:
        return Remark(
            "seal_choice",
            "ends",
            "seal_choice_cold",
            material.cold_evidence if material else None,
            {"seal": name, "low": f"{low:g} °C", "cold": f"{cold:g} °C"},
        )
    return Remark("seal_choice", "ends", "seal_choice", None, {"seal": name, "source": rule.source})


def judge_end_bore(needs: Needs, candidate: Candidate) -> Answer:
    """An end of twice or half the hose's bore: such fittings are hardly made, so one of the two is misread."""
    for end in needs.ends:
        row = load_connections().size(end.family or "", end.size or "") if end.part.startswith("end") else None
        if row is None or row.dash is None or 1 / FAR_OFF < row.dash / candidate.bore < FAR_OFF:
            continue
        data = {"part": end.part, "size": end.size, "bore": candidate.bore}
        return Remark("end_bore", "ends", "end_bore", COMMON_PRACTICE, data)
    return None


FAR_OFF = 2.0  # times the bore, from here on an end is no ordinary reducer (our own bound)
HEAT = "fluid_temperature_max fluid_temperature_min ambient_temperature_max ambient_temperature_min"
CHECKS = (
    check("end_bore", "ends", "end_a_family end_a_size end_b_family end_b_size", judge_end_bore, "bore"),
    check(
        "identity",
        "ends",
        " ".join(f"{e}_{w}" for e in ("end_a", "end_b") for w in ("family", "size", "gender", *READINGS)),
        judge_identity,
        "job",
    ),
    check(
        "lookalikes",
        "ends",
        " ".join(f"{e}_{w}" for e in ("end_a", "end_b") for w in ("family", "size", "gender")),
        judge_lookalikes,
        "job",
    ),
    check(
        "seal_choice",
        "ends",
        f"end_a_family end_b_family end_a_seal end_b_seal medium {HEAT}",
        judge_seal_choice,
        "job",
    ),
    check("ends", "ends", f"{END_FACTS} {PRESSURE_RESTS_ON}", judge_ends, "job"),
    check(
        "seals",
        "ends",
        f"end_a_seal end_b_seal end_a_metal end_b_metal medium fluid_statement {HEAT}",
        judge_seals,
        "job",
    ),
)
