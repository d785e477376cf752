"""How does it stand, in words? The result, what is open and where to find it out, what a build still needs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from interview.catalogue import CATALOGUE
from interview.dialogue import events as ev
from interview.dialogue.failures import next_hose_lines
from interview.dialogue.views import fact_line, value_shown
from interview.dialogue.wording import (
    NOT_KNOWN,
    PARTS,
    fact_shown,
    finding_sentence,
    hose_name,
    label,
    missing_text,
    quantity,
    remark_sentence,
)
from interview.facts import Fact, Origin
from interview.language.show import show_rating
from interview.selection.finding import Verdict
from interview.selection.outcome import Standing
from interview.selection.put_in import put_in

if TYPE_CHECKING:
    from interview.dialogue.session import Session

FIND_OUT = 3  # open points whose finding out is told; the rest are named

ENDS_BLOCK = "No assembly passes: there is a hose for it, and what is on its ends blocks it."
BEYOND = {
    "tables": "Nothing in the tables carries {pressure}.",
    "bore": "Nothing in the tables carries {pressure} at this size.",
}
WHERE_TO_GO = (
    "A hose that its maker rates for it would, once it is entered on the shop's shelf with the maker's document and "
    "its date; else ask the machine's maker."
)


def headline(standing: Standing, home: str) -> str:
    """The result in one plain sentence."""
    if standing.outcome == "referred":
        return "Referred: this is not for a hydraulics counter."
    if standing.outcome == "unmatched":
        told = ENDS_BLOCK if standing.judgement.ends_block else "No hose of the tables passes."
        return f"{told} {assumed}" if (assumed := on_assumed_spike(standing, home)) else told
    if standing.preferred is None or standing.assembly is None:
        return "No hose can be named yet: neither the bore nor the flow is known."
    candidate = standing.judgement.bench.candidates[standing.preferred.index]
    name = hose_name(candidate, home)
    if standing.judgement.verdict(standing.preferred.index) is not Verdict.FITS:
        most = show_rating(standing.assembly.at_most or 0.0, home, standing.assembly.psi)
        return f"Nothing fits for certain yet; likeliest so far {name}, at most {most}."
    bears = show_rating(standing.assembly.at_most or 0.0, home, standing.assembly.psi)
    if standing.assembly.rating is not None:
        return f"{name}; the assembly stands {bears}."
    return f"{name}; the assembly's rating stays open, at most {bears}."


def on_assumed_spike(standing: Standing, home: str) -> str:
    """What is to be said where it is the spike nobody measured that nothing carries; else empty."""
    judgement, needs = standing.judgement, standing.judgement.needs
    assumed = needs.known.origin(needs.pressure_from) is Origin.ASSUMED
    blocked = {finding.check for finding in judgement.failing(judgement.least_failed)}
    if not assumed or not blocked & {"pressure", "ends"}:
        return ""
    spike = quantity("pressure", needs.pressure_shown, home)
    return f"The spike of {spike} is assumed: measured it may be lower, and a hose may pass."


def nearest(standing: Standing, home: str) -> str:
    """Unmatched: what comes nearest and what blocks it, and where to go where no hose carries the pressure."""
    judgement = standing.judgement
    index = judgement.least_failed
    name = hose_name(judgement.bench.candidates[index], home)
    blocks = "; ".join(finding_sentence(f, home) for f in judgement.failing(index))
    told = f"{name} would do; blocked: {blocks}." if judgement.ends_block else f"Nearest: {name}; blocked: {blocks}."
    beyond = BEYOND.get(judgement.carried_by_none())
    if beyond is None:
        return told
    pressure = quantity("pressure", judgement.needs.pressure_shown, home)
    return f"{told} {beyond.format(pressure=pressure)} {WHERE_TO_GO}"


def review(session: Session) -> ev.Event:
    standing = session.standing()
    home = session.home
    lines = [headline(standing, home)]
    if standing.judgement.needs.known.flag("repeat_failure"):
        lines.append("The same hose failed before within a year: find the cause before another one is built.")
    if standing.preferred is not None and standing.assembly is not None:
        if standing.assembly.limited_by not in (None, "hose"):
            lines.append(f"The weakest part is {PARTS[standing.assembly.limited_by or 'hose']}.")
        lines.append(f"Chosen by: {standing.preferred.decided_by}.")
        remarks = standing.judgement.remarks(standing.preferred.index)
        lines += [f"Advice: {remark_sentence(r, home)}." for r in remarks]
    elif standing.outcome == "unmatched":
        lines.append(nearest(standing, home))
    lines += next_hose_lines(standing.judgement.needs.known)
    for fact in standing.assumed:
        lines.append(f"Assumed: {fact_line(session, fact)}; confirm by {fact.confirm_by}.")
    if standing.preferred is not None:
        lines += ruled_lines(session, put_in(standing.judgement, standing.preferred.index))
    if standing.open:
        lines.append("Open: " + ", ".join(open_label(n) for n in standing.open) + ".")
        lines += find_out(session, standing)
    missing = missing_lines(session, standing)
    lines.append(
        {"build": "Ready to build.", "quote": "Ready for a quote, not for building.", "none": "Not ready for a quote."}[
            standing.ready_for
        ]
    )
    return ev.Reviewed(standing.outcome, standing.ready_for, tuple(lines), missing)


def ruled_lines(session: Session, facts: Iterable[Fact]) -> list[str]:
    """What house rules put in; both ends in one line where they get the same."""
    alike: dict[tuple[str, str], list[str]] = {}
    for fact in facts:
        alike.setdefault((value_shown(fact, session), fact.confirm_by), []).append(label(fact.name))
    return [
        f"Assumed by house rule: {' and '.join(names)}: {shown}; confirm by {confirm_by}."
        for (shown, confirm_by), names in alike.items()
    ]


def find_out(session: Session, standing: Standing) -> list[str]:
    """How the first open points are found out, for whoever goes back to the machine."""
    unknown = [n for n in standing.open if n in session.flow.questions and not session.known.has(n)]
    return [
        f"To find out {question.short}: {question.how}" for n in unknown if (question := session.flow.questions[n]).how
    ][:FIND_OUT]


def missing_lines(session: Session, standing: Standing) -> tuple[str, ...]:
    """What a build still needs: what nobody knows by name only, what is known too loosely with the reason."""
    known = session.known
    return tuple(
        missing_text(n, fact_shown(fact, session.home, session.flow.option_labels), fact.origin)
        if n in CATALOGUE and (fact := known.get(n)) is not None and known.has(n)
        else open_label(n)
        for n in standing.missing_for_build
    )


def open_label(name: str) -> str:
    """A fact's label, or the name of the check that is open."""
    own = {"hose": "a hose that fits for certain", "medium": "the fluid"}
    if name in NOT_KNOWN:
        return NOT_KNOWN[name].removesuffix(": not known")
    return own.get(name) or (label(name) if name in CATALOGUE else f"{name} check")
