"""How is a finding said? Findings hold SI numbers and a reason id; here they become sentences in the user's units."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from interview.catalogue import CATALOGUE, Kind
from interview.dialogue.sentences import OF_AN_ITEM, REMARKS, SEVERAL, STATED_FOR, TYPE_TEST
from interview.engineering.angle import far_in_words
from interview.facts import Fact, Origin, Span
from interview.language.show import show, show_quantity, show_rating
from interview.reference.connections import load_connections
from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate
from interview.selection.finding import Finding, Remark

PARTS = {
    "end_a": "end A",
    "end_b": "end B",
    "adapter": "the adapter",
    "adapter_a": "the adapter at end A",
    "adapter_b": "the adapter at end B",
    "hose": "the hose",
}


@lru_cache(maxsize=8192)
def quantity(measures: str, value: object, home: str, said_unit: str = "") -> str:
    """A need or have of a finding, in the user's units."""
    if value is None:
        return "not known"
    if isinstance(value, Span) and value.low is None and value.high is None:
        return "not known"
    if isinstance(value, str):
        return value.replace("_", " ")
    if measures == "cycles":
        if isinstance(value, Span):
            least, most = (None if v is None else f"{v:,.0f}" for v in (value.low, value.high))
            return f"{least} or more" if most is None else f"{least or 0} to {most}"
        return f"{float(value):,.0f}"  # type: ignore[arg-type]
    if measures == "size":
        return show("bore", value, home)  # type: ignore[arg-type]
    if measures in ("pressure", "vacuum"):
        fact = "vacuum" if measures == "vacuum" else "working_pressure"
        return show(fact, value, home, unit=said_unit or None)  # type: ignore[arg-type]
    if measures == "inlet":
        return f"{show('pump_inlet_limit', value, home)} absolute"  # type: ignore[arg-type]
    if measures == "temperature":
        return show("fluid_temperature_max", value, home)  # type: ignore[arg-type]
    if measures == "length":
        return show("overall_length", value, home)  # type: ignore[arg-type]
    if measures == "velocity":
        if isinstance(value, Span):
            ends = [show_quantity("velocity", v, home) if v is not None else "?" for v in (value.low, value.high)]
            return " to ".join(ends)
        return show_quantity("velocity", float(value), home)  # type: ignore[arg-type]
    return str(value)


def roughly(count: float) -> str:
    """A count that is an order of magnitude: two digits, in words from a million up.

    >>> roughly(93_793_563), roughly(431_700), roughly(7.1e12)
    ('about 94 million', 'about 430,000', 'more than a thousand million')
    """
    if count >= 1e9:
        return "more than a thousand million"
    figure = float(f"{count:.2g}")
    return f"about {f'{figure / 1e6:g} million' if figure >= 1e6 else f'{figure:,.0f}'}"


def available(finding: Finding, home: str) -> str:
    """What a candidate has, in the user's units; a rating is never rounded up, a count of strokes never exact."""
    if finding.measures == "cycles":
        return roughly(float(finding.have))  # type: ignore[arg-type]
    if finding.measures == "pressure" and isinstance(finding.have, float) and finding.check in ("pressure", "ends"):
        printed = finding.data.get("psi")
        return show_rating(finding.have, home, printed if isinstance(printed, float) else None)
    return quantity(finding.measures, finding.have, home)


def finding_sentence(finding: Finding, home: str) -> str:
    """Why a check answers as it does."""
    return sentence_of(finding, quantity(finding.measures, finding.need, home), available(finding, home))


def sentence_of(finding: Finding, need: str, have: str) -> str:
    """The same with need and have in words already."""
    template = (
        SEVERAL[finding.verdict].get(finding.reason) or f"{finding.check}: {finding.verdict.value} ({finding.reason})"
    )
    data = {**finding.data, "need": need, "have": have}
    if "part" in data:
        data["part"] = PARTS.get(str(data["part"]), str(data["part"]))
    if "by" in data:
        data["by"] = construction_name(str(data["by"]))
    if "material" in data:
        data["material"] = material_name(str(data["material"]))
    if "tested" in data:
        told = TYPE_TEST.format_map({**data, "tested": f"{data['tested']:,.0f}"})
        stated = ["peaks of 100 to 200 % of the rating"] * bool(data["below"]) + ["wire hose"] * (not data["wire"])
        data["test"] = told + (STATED_FOR + " of ".join(stated) if stated else "")
    return template.format_map(data)


def remark_sentence(remark: Finding | Remark, home: str) -> str:
    """Advice, or a condition of fitting."""
    if isinstance(remark, Finding):
        return finding_sentence(remark, home)
    data = dict(remark.data)
    if remark.check == "shelf":
        data["more_of_it"] = "".join(text.format(**data) for key, text in OF_AN_ITEM.items() if data.get(key))
    for key in ("asked", "least", "more"):
        if key in data:
            data[key] = show("overall_length", float(data[key]), home)  # type: ignore[arg-type]
    for key in ("radius", "old", "spacing"):
        if key in data:
            data[key] = show("overall_length", float(data[key]), home)  # type: ignore[arg-type]
    for key in ("printed", "row", "older"):
        if key in data:
            data[key] = show("working_pressure", float(data[key]), home)  # type: ignore[arg-type]
    for key in ("claimed", "borne"):
        if key in data:
            data[key] = show_rating(float(data[key]), home)  # type: ignore[arg-type]
    if "part" in data:
        data["part"] = PARTS.get(str(data["part"]), str(data["part"]))
    if "measures" in data:
        for key in ("above", "below"):
            data[key] = quantity(str(data["measures"]), data[key], home)
    if "exposure" in data:
        data["exposure"] = str(data["exposure"]).replace("_", " ")
    if "motion" in data:
        data["motion"] = str(data["motion"])
    return REMARKS[remark.reason].format(**data)


def construction_name(construction: str) -> str:
    """Standard and type of an entry of the tables; an id that they do not hold stays as it is."""
    entry = load_tables().constructions.get(construction)
    return construction if entry is None else f"{entry.standard} {entry.type.split(' (')[0]}"


def hose_name(candidate: Candidate, home: str) -> str:
    """Standard, type and size, as the trade says it."""
    c = candidate.construction
    kind = c.type.split(" (")[0]
    size = show("bore", candidate.bore, home)
    marked = candidate.size.marked_dash
    if marked is not None and marked != candidate.bore:
        size = f"{size}, printed -{marked:g}"
    own = f", shelf item {candidate.own}" if candidate.own else ""
    return f"{c.standard} {kind}, {size}{own}"


def fact_shown(fact: Fact, home: str, labels: Mapping[str, Mapping[str, str]] | None = None) -> str:
    """A fact's value in the user's units; choices in the flow's own words."""
    if fact.origin is Origin.UNKNOWN:
        return "not known"
    if fact.value is None:
        return "said not to apply"
    words = (labels or {}).get(fact.name, {})
    if isinstance(fact.value, tuple):
        named = [words.get(v, v.replace("_", " ")) for v in fact.value if v != "none"]
        return ", ".join(named) if named else "none"
    if isinstance(fact.value, str) and fact.spec.kind is Kind.CHOICE:
        return words.get(fact.value, fact.value.replace("_", " "))
    if isinstance(fact.value, str) and fact.spec.kind is Kind.IDENT:
        return _named(fact.name, fact.value)
    text = show(fact.name, fact.value, home, unit=fact.unit or None)
    if fact.name == "end_angle" and isinstance(fact.value, float):
        # Said back, because the two ways round are easily taken for each other.
        text += f" ({far_in_words(fact.value)})"
    return f"about {text}" if fact.hedged and not text.startswith("about") else text


def _named(name: str, value: str) -> str:
    """An id of a table in the trade's words."""
    if name == "medium":
        fluid = load_tables().fluids.get(value)
        return fluid.name if fluid is not None else value
    if name == "old_construction":
        entry = load_tables().constructions.get(value)
        return f"{entry.standard} {entry.type}" if entry is not None else value
    if name.endswith(("_seal", "_metal")):
        return material_name(value)
    if name.endswith("_family"):
        family = load_connections().families.get(value)
        return family.names[0] if family is not None else value.replace("_", " ")
    return value


METALS = {
    "STEEL": "plain steel",
    "STEEL_ZN": "zinc-plated steel",
    "STEEL_ZNNI": "zinc-nickel plated steel",
    "SS316": "stainless steel 316",
    "BRASS": "brass",
    "AL": "aluminium",
}


def material_name(value: str) -> str:
    """A seal by the letters the trade knows it by, a metal in words; what is in no table stays as it was said."""
    material = load_tables().materials.get(value.upper())
    if material is None:
        return value.replace("_", " ")
    if material.kind == "metal" or "_" in material.id:
        return METALS.get(material.id) or material.name
    return material.id


NOT_KNOWN = {
    "near_power_line": "whether a live line is near: not known",
    "people_near": "whether people are within a metre: not known",
    "repeat_failure": "whether it failed before within a year: not known",
    "accumulator": "whether there is an accumulator in the circuit: not known",
    "non_conductive": "whether it must not conduct: not known",
    "flame_resistant": "whether it must resist flame: not known",
    "vibration": "whether it vibrates: not known",
}


def missing_text(name: str, shown: str, origin: str) -> str:
    """One fact a build still needs, and how far it is known; `shown` empty where it is not known at all."""
    if not shown:
        return NOT_KNOWN.get(name) or f"{label(name)}: not known"
    if origin == Origin.ASSUMED:
        return f"{label(name)}: only assumed ({shown})"
    if origin == Origin.COPIED:
        return f"{label(name)}: only copied from the old hose ({shown}); measure it or read it off"
    if name.endswith("_family"):
        return f"{label(name)}: named ({shown}), not measured; measure it or read it off"
    return f"{label(name)}: {shown} needs a second look before anything is built"


def label(name: str) -> str:
    return CATALOGUE[name].label


def sentence(text: str) -> str:
    """First letter large, one full stop."""
    text = text.strip()
    return (text[:1].upper() + text[1:]).rstrip(".") + "."
