"""Does the screen hand on what is typed, show what comes back, and lose nothing? Played against a scripted session."""

from __future__ import annotations

import threading
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import pytest
from fake_session import FakeSession
from screen_helpers import screen_text, shows, squeezed, wait_for
from textual import events
from textual.pilot import Pilot

from interview.dialogue import events as ev
from interview.terminal.app import CounterApp
from interview.terminal.conversation import SHOWN, SLACK, Conversation
from interview.terminal.counter import CounterScreen
from interview.terminal.entry import Entry, options_content
from interview.terminal.first_page import load_page, save_page
from interview.terminal.prompt import Prompt
from interview.terminal.rows import Row
from interview.terminal.side import Side

SMALL = (80, 24)
WIDE = (120, 40)


def counter(session: FakeSession | None = None, **options: Any) -> CounterApp:
    return CounterApp(lambda: session or FakeSession(), look="dark", **options)


@asynccontextmanager
async def at_the_counter(
    app: CounterApp, size: tuple[int, int] = SMALL
) -> AsyncIterator[tuple[Pilot[int], CounterScreen]]:
    """The app, once its first question is on the screen."""
    async with app.run_test(size=size) as pilot:
        yield pilot, await opened(pilot)


class Gate:
    """Holds the session back until it is opened."""

    def __init__(self) -> None:
        self.session = FakeSession()
        self._open = threading.Event()

    def open(self) -> None:
        self._open.set()

    def __call__(self) -> FakeSession:
        self._open.wait(5)
        return self.session


async def opened(pilot: Pilot[int]) -> CounterScreen:
    await wait_for(pilot, lambda: "Which line of the machine" in screen_text(pilot.app), "the first question")
    screen = pilot.app.screen
    assert isinstance(screen, CounterScreen)
    return screen


async def send(pilot: Pilot[int], line: str) -> None:
    prompt = pilot.app.screen.query_one(Prompt)
    prompt.value = line
    await pilot.press("enter")


async def test_small_screen_has_conversation_prompt_and_one_status_line() -> None:
    app = counter()
    async with at_the_counter(app) as (_, screen):
        lines = screen_text(app).splitlines()
        assert len(lines) == 24
        assert lines[-3].startswith("── ▸ job") and "14 fit · 210 open" in lines[-3]
        assert lines[-2].startswith(" ›")
        assert lines[-1].startswith(" F1 help") and "ctrl+q leave" in lines[-1]
        assert not screen.query_one(Side).display
        assert "?  don't know" in screen_text(app)


async def test_wide_screen_shows_known_and_fits_beside_with_words_for_origin_and_verdict() -> None:
    app = counter()
    async with at_the_counter(app, WIDE) as (pilot, _):
        await send(pilot, "1")
        await send(pilot, "none")
        await send(pilot, "2500 psi")
        await shows(pilot, "And the highest spike")
        text = squeezed(screen_text(app))
        assert "What is known" in text and "What still fits" in text
        assert "258 bar (3740 psi) assumed" in text
        beside = squeezed(" ".join(line.rpartition("│")[2] for line in screen_text(app).splitlines()))
        assert "160 bar; out: working pressure" in beside and "210 bar; open: highest spike is not" in beside
        assert "first choice, 275 bar; fits, 25% to spare" in beside


async def test_brackets_control_characters_and_wide_characters_survive() -> None:
    async with at_the_counter(counter()) as (pilot, _):
        await send(pilot, "1/2 [in] [red]hose[/red] [/b] 高圧 \x1b[31m")
        await shows(pilot, "1/2 [in] [red]hose[/red] [/b] 高圧 ·[31m")


async def test_refusal_puts_the_line_back_and_does_not_repeat_the_question() -> None:
    app = counter()
    async with at_the_counter(app) as (pilot, screen):
        await send(pilot, "bad")
        await shows(pilot, "Give it in bar or psi as the gauge shows it.")
        assert squeezed(screen_text(app)).count("Which line of the machine") == 1
        assert screen.prompt.value == "bad"
        await pilot.press("7")  # the line is selected: typing replaces it
        assert screen.prompt.value == "7"


async def test_a_fault_inside_ends_in_a_sentence_with_the_line_back_in_the_prompt(tmp_path: Path) -> None:
    log = tmp_path / "faults.log"
    app = counter(fault_log=log)
    async with at_the_counter(app) as (pilot, screen):
        await send(pilot, "boom")
        await shows(pilot, "went wrong inside the program")
        assert screen.prompt.value == "boom"
        assert "Traceback" not in screen_text(app)
        await send(pilot, "1")
        await shows(pilot, "Is it part of any of these?")
    assert "RuntimeError: boom [inside]" in log.read_text(encoding="utf-8")


async def test_a_session_that_cannot_be_opened_says_so() -> None:
    def broken() -> FakeSession:
        raise ValueError("flows/topics/size.yaml, line 3: no such fact")

    app = CounterApp(broken, look="dark")
    async with app.run_test(size=SMALL) as pilot:
        await shows(pilot, "could not be opened: flows/topics/size.yaml, line 3: no such fact")


async def test_a_line_sent_before_the_session_is_there_is_kept() -> None:
    gate = Gate()
    app = CounterApp(gate, look="dark")
    async with app.run_test(size=SMALL) as pilot:
        await send(pilot, "2500 psi")
        await shows(pilot, "your line is kept")
        gate.open()
        await wait_for(pilot, lambda: gate.session.said == ["2500 psi"], "the kept line to be said")


async def test_empty_enter_answers_nothing() -> None:
    session = FakeSession()
    async with at_the_counter(counter(session)) as (pilot, _):
        await pilot.press("enter")
        await shows(pilot, "Type an answer, or ? where nobody knows.")
        assert session.said == []


async def test_up_and_down_recall_earlier_lines_and_keep_the_one_begun() -> None:
    async with at_the_counter(counter()) as (pilot, screen):
        await send(pilot, "1")
        await send(pilot, "none")
        screen.prompt.value = "25"
        await pilot.press("up", "up")
        assert screen.prompt.value == "1"
        await pilot.press("down", "down")
        assert screen.prompt.value == "25"


async def test_many_pasted_lines_become_one() -> None:
    app = counter()
    async with at_the_counter(app) as (pilot, screen):
        app.post_message(events.Paste("half inch\r\n\r\n  2500 psi [peak 3200]\noil 46"))
        await wait_for(pilot, lambda: bool(screen.prompt.value), "the paste to arrive")
        assert screen.prompt.value == "half inch; 2500 psi [peak 3200]; oil 46"


async def test_emergency_stands_first() -> None:
    app = counter()
    async with at_the_counter(app) as (pilot, _):
        await send(pilot, "hurt")
        await shows(pilot, "EMERGENCY")
        text = screen_text(app)
        assert text.index("surgical emergency") < text.index("hand pierced")


async def test_keys_ask_why_skip_and_take_back() -> None:
    session = FakeSession()
    async with at_the_counter(counter(session)) as (pilot, _):
        await pilot.press("f2")
        await shows(pilot, "Follow it with a finger from the pump.")
        await pilot.press("f8")
        await shows(pilot, "Is it part of any of these?")
        await pilot.press("f5")
        await shows(pilot, "Taken back: the last answer.")
        assert session.said == ["why", "how", "?", "undo"]


async def test_a_click_on_an_option_answers_with_its_number() -> None:
    session = FakeSession()
    app = counter(session)
    async with at_the_counter(app) as (pilot, _):
        lines = screen_text(app).splitlines()
        row = next(i for i, line in enumerate(lines) if "return to the tank" in line)
        await pilot.click(offset=(lines[row].index("return"), row))
        await wait_for(pilot, lambda: session.said == ["2"], "the second option to be said")


async def test_a_click_on_an_answer_to_a_past_question_answers_nothing() -> None:
    session = FakeSession()
    app = counter(session)
    async with at_the_counter(app, WIDE) as (pilot, _):
        await send(pilot, "1")
        await shows(pilot, "Is it part of any of these?")
        lines = screen_text(app).splitlines()
        row = next(i for i, line in enumerate(lines) if "return to the tank" in line)
        await pilot.click(offset=(lines[row].index("return"), row))
        await shows(pilot, "That question is past")
        assert session.said == ["1"]


async def test_leaving_before_the_session_is_there_ends_at_once() -> None:
    gate = Gate()
    app = CounterApp(gate, look="dark")
    async with app.run_test(size=SMALL) as pilot:
        await pilot.press("ctrl+q")
        await wait_for(pilot, lambda: app.return_code == 0, "the app to end")
        gate.open()
    assert app.faults == []


async def test_known_view_puts_a_correction_into_the_prompt() -> None:
    app = counter()
    async with at_the_counter(app) as (pilot, screen):
        await send(pilot, "1")
        await pilot.press("f3")
        await shows(pilot, "working pressure 172 bar (2500 psi) read off")
        await pilot.press("down", "enter")
        await wait_for(pilot, lambda: app.screen is screen, "the conversation to come back")
        assert screen.prompt.value == "change working_pressure to "


async def test_fits_view_says_why_and_compares_two() -> None:
    app = counter()
    async with at_the_counter(app) as (pilot, _):
        await pilot.press("f4")
        await shows(pilot, "EN 853 1SN, 1/2 in")
        await pilot.press("down", "down", "enter")
        await shows(pilot, "en853-1sn 8: rated 160 bar, 172 bar is needed [EN 853].")
        await pilot.press("c", "up", "c")
        await shows(pilot, "172 bar is needed")
        assert "saej517-100r17 8" in squeezed(screen_text(app)) and "en853-1sn 8" in squeezed(screen_text(app))
        await pilot.press("escape")
        await opened(pilot)


async def test_topics_view_goes_to_the_topic_chosen() -> None:
    session = FakeSession()
    async with at_the_counter(counter(session)) as (pilot, _):
        await send(pilot, "/topics")
        await shows(pilot, "asked now")
        await pilot.press("down", "enter")
        await wait_for(pilot, lambda: session.said == ["go size"], "the topic to be said")


async def test_help_and_pictures_and_looks_by_word() -> None:
    drawn = [("Velocity", "a [b] 1"), ("Pressure", "p 2")]
    app = counter(pictures=lambda session, width: drawn)
    async with at_the_counter(app) as (pilot, _):
        await send(pilot, "help")
        await shows(pilot, "Answer in the words of the trade")
        await pilot.press("escape")
        await send(pilot, "pictures")
        await shows(pilot, "Velocity 1 of 2 a [b] 1")
        await pilot.press("tab")
        await shows(pilot, "Pressure 2 of 2 p 2")
        await pilot.press("escape")
        await send(pilot, "look light")
        await wait_for(pilot, lambda: app.theme == "counter-light", "the light look")


async def test_resize_at_any_time_keeps_the_question_and_lays_options_out_anew() -> None:
    app = counter()
    async with at_the_counter(app, WIDE) as (pilot, _):
        await send(pilot, "1")
        await shows(pilot, "Is it part of any of these?")
        await pilot.pause()  # the reply has its place before the screen changes
        for size in ((80, 24), (52, 18), (160, 50), (100, 30)):
            await pilot.resize_terminal(*size)
            await wait_for(pilot, lambda: "water jetting" in screen_text(app), f"the options at {size}")
            lines = screen_text(app).splitlines()
            assert len(lines) == size[1] and lines[-2].startswith(" ›")


LONG: list[ev.Event] = [ev.Noted(1, (f"point {i}",), ()) for i in range(60)]


def top_line(pilot: Pilot[int]) -> str:
    return screen_text(pilot.app).splitlines()[0]


async def test_a_reply_longer_than_the_screen_is_read_from_its_beginning_with_enter() -> None:
    session = FakeSession()
    async with at_the_counter(counter(session)) as (pilot, screen):
        assert session.asked is not None
        screen.show([*LONG, session.asked])
        await wait_for(pilot, lambda: "point 0" in top_line(pilot), "the beginning at the top")
        await shows(pilot, "More below, then question 1.")
        assert screen.prompt.placeholder == "Enter reads on; or type the answer"
        await pilot.press("enter")
        await wait_for(pilot, lambda: "point 21" in top_line(pilot), "the next page")
        await pilot.press("enter", "enter")
        await shows(pilot, "point 59 1. Which line of the machine is it?")
        await wait_for(pilot, lambda: "More below" not in screen_text(pilot.app), "the note to go")
        assert screen.prompt.placeholder == "1 to 5, or the words; ? for don't know"
        assert session.said == []
        await send(pilot, "1")  # a reply that fits stands below what was there before
        await shows(pilot, "Is it part of any of these?")
        await shows(pilot, "you 1 noted understood: 1")


async def test_a_none_does_not_answer_a_question_that_stops_a_job_before_it_was_on_the_screen() -> None:
    session = FakeSession()
    async with at_the_counter(counter(session)) as (pilot, screen):
        await send(pilot, "1")
        asked = session.asked
        assert asked is not None and asked.parts == ("regulated_use",)
        screen.show([*LONG, asked])
        await shows(pilot, "More below, then question")
        await send(pilot, "none")
        await shows(pilot, "Read the question first; Enter then sends your answer.")
        assert session.said == ["1"] and screen.prompt.value == "none"
        await wait_for(pilot, lambda: "More below" not in screen_text(pilot.app), "the question")
        await pilot.press("enter")
        await wait_for(pilot, lambda: session.said == ["1", "none"], "the answer")


async def test_two_replies_of_one_moment_are_read_from_the_first() -> None:
    async with at_the_counter(counter()) as (pilot, screen):
        screen.show([ev.Explained("Why", ("because",))])
        screen.show(LONG)  # one handler, one reply: F2 asks why and how
        await wait_for(pilot, lambda: "Why" in "".join(screen_text(pilot.app).splitlines()[:2]), "the first of both")
        await shows(pilot, "More below. ──")


async def test_an_answer_can_be_typed_before_a_long_reply_is_read_to_its_end() -> None:
    session = FakeSession()
    async with at_the_counter(counter(session)) as (pilot, screen):
        screen.show(LONG)
        await shows(pilot, "More below. ──")  # the question stands above
        await send(pilot, "2")
        await shows(pilot, "Is it part of any of these?")
        assert session.said == ["2"]


async def test_a_resize_leaves_a_reader_in_the_same_place() -> None:
    async with at_the_counter(counter()) as (pilot, screen):
        screen.show(LONG)
        await shows(pilot, "More below")
        await pilot.press("enter")
        await wait_for(pilot, lambda: "point 21" in top_line(pilot), "the next page")
        screen.prompt.value = "half an ans"
        for size in ((40, 12), (80, 24)):
            await pilot.resize_terminal(*size)
            await wait_for(pilot, lambda size=size: len(screen_text(pilot.app).splitlines()) == size[1], "the size")  # type: ignore[misc]
            await wait_for(pilot, lambda: "point 21" in top_line(pilot), f"the place at {size}")
            await shows(pilot, "More below")
        assert screen.prompt.value == "half an ans" and screen.prompt.has_focus


@pytest.mark.parametrize("view", ["", "f1", "f3", "f4", "f6", "f7"])
async def test_a_narrow_screen_and_back_leaves_everything_as_it_was(view: str) -> None:
    def drawn(session: object, width: int) -> list[tuple[str, str]]:
        return [("Velocity", "=" * width), ("Pressure", "-" * width)]

    app = counter(pictures=drawn)
    async with at_the_counter(app, WIDE) as (pilot, screen):
        for line in ("1", "none", "2500 psi"):
            await send(pilot, line)
        screen.prompt.value = "half an ans"
        if view:
            await pilot.press(view)
            await pilot.press("right" if view in ("f1", "f7") else "down")
        await pilot.pause()
        before, focused = screen_text(app), app.focused
        for size in ((40, 12), WIDE):
            await pilot.resize_terminal(*size)
            await wait_for(pilot, lambda size=size: len(screen_text(app).splitlines()) == size[1], f"{size}")  # type: ignore[misc]
            await pilot.pause()
            assert max(map(len, screen_text(app).splitlines())) <= size[0]
        await wait_for(pilot, lambda: screen_text(app) == before, "the screen as it was")
        assert app.focused is focused and screen.prompt.value == "half an ans"


async def test_a_long_interview_keeps_few_widgets_and_gives_the_rest_back() -> None:
    async with at_the_counter(counter()) as (pilot, screen):
        for lot in range(25):
            screen.conversation.write([Row("you", f"line {lot * 20 + i}", "you") for i in range(20)])
            await pilot.pause()
        await wait_for(pilot, lambda: len(screen.query(Entry)) <= SHOWN + SLACK, "old entries to go")
        assert len(screen.conversation.rows) > 500
        column = screen.query_one(Conversation)
        column.scroll_home(animate=False)
        await wait_for(pilot, lambda: column.scroll_y == 0, "the top")
        before = len(screen.query(Entry))
        await pilot.press("pageup")
        await wait_for(pilot, lambda: len(screen.query(Entry)) > before, "earlier entries to come back")


async def test_quit_leaves_with_the_session_told() -> None:
    session = FakeSession()
    app = counter(session)
    async with at_the_counter(app) as (pilot, _):
        await pilot.press("ctrl+q")
        await wait_for(pilot, lambda: session.finished, "the session to be told")
    assert app.farewell == "Kept. It goes on where you stopped."
    assert app.return_code == 0


async def test_the_palette_offers_only_what_applies_here() -> None:
    app = counter()
    async with at_the_counter(app) as (pilot, _):
        titles = {command.title for command in app.get_system_commands(app.screen)}
        assert {"help", "fits", "known", "take back", "look light"} <= titles
        assert "look dark" not in titles
        await pilot.press("f1")
        await shows(pilot, "HOW IT GOES")
        assert "take back" not in {command.title for command in app.get_system_commands(app.screen)}


@pytest.mark.parametrize(
    "typed",
    ["x" * 100_000, "[" * 500, "]]][[[", "' OR 1=1", "٣٠٠ بار", "🛠 half"],
    ids=["long", "brackets", "closing", "quote", "arabic", "emoji"],
)
async def test_any_text_gets_an_answer(typed: str) -> None:
    session = FakeSession()
    async with at_the_counter(counter(session)) as (pilot, _):
        await send(pilot, typed)
        await wait_for(pilot, lambda: session.said == [typed], "the text to arrive as typed")
        await pilot.press("escape")  # to the newest, past an echo as long as the text
        await shows(pilot, "Is it part of any of these?")


def test_every_event_has_a_row() -> None:
    from typing import get_args

    from interview.terminal.rows import rows_of

    made: dict[type, object] = {
        ev.Asked: ev.Asked(1, "job", ("line_function",), "Which line?"),
        ev.Noted: ev.Noted(1, ("a",), ("bore",)),
        ev.Unheard: ev.Unheard(("x",), "x"),
        ev.Refused: ev.Refused("x", "no"),
        ev.Doubted: ev.Doubted("x", "which", ()),
        ev.Conflicted: ev.Conflicted("bore", "two", ()),
        ev.Computed: ev.Computed("bore", "c"),
        ev.Assumed: ev.Assumed("bore", "a", "gauge"),
        ev.Narrowed: ev.Narrowed("n", 1, 2, 3),
        ev.Warned: ev.Warned("whip", "w"),
        ev.Emergency: ev.Emergency("e"),
        ev.Referred: ev.Referred("r", "there"),
        ev.Explained: ev.Explained("t", ("l",)),
        ev.Reviewed: ev.Reviewed("specified", "build", ("l",), ("m",)),
        ev.Settled: ev.Settled("s"),
        ev.Undone: ev.Undone("u"),
        ev.Wrote: ev.Wrote("/tmp/x", "written"),
        ev.Left: ev.Left("l"),
    }
    assert set(made) == set(get_args(ev.Event))
    for event in made.values():
        assert rows_of([event]) and all(row.text for row in rows_of([event]))


async def test_the_first_page_stands_before_the_session_does_and_takes_lines(tmp_path: Path) -> None:
    page = tmp_path / "cache" / "page.json"
    async with counter(page=page).run_test(size=SMALL) as pilot:
        await opened(pilot)
        await wait_for(pilot, page.exists, "the page to be kept")
    gate = Gate()
    app = CounterApp(gate, look="dark", page=page)
    async with at_the_counter(app) as (pilot, screen):
        assert screen.session is None
        await send(pilot, "2")
        gate.open()
        await wait_for(pilot, lambda: gate.session.said == ["2"], "the kept line to be said")
        assert sum("Which line" in row.text for row in screen.conversation.rows) == 1


async def test_a_first_page_that_is_out_of_date_is_replaced_and_its_answer_given_back(tmp_path: Path) -> None:
    page = tmp_path / "page.json"
    save_page(page, [Row("1.", "Which machine?", "asked", foot=" ?  don't know")])
    gate = Gate()
    app = CounterApp(gate, look="dark", page=page)
    async with app.run_test(size=SMALL) as pilot:
        await shows(pilot, "Which machine?")
        await send(pilot, "2")
        gate.open()
        screen = await opened(pilot)
        assert "Which machine?" not in screen_text(app)
        assert screen.prompt.value == "2" and gate.session.said == []


@pytest.mark.parametrize("spoilt", ["", "{", "[]", '{"stamp": "old", "rows": []}', "null"])
def test_a_spoilt_first_page_is_no_page(tmp_path: Path, spoilt: str) -> None:
    page = tmp_path / "page.json"
    page.write_text(spoilt, encoding="utf-8")
    assert load_page(page) == []


async def test_text_selected_with_the_mouse_leaves_the_margin_out() -> None:
    app = counter()
    async with at_the_counter(app) as (pilot, _):
        lines = screen_text(app).splitlines()
        row = next(i for i, line in enumerate(lines) if "Good morning." in line)
        start = lines[row].index("Good")
        await pilot.mouse_down(offset=(start, row))
        await pilot.hover(offset=(start + 5, row + 1))
        await pilot.mouse_up(offset=(start + 5, row + 1))
        await wait_for(pilot, lambda: bool(app.screen.get_selected_text()), "a selection")
        selected = app.screen.get_selected_text() or ""
        assert selected.startswith("Good morning.") and "│" not in selected and "Say w" in selected


async def test_the_help_keeps_its_columns_at_eighty() -> None:
    from interview.terminal.help_text import HELP

    tables = [line for line in HELP.splitlines() if "   " in line]
    assert tables and max(len(line) for line in tables) <= 74


@pytest.mark.parametrize("width", [34, 50, 64, 100])
def test_no_answer_is_lost_or_broken_at_any_width(width: int) -> None:
    words = ("road brake", "ship's vital or fuel system", "insulated boom or live-line tool", "breathing air", "steam")
    options = tuple(ev.Option(str(i), f"{words[i % 5]} {i}") for i in range(20))
    text = options_content(options, width).plain
    for number, option in enumerate(options, 1):
        assert any(f"{number} {option.label}" in squeezed(line) for line in text.splitlines())
    assert max(map(len, text.splitlines())) <= max(width, 40)


async def test_a_view_that_fails_is_a_sentence_and_the_interview_goes_on() -> None:
    def broken(session: object, width: int) -> list[tuple[str, str]]:
        raise ZeroDivisionError("no axis")

    app = counter(pictures=broken)
    async with at_the_counter(app) as (pilot, _):
        await pilot.press("f7")
        await shows(pilot, "That could not be shown")
        await send(pilot, "1")
        await shows(pilot, "Is it part of any of these?")
    assert [type(fault) for fault in app.faults] == [ZeroDivisionError]


async def test_a_click_on_a_key_does_what_the_key_does() -> None:
    app = counter()
    async with at_the_counter(app) as (pilot, _):
        line = screen_text(app).splitlines()[-1]
        await pilot.click(offset=(line.index("known"), 23))
        await shows(pilot, "choose a fact")
        line = screen_text(app).splitlines()[-1]
        await pilot.click(offset=(line.index("Esc"), 23))
        await opened(pilot)


@pytest.mark.parametrize("view", ["f1", "f3", "f4", "f6"])
async def test_a_click_on_a_key_that_only_the_keyboard_has_does_nothing(view: str) -> None:
    async with at_the_counter(counter()) as (pilot, screen):
        await send(pilot, "1")
        await pilot.press(view)
        await shows(pilot, "↑↓")
        await pilot.click(offset=(screen_text(pilot.app).splitlines()[-1].index("↑↓") + 4, 23))
        await pilot.press("escape")
        await wait_for(pilot, lambda: pilot.app.screen is screen, "the conversation to come back")
