"""Does a saved interview play: step, run, pause, back, why, and what fell?"""

from __future__ import annotations

from dataclasses import replace

from fake_session import FakeSession
from screen_helpers import screen_text, shows, squeezed, wait_for

from interview.dialogue.fit_view import FitLine, FitView
from interview.terminal.replay import PACES, ReplayApp, ReplayScreen, fallen
from interview.training.replay import ShownTurn

ONE_WIRE = FitLine(
    "EN 853 1SN, 1/2 in", "en853-1sn", 8, "open", "160 bar", None, "working pressure is not known", False, ()
)
ONE_WIRE_OUT = replace(ONE_WIRE, verdict="fails", margin=-0.1, blocked_by="172 bar needed, 160 bar rated")
TWO_WIRE = FitLine("EN 857 2SC, 1/2 in", "en857-2sc", 8, "fits", "275 bar", 0.6, "", True, ())


def turns() -> list[ShownTurn]:
    session = FakeSession()
    made = [ShownTurn("", session.open(), FitView(20, 337, 0, (ONE_WIRE, TWO_WIRE)))]
    made.append(ShownTurn("pressure line [of the tipper]", session.say("1"), FitView(20, 337, 0, (ONE_WIRE, TWO_WIRE))))
    made.append(ShownTurn("none of them", session.say("none"), FitView(20, 337, 0, (ONE_WIRE, TWO_WIRE))))
    made.append(ShownTurn("2500 psi", session.say("2500 psi"), FitView(14, 210, 133, (TWO_WIRE, ONE_WIRE_OUT))))
    return made


def replay() -> ReplayApp:
    return ReplayApp(
        turns(), title="Tipping trailer", story="A trailer in the vineyard.", teaches="Spikes decide.", look="dark"
    )


async def test_steps_to_the_end_and_back() -> None:
    app = replay()
    async with app.run_test(size=(100, 30)) as pilot:
        await shows(pilot, "turn 1 of 4, paused")
        await shows(pilot, "A trailer in the vineyard.")
        await pilot.press("right")
        await shows(pilot, "customer pressure line [of the tipper]")
        await pilot.press("right", "right")
        await shows(pilot, "turn 4 of 4, at the end")
        await shows(pilot, "Spikes decide.")
        await pilot.press("left")
        await shows(pilot, "turn 3 of 4, paused")
        await wait_for(
            pilot,
            lambda: "2500 psi" not in squeezed(screen_text(app)).replace("2500 psi, 170 bar", ""),
            "the last turn to be gone",
        )
        assert isinstance(app.screen, ReplayScreen)
        assert not any(row.text == "Spikes decide." for row in app.screen.conversation.rows)


async def test_runs_by_itself_pauses_and_changes_pace() -> None:
    app = replay()
    async with app.run_test(size=(80, 24)) as pilot:
        await shows(pilot, "turn 1 of 4, paused")
        await pilot.press("plus", "plus", "plus", "space")
        screen = app.screen
        assert isinstance(screen, ReplayScreen)
        assert PACES[screen.pace] == PACES[-1]
        await wait_for(pilot, lambda: screen.place >= 2, "a turn to come by itself")
        await pilot.press("space")
        assert not screen.running and screen.place < 4
        await pilot.press("minus")
        await shows(pilot, "paused, 1 s a turn")


async def test_a_click_on_fast_or_slow_changes_the_pace() -> None:
    app = replay()
    async with app.run_test(size=(100, 30)) as pilot:
        await shows(pilot, "paused, 2 s a turn")
        for word, pace in (("slow", "4 s"), ("fast", "2 s")):
            await pilot.click(offset=(screen_text(app).splitlines()[-1].index(word), 29))
            await shows(pilot, f"paused, {pace} a turn")


async def test_title_and_keys_are_whole_on_the_small_screen() -> None:
    title = "A U-bend too tight for one two-wire hose and right for another"
    app = ReplayApp(turns(), title=title, look="dark")
    async with app.run_test(size=(80, 24)) as pilot:
        await shows(pilot, f"{title} turn 1 of 4, paused, 2 s a turn")
        for key in ("space run", "→ step", "← back", "w why", "f fell", "F4 fits", "+ fast", "- slow", "Esc leave"):
            assert key in screen_text(app).splitlines()[-1]
        await pilot.press("space")
        await shows(pilot, "runs, 2 s a turn")
        assert screen_text(app).splitlines()[-1] == (
            " space pause  → step  ← back  w why  f fell  F4 fits  + fast  - slow  Esc leave"
        )


async def test_the_palette_names_each_thing_once_however_many_keys_it_has() -> None:
    app = replay()
    async with app.run_test(size=(80, 24)) as pilot:
        await shows(pilot, "turn 1 of 4, paused")
        titles = [command.title for command in app.get_system_commands(app.screen)]
        assert titles.count("step") == titles.count("fast") == titles.count("leave") == 1


async def test_at_a_pause_why_and_what_fell() -> None:
    app = replay()
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("w")
        await shows(pilot, "The pull and the push of a line decide which hose can stand it.")
        await pilot.press("f")
        await shows(pilot, "Nothing has been answered yet.")
        await pilot.press("right", "right", "right", "f")
        await shows(pilot, "× EN 853 1SN, 1/2 in: 172 bar needed, 160 bar rated")
        await shows(pilot, "132 more fell that the list of this turn does not name.")
        await pilot.press("f4")
        await shows(pilot, "14 fit · 210 open · 133 out")


def test_a_candidate_that_is_no_longer_listed_is_not_called_fallen() -> None:
    before = FitView(1, 1, 0, (TWO_WIRE, ONE_WIRE))
    assert fallen(before, FitView(1, 0, 1, (TWO_WIRE,))) == []
    assert fallen(before, FitView(1, 0, 1, (TWO_WIRE, ONE_WIRE_OUT))) == [ONE_WIRE_OUT]
