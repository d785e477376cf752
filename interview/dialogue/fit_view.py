"""Which hoses still stand, and why does one not? The candidates as the faces list them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.dialogue import events as ev
from interview.dialogue.wording import finding_sentence, hose_name
from interview.language.show import show_rating
from interview.selection.candidates import Candidate, twin_group
from interview.selection.checks.shelf import length_asked
from interview.selection.finding import Verdict
from interview.selection.judge import Bench

TOLD = 10  # lines of a list that is read from top to bottom

if TYPE_CHECKING:
    from interview.dialogue.session import Session


@dataclass(frozen=True, slots=True)
class FitLine:
    name: str
    construction: str
    bore: float
    verdict: str
    rating: str
    margin: float | None
    blocked_by: str
    recommended: bool
    twins: tuple[str, ...]
    shelf: str = ""  # the item that would be built from


@dataclass(frozen=True, slots=True)
class FitView:
    fits: int
    open: int
    fails: int
    lines: tuple[FitLine, ...]


def fit_lines(session: Session, limit: int = 12) -> FitView:
    """The candidates worth looking at: those that stand, in order of preference, then the nearest that fail."""
    judgement = session.judgement
    standing = session.standing()
    fits, still, fails = judgement.counts()
    order: Sequence[int] = ()
    if standing.preferred is not None:
        order = [standing.preferred.index, *standing.preferred.runners_up]
    elif standing.stop is None:
        order = judgement.standing
    shown: list[FitLine] = []
    seen: set[tuple[tuple[str, ...], float, str]] = set()
    for i in order:
        candidate = judgement.bench.candidates[i]
        group = (twin_group(candidate.id, judgement.bench.tables), candidate.bore, candidate.own)
        if group in seen:
            continue
        seen.add(group)
        shown.append(_fit_line(session, i, standing.preferred is not None and i == order[0]))
        if len(shown) >= limit:
            break
    if len(shown) < limit:
        bore = judgement.bench.candidates[order[0]].bore if order else judgement.needs.bore[0]
        failing = [
            i
            for i, c in enumerate(judgement.bench.candidates)
            if judgement.verdict(i) is Verdict.FAILS and (bore is None or c.bore == bore)
        ]
        for i in failing[: limit - len(shown)]:
            shown.append(_fit_line(session, i, False))
    return FitView(fits, still, fails, tuple(shown))


def _fit_line(session: Session, index: int, recommended: bool) -> FitLine:
    judgement = session.judgement
    candidate = judgement.bench.candidates[index]
    verdict = judgement.verdict(index)
    pressure = next((f for f in judgement.findings(index) if f.check == "pressure"), None)
    blocking = ""
    if verdict is not Verdict.FITS:
        finding = next(f for f in judgement.findings(index) if f.verdict is verdict)
        blocking = finding_sentence(finding, session.home)
    linked = judgement.sold_as(index)
    twins = tuple(
        f"{c.construction.standard.split(' / ')[0]} {c.construction.type.split(' (')[0]}"
        for c in linked
        if c.id != candidate.id
    )
    lowest = min(linked, key=lambda c: c.size.wp_select)
    return FitLine(
        hose_name(candidate, session.home),
        candidate.id,
        candidate.bore,
        verdict.value,
        show_rating(lowest.size.wp_select, session.home, lowest.psi),
        pressure.margin if pressure else None,
        blocking,
        recommended,
        twins,
        _on_shelf(linked, length_asked(judgement.needs.known)),
    )


def _on_shelf(linked: Sequence[Candidate], length: float | None) -> str:
    items = [item for c in linked if (item := c.item_for(length)) is not None]
    return f"{items[0].name}{f', {items[0].left_said} left' if items[0].left_said else ''}" if items else ""


def fits(session: Session) -> ev.Event:
    view = fit_lines(session, TOLD + 1)
    lines = [f"{view.fits} fit, {view.open} open, {view.fails} fail"]
    for line in view.lines[:TOLD]:
        mark = "> " if line.recommended else "  "
        tail = f": {line.blocked_by}" if line.blocked_by else f", rated {line.rating}"
        shelf = f"; on the shelf: {line.shelf}" if line.shelf else ""
        lines.append(f"{mark}{line.name} {line.verdict}{tail}{shelf}")
    if len(view.lines) > TOLD:
        lines.append(f'These are the first {TOLD}, counterparts as one; "why not X" asks about any other.')
    return ev.Explained("What still fits", tuple(lines))


def hoses_named(text: str, bench: Bench, bore: float | None) -> list[int]:
    """The candidates a person means by "2SN 8" or "en857-2sc": at the bore said, else at `bore`, else at all."""
    word = text.lower().strip()
    size = re.search(r"(?:\s|-)(\d{1,2}(?:\.5)?)\s*$", word)
    name = word[: size.start()].strip() if size else word
    bore = float(size[1]) if size else bore

    def hit(i: int, wanted: str) -> bool:
        c = bench.candidates[i].construction
        return wanted in (c.id, c.type.lower(), c.type.split(" (")[0].lower(), f"{c.standard} {c.type}".lower())

    every = range(len(bench.candidates))
    hits = [i for i in every if hit(i, word)] or [i for i in every if hit(i, name)]
    return [i for i in hits if bore is None or bench.candidates[i].bore == bore]


def why_not(session: Session, text: str) -> ev.Event:
    """Every check of one hose, by id or type, at the chosen bore or one that is named."""
    judgement = session.judgement
    preferred = session.standing().preferred
    chosen = judgement.bench.candidates[preferred.index].bore if preferred is not None else judgement.needs.bore[0]
    at = hoses_named(text, judgement.bench, chosen) or hoses_named(text, judgement.bench, None)[:1]
    if not at:
        return ev.Refused(
            text, f'"{text}" is no hose of the tables. Say it as 1SN, 2SC, 100R2AT or with its id, e.g. en857-2sc 8.'
        )
    lines = []
    for i in at[:2]:
        lines.append(f"{hose_name(judgement.bench.candidates[i], session.home)}: {judgement.verdict(i).value}")
        for finding in sorted(judgement.findings(i), key=lambda f: {"fails": 0, "open": 1, "fits": 2}[f.verdict.value]):
            source = f" ({finding.evidence.tag.value})" if finding.evidence else ""
            lines.append(f"  {finding.verdict.value}: {finding_sentence(finding, session.home)}{source}")
    negated = "" if judgement.verdict(at[0]) is Verdict.FITS else "not "
    return ev.Explained(f"Why {negated}{judgement.bench.candidates[at[0]].construction.type}", tuple(lines))


def narrowed(before: tuple[int, int, int], after: tuple[int, int, int]) -> ev.Narrowed | None:
    """What an answer changed, in one line; None where nothing did."""
    fallen = after[2] - before[2]
    if fallen == 0 and before == after:
        return None
    if fallen > 0:
        text = f"{fallen} fewer: {after[0]} fit, {after[1]} open."
    elif fallen < 0:
        text = f"{-fallen} more stand again: {after[0]} fit, {after[1]} open."
    else:
        text = f"{after[0]} fit, {after[1]} open."
    return ev.Narrowed(text, *after)
