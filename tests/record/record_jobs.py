"""Invented jobs as records, made by hand: the documents and the store are tested on these, not on the engine."""

from __future__ import annotations

from typing import Any

from interview.record.model import (
    AdviceLine,
    AssemblyLine,
    AssumptionLine,
    Build,
    CandidateLine,
    CautionLine,
    Choice,
    FactLine,
    FindingLine,
    NeedLine,
    PartRating,
    Quantity,
    RangeQuantity,
    Record,
)


def fact(value: object, unit: str = "", origin: str = "stated", **more: Any) -> FactLine:
    return FactLine(value=value, unit=unit, origin=origin, **more)


FACTS: dict[str, FactLine] = {
    "job_kind": fact("failed_hose"),
    "customer": fact("Fernleigh Sawmill"),
    "machine": fact("log turner, deck 2"),
    "line_tag": fact("LT-07"),
    "line_function": fact("pressure"),
    "failure_sign": fact(["abraded"], said="it rubbed through on the frame", shown="abraded"),
    "regulated_use": fact(["none"], shown="none"),
    "layline": fact("EN 853 2SN 16 250 bar 3Q19", origin="read"),
    "bore": fact(10.0, "dash", "read", shown="DN 16, -10 (5/8 in)"),
    "flow_rate": fact(60.0, "L/min", said="sixty litres a minute", turn=1),
    "fluid_temperature_max": fact(65.0, "degC", said="oil gets to 65"),
    "ambient_temperature_max": fact(30.0, "degC"),
    "ambient_temperature_min": fact(-5.0, "degC", said="minus 5 in winter"),
    "medium": fact("hm", origin="read", shown="mineral oil HM, ISO VG 46"),
    "working_pressure": fact(180.0, "bar", origin="computed", because="the relief setting bounds it"),
    "relief_setting": fact(180.0, "bar", said="relief's 180"),
    "surge_pressure": fact(205.0, "bar", "measured", said="logger on, peaks 205"),
    "end_a_family": fact("flare37", shown="37° flare"),
    "end_a_size": fact("-10"),
    "end_a_gender": fact("female"),
    "end_a_form": fact("straight"),
    "end_b_family": fact("flare37", shown="37° flare"),
    "end_b_size": fact("-10"),
    "end_b_gender": fact("female"),
    "end_b_form": fact("straight"),
    "overall_length": fact(1450.0, "mm", "measured"),
    "quantity": fact(2.0),
}


def finding(
    check: str,
    topic: str,
    need: str,
    have: str,
    margin: float | None,
    *,
    verdict: str = "fits",
    numbers: tuple[float, float, str] | None = None,
    **more: Any,
) -> FindingLine:
    extra: dict[str, Any] = {}
    if numbers:
        extra = {"need_number": numbers[0], "have_number": numbers[1], "unit": numbers[2]}
    return FindingLine(
        check=check,
        topic=topic,
        verdict=verdict,
        need=need,
        have=have,
        margin=margin,
        why=more.pop("why", ""),
        source=more.pop("source", "EN 853:2015, table 3"),
        **extra,
        **more,
    )


FINDINGS = (
    finding(
        "velocity",
        "size",
        "guide 6.0 m/s",
        "5.0 m/s",
        0.19,
        numbers=(5.05, 6.0, "m/s"),
        source="common practice, no source",
        tag="practice",
    ),
    finding("fluid_hot", "temperature", "65 °C", "100 °C", 0.54, numbers=(65, 100, "degC"), tag="standard"),
    finding("ambient_hot", "temperature", "30 °C", "100 °C", 2.33, numbers=(30, 100, "degC"), tag="standard"),
    finding("ambient_cold", "temperature", "-5 °C", "-40 °C", None, numbers=(-5, -40, "degC"), tag="standard"),
    finding("surge", "pressure", "205 bar", "250 bar", 0.2195, numbers=(205, 250, "bar"), tag="restated"),
    finding(
        "bend",
        "routing",
        "not asked",
        "200 mm",
        None,
        verdict="open",
        tag="memory",
        why="the room to bend is not known",
    ),
)

SAWMILL = Record(
    outcome="specified",
    ready_for="build",
    missing_for_build=(),
    facts=FACTS,
    asked=("line_function", "flow_rate"),
    need={
        "pressure": Quantity(value=205.0, unit="bar"),
        "temperature_max": Quantity(value=65.0, unit="degC"),
        "temperature_min": Quantity(value=-5.0, unit="degC"),
        "fluid_temperature_max": Quantity(value=65.0, unit="degC"),
        "ambient_temperature_max": Quantity(value=30.0, unit="degC"),
        "bore": RangeQuantity(low=10.0, high=12.0, unit="dash"),
        "vacuum": None,
    },
    choice=Choice(
        construction="en853-2sn",
        bore=10.0,
        because=("the old hose's kind, and it passes",),
        twins=("saej517-100r2at",),
        runners_up=("EN 857 2SC at the same bore: 250 bar, tighter bend",),
        name="EN 853 2SN, DN 16 (5/8 in, -10)",
    ),
    candidates=(
        CandidateLine(
            construction="en853-2sn", bore=10.0, verdict="fits", findings=FINDINGS, twins=("saej517-100r2at",)
        ),
        CandidateLine(
            construction="en853-1sn",
            bore=10.0,
            verdict="fails",
            findings=(finding("surge", "pressure", "205 bar", "130 bar", -0.366, verdict="fails"),),
        ),
    ),
    assembly=AssemblyLine(
        rating=Quantity(value=206.8, unit="bar"),
        limited_by="end_a",
        proof_pressure=Quantity(value=413.6, unit="bar"),
        parts=(
            PartRating(
                part="hose",
                what="EN 853 2SN, DN 16",
                rating=Quantity(value=250.0, unit="bar"),
                source="EN 853:2015, table 3",
            ),
            PartRating(
                part="end_a",
                what="37° flare -10, female swivel",
                rating=Quantity(value=206.8, unit="bar"),
                source="SAE J514, swivel column",
            ),
            PartRating(
                part="end_b",
                what="37° flare -10, female swivel",
                rating=Quantity(value=206.8, unit="bar"),
                source="SAE J514, swivel column",
            ),
        ),
        next_stronger="a face-seal end -10 would carry 413 bar; the hose would then limit at 250 bar",
    ),
    cautions=(
        CautionLine(
            id="fluid_injection", text="A jet of oil under the skin is an operation, not a plaster: hospital at once."
        ),
        CautionLine(
            id="crimp_data", text="Crimp figures come from the maker of hose and end, for this pair and this edition."
        ),
        CautionLine(
            id="not_an_approval", text="This record is no approval; the machine's maker and local rules decide."
        ),
    ),
    advice=(
        AdviceLine(check="wear", text="Sleeve the hose where it met the frame and clamp it clear.", source="ISO 8331"),
    ),
    assumptions=(
        AssumptionLine(
            fact="end_a_seal",
            value="NBR",
            why="seal not stated, mineral oil below 100 °C",
            confirm_by="read the seal's mark or ask the end's maker",
            shown="nitrile (NBR)",
        ),
    ),
    open=(),
    sources=("EN 853:2015, table 3", "SAE J514, swivel column", "common practice, no source"),
    headline="Two-wire hose of DN 16 with 37° flare swivels, 1450 mm, good for 206.8 bar.",
    needs=(
        NeedLine(
            name="required pressure",
            shown="205 bar (2970 psi)",
            because="the highest of working pressure 180 bar and measured spike 205 bar",
        ),
    ),
    why_not=("EN 853 1SN: carries 130 bar, 205 bar is needed",),
    memory_values=("least bend radius of EN 853 2SN DN 16, 200 mm: confirm in the current edition",),
    house_rules=("velocity, pressure line: guide 6.0 m/s", "age of hose at build: 4 years"),
    build=Build(
        overall_length_mm=1450.0,
        length_tolerance_mm=(6.0, 20.0),
        tolerance_source="DIN 20066, 1250 to 2500 mm",
        measuring_points="from seat to seat, hose straight",
        bend_radius_mm=200.0,
        straight_before_bend_mm=38.0,
        od_max_mm=26.2,
        test_pressure_bar=413.6,
        cleanliness="cleaned and capped, no ISO 4406 code claimed",
        marking=("assembler's name or mark", "maximum working pressure of the assembly", "year and month of assembly"),
        age_rules=("hose not older than 4 years at build (house rule)", "replace 6 years from assembly (house rule)"),
        maker_must_supply=(
            "that hose and end are a released pair",
            "crimp data for the pair, with sheet number and edition",
        ),
    ),
    job="failed_hose",
    made="2026-03-02T10:15:00",
    tool_version="0.1.0",
    tables_version="2026-03",
)


def changed(record: Record = SAWMILL, **new: Any) -> Record:
    """A record with other fields, validated again."""
    data = record.model_dump(mode="json")
    for name, value in new.items():
        if name == "facts":
            data["facts"].update(value)
        else:
            data[name] = value
    return Record.model_validate(data)


def with_customer(name: str) -> Record:
    return changed(facts={"customer": fact_data(name)})


def fact_data(value: object, unit: str = "", origin: str = "stated", **more: Any) -> dict[str, Any]:
    return fact(value, unit, origin, **more).model_dump(mode="json")


PROVISIONAL = changed(
    outcome="provisional",
    ready_for="quote",
    missing_for_build=("the highest spike is assumed, not measured", "end B is only named, not measured"),
    open=["surge_pressure"],
    open_words=["highest spike: put a logger or a gauge with a drag pointer on the line"],
)

BRICK_PRESS = changed(
    facts={
        "customer": fact_data("Tanhouse Brick"),
        "machine": fact_data("brick press"),
        "line_tag": fact_data("P3"),
        "end_a_family": fact_data("orfs", shown="face seal"),
        "end_b_family": fact_data("orfs", shown="face seal"),
        "end_a_size": fact_data("-4"),
        "end_b_size": fact_data("-4"),
        "end_a_form": fact_data("elbow90"),
        "end_b_form": fact_data("elbow90"),
        "end_angle": fact_data(270.0, "deg"),
        "overall_length": fact_data(640.0, "mm"),
    },
    build={
        **SAWMILL.build.model_dump(mode="json"),
        "overall_length_mm": 640.0,
        "length_tolerance_mm": [4.0, 12.0],
        "end_angle_deg": 270.0,
        "measuring_points": "between the centre lines of the outlets",
    },
    choice={
        **SAWMILL.choice.model_dump(mode="json"),
        "construction": "en853-1sn",
        "bore": 4.0,
        "name": "EN 853 1SN, DN 6 (1/4 in, -4)",
    }
    if SAWMILL.choice
    else None,
    assembly={
        **SAWMILL.assembly.model_dump(mode="json"),
        "limited_by": "hose",
        "rating": {"value": 225.0, "unit": "bar"},
    }
    if SAWMILL.assembly
    else None,
)
