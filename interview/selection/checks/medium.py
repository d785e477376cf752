"""Does the hose standard cover the medium? Its own statement settles tube and cover; twins bind each other.

EN 853, 854, 856, 857:2015 scope note 1 excludes castor-oil and ester based fluids and HFD R, S, T (seen); the ISO
standards give positive lists (seen). Not listed is open: the hose maker's written statement is needed.
"""

from __future__ import annotations

from interview.reference.model import CAP
from interview.reference.tables import load_tables
from interview.selection.candidates import Candidate
from interview.selection.checks.base import check
from interview.selection.finding import Answer, Finding, Verdict
from interview.selection.needs import Needs
from interview.selection.statement import written

# ISO 6743-4 HS names a use, not a base: it may be an ester, which the same list excludes. Only a statement settles it.
BASE_NOT_SETTLED = ("hs",)


def judge_medium(needs: Needs, candidate: Candidate) -> Answer:
    construction = candidate.construction
    listed = construction.evidence.get("media")
    if needs.fluid is None:
        return Finding(
            "medium", "medium", Verdict.OPEN, "medium_unknown", need=needs.medium, evidence=listed, hangs_on=("medium",)
        )
    fluid = needs.fluid
    symbol = (fluid.iso_class or fluid.id).lower()
    said = {"fluid": fluid.name, "standard": construction.standard}
    if candidate.kind == "ptfe":
        return _ptfe(needs, candidate, fluid.group, said)
    statement = written(needs.known, "medium_statement")
    if statement and (symbol not in construction.media or fluid.id in BASE_NOT_SETTLED):
        # The one way to overrule a standard's statement: the hose maker's written word for this fluid, on the record.
        return Finding(
            "medium",
            "medium",
            Verdict.FITS,
            "maker_statement",
            need=symbol,
            have="maker's statement",
            evidence=listed,
            remark=True,
            data={**said, "statement": statement},
        )
    if symbol in candidate.excluded:
        return Finding(
            "medium",
            "medium",
            Verdict.FAILS,
            "medium_excluded",
            need=symbol,
            have="excluded",
            evidence=construction.evidence.get("exclusions"),
            data={**said, "by": candidate.excluded[symbol]},
        )
    water = fluid.id == "water" and construction.temperature.get("water") is not None  # named with a window of its own
    if (symbol in construction.media or water) and fluid.id not in BASE_NOT_SETTLED:
        return Finding(
            "medium", "medium", Verdict.FITS, "medium_listed", need=symbol, have="listed", evidence=listed, data=said
        )
    if fluid.iso_class is None and fluid.mineral:
        # Transmission, tractor and engine oils are mineral-base; the standards name hydraulic classes only.
        return Finding(
            "medium",
            "medium",
            Verdict.FITS,
            "medium_mineral",
            need=symbol,
            have="mineral base",
            evidence=listed,
            remark=True,
            data=said,
        )
    return Finding(
        "medium",
        "medium",
        Verdict.OPEN,
        "medium_not_listed",
        need=symbol,
        have="not listed",
        evidence=listed,
        hangs_on=(),
        data=said,
    )


def _ptfe(needs: Needs, candidate: Candidate, group: str, said: dict[str, str]) -> Answer:
    """PTFE is the one tube a standard names by polymer: the compatibility matrix decides it."""
    cell = load_tables().cell("PTFE", group)
    if cell is None or cell.verdict == "no_data":
        return Finding(
            "medium",
            "medium",
            Verdict.OPEN,
            "medium_not_listed",
            have="not in the matrix",
            evidence=candidate.construction.evidence.get("media"),
            data=said,
        )
    low, hot = needs.fluid_max
    if cell.verdict == "not_suitable" or (cell.max_c is not None and low is not None and low > cell.max_c):
        rests = cell.evidence if cell.verdict == "not_suitable" else CAP
        return Finding("medium", "medium", Verdict.FAILS, "ptfe_unsuited", have=cell.verdict, evidence=rests, data=said)
    if cell.max_c is not None and hot is not None and hot > cell.max_c:
        return Finding(
            "medium",
            "medium",
            Verdict.OPEN,
            "ptfe_heat_unsure",
            have=cell.verdict,
            evidence=CAP,
            hangs_on=("fluid_temperature_max",),
            data={**said, "limit": cell.max_c},
        )
    return Finding(
        "medium",
        "medium",
        Verdict.FITS,
        "ptfe_suits",
        have=cell.verdict,
        evidence=cell.evidence,
        remark=cell.verdict == "limited",
        data=said,
    )


CHECKS = (
    check(
        "medium",
        "medium",
        "medium fluid_temperature_max fluid_temperature_min medium_statement",
        judge_medium,
        "construction",
    ),
)
