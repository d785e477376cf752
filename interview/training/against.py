"""Did a change make anything safer or less safe? Outcomes of a replay against an earlier --json run."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

CAUTION = {"specified": 0, "provisional": 1, "unmatched": 2, "referred": 3}  # more cautious upwards
READY = {"build": 0, "quote": 1, "none": 2}


def compare(results: Sequence[Mapping[str, Any]], saved: Path) -> tuple[list[str], bool]:
    """One line a scenario (same, safer, less safe, other), and whether anything became less safe or was lost."""
    earlier: dict[str, Mapping[str, Any]] = {}
    for number, line in enumerate(saved.read_text(encoding="utf-8").splitlines(), 1):
        try:
            row = json.loads(line)
            earlier[row["scenario"]] = row
        except (ValueError, KeyError, TypeError) as error:
            raise ValueError(f"{saved.name}: line {number}: not a line of replay --json") from error
    lines: list[str] = []
    worse = False
    for row in results:
        name = row["scenario"]
        before = earlier.pop(name, None)
        if before is None:
            lines.append(f"{name}: new")
            continue
        word, why = judged(before, row)
        worse = worse or word == "less safe"
        lines.append(f"{name}: {word}{f' ({why})' if why else ''}")
    for name in earlier:
        lines.append(f"{name}: not replayed this time")
    return lines, worse


def judged(before: Mapping[str, Any], after: Mapping[str, Any]) -> tuple[str, str]:
    """same, safer, less safe or other, with what changed."""
    steps = [
        (CAUTION[after["outcome"]] - CAUTION[before["outcome"]], f"outcome {before['outcome']} -> {after['outcome']}"),
        (
            READY[after["ready_for"]] - READY[before["ready_for"]],
            f"ready for {before['ready_for']} -> {after['ready_for']}",
        ),
        (_sign(_rating(before), _rating(after)), f"rating {_rating(before)} -> {_rating(after)} bar"),
    ]
    changed = [(step, text) for step, text in steps if step]
    if any(step < 0 for step, _ in changed):
        return "less safe", "; ".join(text for step, text in changed if step < 0)
    if changed:
        return "safer", "; ".join(text for _, text in changed)
    if before.get("choice") != after.get("choice"):
        return "other", f"choice {before.get('choice')} -> {after.get('choice')}"
    return "same", ""


def _rating(row: Mapping[str, Any]) -> float | None:
    assembly = row.get("assembly") or {}
    rating = assembly.get("rating") or {}
    value = rating.get("value")
    return float(value) if value is not None else None


def _sign(before: float | None, after: float | None) -> int:
    """A higher rating claimed is less cautious; a rating withdrawn is safer."""
    if before == after:
        return 0
    if after is None:
        return 1
    if before is None:
        return -1
    return -1 if after > before * 1.001 else 1 if after < before * 0.999 else 0
