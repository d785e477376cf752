"""How well does the listener do? Recall, precision and dangerous errors by kind, seen and held out.

Run as `python -m tests.language.score [--misses]`; `--misses` shows no lines of the held-out part.
A fact is right if named and within 1 %. Dangerous: a wrong value for a fact that was said, or a fact that was not said.
The keys are read here with exact factors of our own (NIST SP 811), not with the grammar under test.
"""

from __future__ import annotations

import sys
from collections import defaultdict
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

from interview.catalogue import CATALOGUE, Kind
from interview.facts import Span
from interview.language.listen import listen

HERE = Path(__file__).parent
PARTS = {
    "seen": (
        HERE / "utterances_seen.yaml",
        HERE / "utterances_seen_first_held_out.yaml",
        HERE / "utterances_seen_second_held_out.yaml",
        HERE / "utterances_seen_third_held_out.yaml",
    ),
    "counter": (HERE / "utterances_counter.yaml",),
    "held out": (HERE / "utterances_held_out.yaml",),
}
_PSI = 0.45359237 * 9.80665 / 0.0254**2
FACTORS = {
    "bar": 1e5,
    "psi": _PSI,
    "MPa": 1e6,
    "kPa": 1e3,
    "inHg": 3386.389,
    "mm": 1e-3,
    "m": 1.0,
    "in": 0.0254,
    "ft": 0.3048,
    "cm": 1e-2,
    "L/min": 1e-3 / 60,
    "gpm": 231 * 0.0254**3 / 60,
    "cc": 1e-6,
    "rpm": 1 / 60,
    "s": 1.0,
}


@dataclass
class Tally:
    said: int = 0
    right: int = 0
    heard: int = 0
    dangerous: int = 0
    asked_back: int = 0
    asked_back_right: int = 0
    misses: list[str] = field(default_factory=list)

    def add(self, other: Tally) -> None:
        for name in ("said", "right", "heard", "dangerous", "asked_back", "asked_back_right"):
            setattr(self, name, getattr(self, name) + getattr(other, name))
        self.misses += other.misses

    @property
    def recall(self) -> float:
        return self.right / self.said if self.said else 1.0

    @property
    def precision(self) -> float:
        return self.right / self.heard if self.heard else 1.0


def key_number(raw: Any) -> float:
    if isinstance(raw, int | float):
        return float(raw)
    number, unit = str(raw).split(" ", 1)
    if unit == "C":
        return float(number)
    if unit == "F":
        return (float(number) - 32) * 5 / 9
    return float(number) * FACTORS[unit]


def close(a: float | None, b: float | None) -> bool:
    if a is None or b is None:
        return a is b
    return abs(a - b) <= 0.01 * abs(b) + 1e-9


def same(name: str, value: object, key: Any) -> bool:
    kind = CATALOGUE[name].kind
    if kind is Kind.QUANTITY:
        if isinstance(key, list):
            low, high = (None if k is None else key_number(k) for k in key)
            return isinstance(value, Span) and close(value.low, low) and close(value.high, high)
        return isinstance(value, float) and close(value, key_number(key))
    if kind is Kind.MANY:
        return isinstance(value, tuple) and set(value) == set(key)
    if kind is Kind.FLAG:
        return value is key
    if kind is Kind.TEXT:
        return str(value).lower().strip() == str(key).lower().strip()
    return str(value).lower() == str(key).lower()


def score_line(row: dict[str, Any]) -> Tally:
    asked = row.get("asked", [])
    got = listen(row["say"], asked=[asked] if isinstance(asked, str) else asked, home=row.get("home", "metric"))
    facts = {h.name: h for h in got.facts}
    tally = Tally(said=len(row["facts"]), heard=len(facts))
    for name, key in row["facts"].items():
        if name in facts and same(name, facts[name].value, key):
            tally.right += 1
        elif name in facts:
            tally.dangerous += 1
            tally.misses.append(f"WRONG {row['say']!r}: {name} = {facts[name].value!r}, key {key!r}")
        else:
            tally.misses.append(f"missed {row['say']!r}: {name} ({[u.could_be for u in got.unclear]})")
    for name in facts:
        if name not in row["facts"]:
            tally.dangerous += 1
            tally.misses.append(f"NOT SAID {row['say']!r}: {name} = {facts[name].value!r} ({facts[name].said!r})")
    for name in row.get("hedged", []):
        if name in facts and not facts[name].hedged:
            tally.misses.append(f"not hedged {row['say']!r}: {name}")
    for name in row.get("unclear", []):
        tally.asked_back += 1
        if any(name in u.could_be for u in got.unclear):
            tally.asked_back_right += 1
        else:
            tally.misses.append(f"not asked back {row['say']!r}: {name}")
    return tally


def score(paths: tuple[Path, ...]) -> dict[str, Tally]:
    kinds: dict[str, Tally] = defaultdict(Tally)
    for row in (row for path in paths for row in yaml.safe_load(path.read_text(encoding="utf-8"))):
        one = score_line(row)
        kinds[row["kind"]].add(one)
        kinds["all"].add(one)
    return dict(kinds)


def main() -> int:
    for part, paths in PARTS.items():
        kinds = score(paths)
        print(f"{part:<10} {'facts':>6} {'recall':>8} {'precision':>10} {'dangerous':>10} {'asked back':>11}")
        for kind, tally in sorted(kinds.items(), key=lambda pair: pair[0] == "all"):
            back = f"{tally.asked_back_right}/{tally.asked_back}"
            print(
                f"{kind:<10} {tally.said:>6} {tally.recall:>8.1%} {tally.precision:>10.1%} {tally.dangerous:>10} "
                f"{back:>11}"
            )
        if ("--misses" in sys.argv and part != "held out") or "--all-misses" in sys.argv:
            print("\n".join("  " + miss for miss in kinds["all"].misses))
        print()
    return 0


if __name__ == "__main__":
    sys.exit(main())
