"""Does a shop's own copy of the flows say what is wrong in it: file, line, what would do, each fault once?"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from interview.dialogue.lint import lint
from interview.resources import shipped
from interview.selection.candidates import all_candidates
from interview.selection.house_rules import KINDS, RulesError, load_house_rules
from interview.selection.judge import Bench


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    """A whole copy of the shipped flows, as a shop begins with."""
    folder = tmp_path / "flows"
    shutil.copytree(shipped("flows"), folder)
    return folder


def changed(folder: Path, name: str, old: str, new: str) -> int:
    """Replaces the first `old` of a file; returns its line."""
    path = folder / name
    text = path.read_text(encoding="utf-8")
    assert old in text, f"{name} no longer holds {old!r}"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    return text[: text.index(old)].count("\n") + 1


# What stood in a rule, what a slip makes of it, the field, why it will not do, what would do.
DANGEROUS = [
    ("proof_ratio: 2.0", "proof_ratio: 4.0", "proof_ratio", "burst pressure", "at most 2 would do"),
    ("proof_ratio: 2.0", "proof_ratio: 2.1", "proof_ratio", "burst pressure", "at most 2 would do"),
    ("nbr_up_to: 100", "nbr_up_to: 212", "seal_not_known.nbr_up_to", "above 100 °C", "100 or less would do"),
    ("nbr_up_to: 100", "nbr_up_to: 101", "seal_not_known.nbr_up_to", "above 100 °C", "100 or less would do"),
    ("default: NBR", "default: RUBBER", "seal_not_known.default", "no seal material", "one of NBR, HNBR"),
    ("default: NBR", "default: EPDM", "seal_not_known.default", "stands mineral oil", "one of NBR, HNBR"),
    ("above: FKM", "above: NBR", "seal_not_known.above", "ends at 100 °C", "goes above 100 °C would do"),
    ("STEEL_ZN ", "ZINK ", "metal_not_known", "no metal", "STEEL_ZN"),
    (
        "cooled_mineral_system: 80",
        "cooled_mineral_system: 180",
        "fluid_temperature_not_known.cooled_mineral_system",
        "no temperature of a cooled",
        "60 to 100 °C would do",
    ),
    (
        "cooled_mineral_system: 80",
        "cooled_mineral_system: 30",
        "fluid_temperature_not_known.cooled_mineral_system",
        "no temperature of a cooled",
        "60 to 100 °C would do",
    ),
    ("guide: 6.0", "guide: 8.0", "velocity.pressure.guide", "above the upper bound", "7.6 m/s or less would do"),
    (
        "guide: 6.0, upper: 7.6",
        "guide: 20, upper: 60",
        "velocity.pressure.upper",
        "an upper bound of ours",
        "10 m/s or less would do",
    ),
    ("  pilot:      {guide", "  pilots:     {guide", "velocity.pilots", "no line does that", "pilot"),
    ("low: 5, high: 40", "low: 50, high: 40", "ambient_not_known.indoors.low", "not below the hottest", "low is the"),
    ("  on_deck:", "  engine_bay:", "ambient_not_known.engine_bay", "may not be assumed", "take the entry out"),
    ("  on_deck:", "  attic:", "ambient_not_known.attic", "no surroundings", "one of open_air"),
    ("low: 5, high: 40", "low: 5, high: 104", "ambient_not_known.indoors.high", "no air temperature", "is it in °F?"),
    ("pressure: [one_wire", "pressure: [one_wyre", "usual_kind.pressure.0", "no kind of hose", "one_wire"),
    ("factor_smooth: 1.2", "factor_smooth: 1.6", "surge.factor_otherwise", "below factor_smooth", "at least 1.6"),
]


@pytest.mark.parametrize(("old", "new", "field", "why", "would_do"), DANGEROUS, ids=[d[1][:34] for d in DANGEROUS])
def test_a_dangerous_rule_is_refused_when_checked_and_when_loaded(
    shop: Path, old: str, new: str, field: str, why: str, would_do: str
) -> None:
    line = changed(shop, "house-rules.yaml", old, new)
    told = [f for f in lint(shop) if f": {field}: " in f]
    assert len(told) == 1, lint(shop)
    if not field.startswith("surge"):  # the figure that is too low there stands a line below the one changed
        assert told[0].startswith(f"house-rules.yaml: line {line}: ")
    assert why in told[0] and would_do in told[0]
    with pytest.raises(RulesError, match=r"^house-rules\.yaml: line \d+: "):
        load_house_rules(shop / "house-rules.yaml")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("proof_ratio: 2.0", "proof_ratio: 1.5"),
        ("nbr_up_to: 100", "nbr_up_to: 90"),
        ("cooled_mineral_system: 80", "cooled_mineral_system: 95"),
        ("guide: 6.0, upper: 7.6", "guide: 7.6, upper: 7.6"),
        ("low: 5, high: 40", "low: -10, high: 45"),
    ],
)
def test_a_shop_may_decide_otherwise_on_the_safe_side(shop: Path, old: str, new: str) -> None:
    changed(shop, "house-rules.yaml", old, new)
    assert lint(shop) == []


def test_all_rules_that_will_not_do_are_told_at_once(shop: Path) -> None:
    changed(shop, "house-rules.yaml", "proof_ratio: 2.0", "proof_ratio: 4.0")
    changed(shop, "house-rules.yaml", "nbr_up_to: 100", "nbr_up_to: 150")
    assert [f.split(": ")[2] for f in lint(shop)] == ["seal_not_known.nbr_up_to", "proof_ratio"]


def test_the_kinds_a_rule_may_name_are_those_hoses_have(on: Bench) -> None:
    assert {c.kind for c in all_candidates(on.tables)} == KINDS


def test_a_bound_is_told_in_our_words(shop: Path) -> None:
    line = changed(shop, "house-rules.yaml", "factor_smooth: 1.2", "factor_smooth: 0.5")
    assert lint(shop) == [f"house-rules.yaml: line {line}: surge.factor_smooth: has to be at least 1 (read 0.5)"]


def test_a_yes_is_no_figure(shop: Path) -> None:
    """`true` would otherwise be read as 1 m/s."""
    line = changed(shop, "house-rules.yaml", "guide: 6.0", "guide: true")
    assert lint(shop) == [
        f"house-rules.yaml: line {line}: velocity.pressure.guide: has to be a plain number, like 2.5 (read True)"
    ]


def test_a_misspelt_key_is_named_and_told_once(shop: Path) -> None:
    """`asks:` in a question and `akss:` in the job that three others are based on."""
    question = changed(shop, "topics/pressure.yaml", "    ask: ", "    asks: ")
    turn = changed(shop, "failed_hose.yaml", "asks: ", "akss: ")
    first, second = lint(shop)
    assert first == (f"pressure.yaml: line {question}: questions.working_pressure.asks: no such key here; ask would do")
    assert second == f"failed_hose.yaml: line {turn}: turns.0.akss: no such key here; asks would do"


def test_a_missing_topic_file_is_told_once(shop: Path) -> None:
    (shop / "topics" / "medium.yaml").unlink()
    told = lint(shop)
    assert len(told) == 1 and told[0].startswith("failed_hose.yaml: line ")
    assert "there is no file for the topic medium" in told[0] and told[0].count("viscosity_grade") == 1


def test_the_lessons_are_checked_too(shop: Path) -> None:
    """A lesson that cannot be read, found out only when somebody asks for it, would end the interview."""
    line = changed(shop, "teaching.yaml", "title: ", "titel: ")
    assert [f.split(": ", 2)[:2] for f in lint(shop)] == [["teaching.yaml", f"line {line}"]]
    assert lint(shop)[0].endswith(".titel: no such key here; title would do")
    (shop / "teaching.yaml").unlink()
    assert len(lint(shop)) == 1 and "teaching.yaml: cannot be read" in lint(shop)[0]
