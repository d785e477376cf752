"""Do the ends hold it? A known weaker end or adapter fails every candidate; seals against medium and cold.

Lower-of rule: SAE J516 and J518 scopes (seen). Seal limits: DIN 3771-3 as restated, ISO 3601-5; the matrix decides media.
"""

from __future__ import annotations

from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.checks.pressure import shown
from interview.selection.finding import Answer, Finding, Verdict, against_limit
from interview.selection.needs import PSI, UNKNOWN, EndNeed, Needs

END_FACTS = " ".join(
    f"{part}_{what}"
    for part in ("end_a", "end_b")
    for what in ("family", "size", "gender", "form", "swivel", "rating")
) + " " + " ".join(f"adapter_{s}_{w}" for s in "ab" for w in ("family", "size", "rating"))


def limit_for(needs: Needs, end: EndNeed) -> tuple[float | None, float | None, float]:
    """Need low, need high and limit in the unit both are printed in: psi where both were stated so, else pascal."""
    low, high = needs.pressure
    assert end.rating is not None
    rated = end.rated
    if needs.pressure_psi is not None and rated is not None and rated.psi_stated and rated.psi and low == high \
            and end.rating == rated.pressure:
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
        hangs = tuple(n for n, p in (("working_pressure", needs.working), ("surge_pressure", needs.surge))
                      if p[1] is None or p[0] != p[1])
    have = limit * PSI if limit != weakest.rating else weakest.rating
    return Finding("ends", "ends", verdict, "end_rating", "pressure", shown(needs.pressure), have, margin,
                   verdict is Verdict.FITS and margin is not None and margin < needs.rules.thin_margin_percent / 100,
                   weakest.rated.evidence if weakest.rated else None, hangs,
                   data={"part": weakest.part, "family": weakest.family, "size": weakest.size})


def judge_seals(needs: Needs, candidate: Candidate) -> Answer:
    """A stated seal or metal against medium, heat and cold; what nobody stated is for the assembly to choose."""
    worst: Finding | None = None
    for part in ("end_a", "end_b"):
        for what in ("seal", "metal"):
            material = needs.known.text(f"{part}_{what}")
            if material is None:
                continue
            found = _material(needs, part, what, material)
            if found is not None and (worst is None or found.verdict is Verdict.FAILS):
                worst = found
                if found.verdict is Verdict.FAILS:
                    return found
    return worst


def _material(needs: Needs, part: str, what: str, material_id: str) -> Finding | None:
    tables = load_tables()
    material = tables.materials.get(material_id.upper())
    data = {"part": part, "what": what, "material": material_id, "fluid": needs.fluid.name if needs.fluid else None}
    if material is not None and material.temperature is not None and what == "seal":
        cold, hot = needs.ambient_min[0], needs.fluid_max[1]
        if cold is not None and cold < material.temperature.low:
            return Finding("seals", "ends", Verdict.FAILS, "seal_cold", "temperature", cold, material.temperature.low,
                           evidence=material.evidence, data=data)
        if hot is not None and hot > material.temperature.high:
            return Finding("seals", "ends", Verdict.FAILS, "seal_hot", "temperature", hot, material.temperature.high,
                           evidence=material.evidence, data=data)
    if needs.fluid is None:
        return None
    cell = tables.cell(material_id.upper(), needs.fluid.group)
    if cell is None or cell.verdict == "no_data":
        return Finding("seals", "ends", Verdict.OPEN, "material_no_data", data=data)
    if cell.verdict == "not_suitable":
        return Finding("seals", "ends", Verdict.FAILS, "material_not_suitable", evidence=cell.evidence, data=data)
    hot = needs.fluid_max[1]
    if cell.max_c is not None and hot is not None and hot > cell.max_c:
        return Finding("seals", "ends", Verdict.FAILS, "material_hot", "temperature", hot, cell.max_c, evidence=cell.evidence,
                       data=data)
    return Finding("seals", "ends", Verdict.FITS, "material_suits", evidence=cell.evidence,
                   remark=cell.verdict == "limited", data=data)


CHECKS = (
    check("ends", "ends", f"{END_FACTS} working_pressure surge_pressure line_function", judge_ends, "job"),
    check("seals", "ends",
          "end_a_seal end_b_seal end_a_metal end_b_metal medium fluid_temperature_max ambient_temperature_min", judge_seals,
          "job"),
)
