"""What does the interview do with a line? Answers, corrections, steering words, stops, and the order of telling."""

from __future__ import annotations

import itertools
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from talks import EASY, EXPERIENCED, kinds, sense, started, to_review, words

from interview.catalogue import CATALOGUE
from interview.dialogue import commands
from interview.dialogue import events as ev
from interview.dialogue.session import Session, bench
from interview.language.model import Heard
from interview.language.read import read_value
from interview.plain import lines_of
from interview.selection.judge import Bench
from interview.terminal import help_text
from interview.terminal.rows import rows_of

BAR = 1e5
BENCH = bench()


# ---- nothing answers by accident -----------------------------------------------------------------------------------


@pytest.mark.parametrize("empty", ["", " ", "\n", "\t", "\r\n", "\x00", "\u200b"])
def test_an_empty_enter_answers_nothing(on: Bench, empty: str) -> None:
    session = started(on)
    before = sense(session)
    assert kinds(session.say(empty)) == ["Explained"]
    assert sense(session) == before
    to_review(session)
    before = sense(session)
    session.say(empty)
    assert sense(session) == before and session.state == "review"


@pytest.mark.parametrize(
    "nonsense",
    [
        "asdf qwer",
        "no idea",
        "keine Ahnung",
        "je ne sais pas",
        "no lo sé",
        "わかりません",
        "🙂",
        "[red]",
        "[/b]",
        "{}",
        "%s %d",
        "../../etc/passwd",
        "'; DROP TABLE facts; --",
        "\x1b[31mred\x1b[0m",
        "[psi] max",
        "?" * 50,
        "/",
        "//",
        "/ ",
        "0",
        "99",
        "1 2 3",
        "-",
        "1e999",
        "٣٠٠٠ psi",
    ],
)
def test_nonsense_gets_an_answer_and_invents_no_fact(on: Bench, nonsense: str) -> None:
    """Of a fresh interview: something is said, the question stays or goes on, and no number was made of it."""
    session = started(on)
    events = session.say(nonsense)
    assert events
    assert (
        session.state in ("job", "review", "clarifying", *CATALOGUE["line_function"].choices)
        or session.asked is not None
    )
    for name, fact in session.said.items():
        assert not isinstance(fact.value, float), f"{nonsense!r} gave {name}"


def test_a_hundred_kilobytes_pasted(on: Bench) -> None:
    session = started(on)
    for text in ("x" * 100_000, "2500 psi " * 12_000, "a\n" * 50_000, "1/" * 50_000):
        assert session.say(text)
        assert session.asked is not None or session.state in ("clarifying", "conflict", "referred")


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.one_of(
            st.text(max_size=40),
            st.sampled_from(sorted(set(EASY.values()))),
            st.sampled_from(
                [
                    "undo",
                    "later",
                    "back",
                    "go to ends",
                    "why",
                    "how",
                    "facts",
                    "fits",
                    "list",
                    "none",
                    "don't know",
                    "1",
                    "2",
                    "build",
                    "accept",
                    "remove medium",
                    "change working pressure to 210 bar",
                    "why not 1SN",
                    "180 F",
                    "working pressure 90 bar",
                    "resume",
                ]
            ),
        ),
        max_size=12,
    )
)
def test_whatever_is_typed_the_interview_stands(lines: list[str]) -> None:
    """Any lines in any order: no exception, a known state, a question or an end, and the engine's invariants."""
    session = Session(on=BENCH)
    session.open()
    for line in lines:
        assert session.say(line)
        assert (session.asked is not None) or session.state in (
            "review",
            "settled",
            "referred",
            "clarifying",
            "conflict",
        )
        assert session.judgement.needs.known is session.known
        assert all(f.name in CATALOGUE for f in session.now.ledger.entries)


# ---- corrections, conflicts, doubts --------------------------------------------------------------------------------


def test_a_change_supersedes_and_what_rested_on_it_is_worked_out_anew(on: Bench) -> None:
    session = started(on, "pressure line, pump 45 cc, 1800 rpm, 180 bar")
    assert session.known["flow_rate"].json_value() == pytest.approx(81)
    session.say("change pump speed to 1000 rpm")
    assert session.known["flow_rate"].json_value() == pytest.approx(45)
    assert len(session.now.ledger.history("pump_speed")) == 2


def test_a_contradiction_is_shown_back_and_the_worse_governs(on: Bench) -> None:
    session = started(on, "working pressure 180 bar")
    events = session.say("working pressure is 250 bar")
    assert session.state == "conflict"
    assert isinstance(events[-1], ev.Conflicted) and len(events[-1].options) == 2
    assert session.known.high("working_pressure") == pytest.approx(250 * BAR)
    session.say("1")
    assert session.state != "conflict" and session.known.high("working_pressure") == pytest.approx(180 * BAR)


def test_what_is_asked_back_names_the_question_that_waits_in_both_faces(on: Bench) -> None:
    session = started(on, "working pressure 180 bar")
    assert session.asked is not None and session.asked.text.startswith("What broke, and how?")
    asked_back = session.say("working pressure is 250 bar")[-1]
    assert isinstance(asked_back, ev.Conflicted)
    assert asked_back.then == 'After this I ask again: "What broke, and how?"'
    assert f"  {asked_back.then}" in lines_of(asked_back)
    assert rows_of([asked_back])[-1].foot == asked_back.then
    assert session.say("1")[-1] == session.asked


def test_a_question_that_its_line_answered_or_that_is_itself_in_doubt_does_not_wait(on: Bench) -> None:
    session = started(on, "working pressure 180 bar")
    asked_back = session.say("it rubbed through, none failed before; working pressure 250 bar")[-1]
    assert isinstance(asked_back, ev.Conflicted) and asked_back.then == ""
    session = started(on)
    session.say("go pressure")
    assert session.asked is not None and "working_pressure" in session.asked.parts
    asked_back = session.say("working pressure 10000 bar, spikes to 200 bar")[-1]
    assert isinstance(asked_back, ev.Doubted) and asked_back.then == ""


def test_a_list_to_tick_comes_back_whole_after_a_line_about_something_else(on: Bench) -> None:
    session = started(on, EXPERIENCED, "none", "yes it ran well", home="us")
    whole = session.asked
    assert whole is not None and whole.many and len(whole.parts) > 10
    asked_back = session.say("working pressure is 3000 psi")[-1]
    assert isinstance(asked_back, ev.Conflicted)
    assert asked_back.then == 'After this I ask again: "Does any of this apply where the hose sits?"'
    session.say("2")
    assert session.asked is not None and session.asked.parts == whole.parts


def test_an_option_that_is_not_there_is_refused(on: Bench) -> None:
    session = started(on, "working pressure 180 bar", "working pressure is 250 bar")
    assert "Refused" in kinds(session.say("7"))
    assert session.state == "conflict"


def test_an_implausible_number_is_questioned_back(on: Bench) -> None:
    for line, name in (
        ("working pressure 10000 bar", "working_pressure"),
        ("hottest oil -300 C", "fluid_temperature_max"),
    ):
        session = started(on)
        session.say(line)
        assert not session.said.has(name), line
        assert session.state == "clarifying"
        session.say("2")
        assert not session.said.has(name)


def test_undo_stands_where_it_stood(on: Bench) -> None:
    session = started(on)
    stood = [sense(session)]
    for line in (
        "it rubbed through",
        "none",
        "EN 853 2SN DN12 275 bar",
        "pressure line",
        "HLP 46",
        "180 bar, spikes to 200 bar",
    ):
        session.say(line)
        stood.append(sense(session))
    for before in reversed(stood[:-1]):
        assert "Undone" in kinds(session.say("undo"))
        assert sense(session) == before
    assert "nothing to take back" in words(session.say("undo"))


def test_back_is_undo(on: Bench) -> None:
    session = started(on, "it rubbed through", "none")
    session.say("back")
    assert session.asked is not None and session.asked.parts == ("regulated_use",)


def test_later_puts_a_question_off_and_it_comes_back(on: Bench) -> None:
    session = started(on, "it rubbed through", "none", "half inch", "pressure line")
    assert session.asked is not None and "medium" in session.asked.parts
    session.say("later")
    assert session.asked is not None and "medium" not in session.asked.parts
    asked = to_review(session)
    assert any("medium" in parts for parts in asked)
    assert session.said.text("medium") == "hm"


@pytest.mark.parametrize(
    ("topic", "facts"),
    [
        ("ends", "end_a_family"),
        ("temperature", "fluid_temperature_max"),
        ("medium", "medium"),
        ("pressure", "working_pressure"),
        ("routing", "overall_length"),
    ],
)
def test_go_jumps_to_a_topic(on: Bench, topic: str, facts: str) -> None:
    session = started(on, "pressure line")
    session.say(f"go to {topic}")
    assert session.asked is not None and facts in session.asked.parts
    assert session.state == topic


def test_remove_takes_a_fact_back_and_asks_again(on: Bench) -> None:
    session = started(on, "it rubbed through", "none", "half inch", "pressure line", "HLP 46")
    session.say("remove medium")
    assert not session.said.answered("medium")
    assert session.asked is not None and "medium" in session.asked.parts
    assert "Refused" in kinds(session.say("remove the moon"))


@pytest.mark.parametrize("page", ["\n".join(commands.HELP), help_text.HELP], ids=["plain", "app"])
def test_every_command_is_in_the_help(page: str) -> None:
    words = {"whynot": "why not", **{word: word for word, _ in commands.PATTERNS if word != "whynot"}}
    listed = {head.strip() for line in page.splitlines() for head in re.split(r" {2,}", line)[0].split(",")}
    for word in words.values():
        assert any(re.match(rf"{word}(?: |\Z)", head) for head in listed), word


@pytest.mark.parametrize("word", [word for word, pattern in commands.PATTERNS if "rest" not in pattern])
def test_every_command_that_the_help_names_is_known(on: Bench, word: str) -> None:
    assert "Refused" not in kinds(started(on).say(f"/{word}"))


@pytest.mark.parametrize("word", ["help", "/help", "why", "how", "facts", "fits", "list", "why not 1SN", "/why"])
def test_asking_back_changes_nothing(on: Bench, word: str) -> None:
    session = started(on, "it rubbed through", "none", "half inch", "pressure line")
    before = sense(session)
    assert kinds(session.say(word)) == ["Explained"]
    assert sense(session) == before


def test_a_slash_word_that_is_no_command_is_refused(on: Bench) -> None:
    session = started(on)
    before = sense(session)
    assert kinds(session.say("/dance")) == ["Refused"]
    assert sense(session) == before


def test_why_not_names_the_check_and_its_source(on: Bench) -> None:
    session = started(on, EXPERIENCED)
    told = words(session.say("why not 1SN"))
    assert "fails" in told and "spike" in told
    assert "(standard" in told or "(restated" in told


# ---- stops and injuries --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "line",
    [
        "brake hose for a trailer",
        "steam hose for a laundry press",
        "it is for an aircraft",
        "hose for oxygen",
        "LPG line on a forklift",
        "ammonia hose for a field applicator",
        "water jetting lance hose",
    ],
)
def test_a_stop_ends_at_once_and_says_where_to_go(on: Bench, line: str) -> None:
    session = started(on)
    events = session.say(line)
    assert session.state == "referred" and session.finished
    stop = events[-2]
    assert isinstance(stop, ev.Referred) and stop.where.strip()
    assert "If that is not so: change " in words(events[-1:])  # a stop heard wrongly is no dead end
    assert "Asked" not in kinds(events)
    assert session.standing().ready_for == "none"


def test_a_stop_stays_until_it_is_corrected(on: Bench) -> None:
    session = started(on, "brake hose for a trailer", "180 bar", "half inch")
    assert session.state == "referred" and session.asked is None
    session.say("remove regulated use")
    assert session.state != "referred"


@pytest.mark.parametrize(
    "line",
    [
        "my hand got sprayed by oil from the burst hose",
        "a jet of oil went into his finger",
        "oil injected into the hand",
        "burst hose, 2500 psi, and the operator was hit by the oil jet, hand pierced",
    ],
)
def test_words_of_an_injury_show_the_emergency_before_anything_else(on: Bench, line: str) -> None:
    for before in (
        [],
        ["it rubbed through", "none"],
        [EXPERIENCED],
        ["180 F"],
        ["working pressure 180 bar", "working pressure is 250 bar"],
        ["brake hose for a trailer"],
    ):
        session = started(on, *before)
        events = session.say(line)
        assert kinds(events)[0] == "Emergency", (before, kinds(events))
        assert "hospital" in words(events[:1]).lower()


# ---- the order of telling ------------------------------------------------------------------------------------------

TOLD: dict[str, str] = {
    "regulated_use": "none",
    "line_function": "pressure",
    "bore": "1/2 in",
    "working_pressure": "180 bar",
    "surge_pressure": "205 bar",
    "medium": "hm",
    "fluid_temperature_max": "65 C",
    "ambient_temperature_max": "30 C",
    "ambient_temperature_min": "-5 C",
    "flow_rate": "40 L/min",
    "end_a_family": "orfs",
    "end_a_size": "-8",
    "overall_length": "1200 mm",
}


def read(name: str) -> Heard:
    if name == "regulated_use":
        return Heard(name, ("none",), said="none")
    if name in ("line_function", "medium", "end_a_family", "end_a_size"):
        return Heard(name, TOLD[name], said=TOLD[name])
    return read_value(name, TOLD[name])


def result_of(session: Session) -> object:
    standing = session.standing()
    return (
        {n: f.value for n, f in session.known.items()},
        session.judgement.marks,
        standing.outcome,
        standing.preferred,
        standing.assembly,
        set(standing.open),
        set(standing.missing_for_build),
    )


@settings(max_examples=25, deadline=None)
@given(st.permutations(sorted(TOLD)))
def test_the_order_of_answers_does_not_change_the_result(order: list[str]) -> None:
    ordered, shuffled = Session(on=BENCH), Session(on=BENCH)
    for session, names in ((ordered, sorted(TOLD)), (shuffled, order)):
        session.open()
        for name in names:
            session.answer({name: read(name)})
    assert result_of(ordered) == result_of(shuffled)


def test_one_line_or_many_give_one_result(on: Bench) -> None:
    parts = [
        "pressure line",
        "half inch hose",
        "2500 psi peaks 3200 psi",
        "AW46",
        "oil to 180F",
        "air -10 to 100F",
        "42 in long",
    ]
    whole = started(on, ", ".join(parts))
    for order in itertools.islice(itertools.permutations(parts), 0, 5040, 997):
        assert result_of(started(on, *order)) == result_of(whole), order


def test_the_units_most_of_the_job_was_said_in_are_shown_first(on: Bench) -> None:
    """One reading in millimetres does not turn a job in psi and inches into a metric one, nor back."""
    session = started(on, EXPERIENCED)
    assert session.home == "us"
    session.say("the port distance is 900 mm")
    assert session.home == "us"
    metric = started(on, "pressure line, 180 bar, oil to 70 C, flow 40 L/min")
    metric.say("air 100 F at most")
    assert metric.home == "metric"
