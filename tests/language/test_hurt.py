"""Is an injury heard in whatever words, and none where nobody is hurt?"""

from __future__ import annotations

import pytest

from interview.language.listen import listen

HURT = [
    "pinhole, oil shot into my palm yesterday, it's swollen",
    "jet of oil got my mate",
    "my hand stung when I felt along it, tiny red dot",
    "got a needle prick feeling checking for the leak",
    "he's bleeding, hose whipped him in the face",
    "oil got him in the eye",
    "the hose caught my mate when it let go",
    "my finger has gone numb since I felt for the leak",
    "felt a sharp prick and now there is a red spot",
    "there was a jet and it hit the lad in the face",
    "oil went straight through my glove and into my thumb",
    "the fitting struck the operator",
    "driver was bleeding after it burst",
    "the lad's hand is swelling up, he was holding the hose",
    "i got stung by the spray",
    "don't know how much oil went into his hand",
    "no, he got sprayed in the eyes",
    "can't feel my finger since the pinhole",
    "nobody else was hurt but oil got in my hand",
]


@pytest.mark.parametrize("line", HURT)
@pytest.mark.parametrize("asked", [(), ("failure_sign",), ("repeat_failure",), ("layline", "old_construction")])
def test_an_injury_is_heard_at_any_turn(line: str, asked: tuple[str, ...]) -> None:
    heard = listen(line, asked=asked)
    fact = heard.fact("injury")
    assert heard.injury and fact is not None and fact.value is True


@pytest.mark.parametrize(
    "line",
    [
        "pinhole jet",
        "a fine jet out of a pinhole",
        "needle valve on the hand pump, finger tight",
        "hand pump hose burst",
        "the hose is in my hand, half inch",
        "sample in my hand, oil hydraulic",
        "left hand end, right hand thread",
        "it rubs on the arm and the head of the ram",
        "face seal, 45 degree",
        "bubbles along the pin pricks",
        "inner tube is swollen",
        "the tank bleeds air, bleeding the system now",
        "it would spray the driver",
        "if it bursts the oil could hit somebody",
        "my mate got me to ring, the hose burst",
        "red dot on the cover",
        "eye bolt beside the foot valve",
    ],
)
def test_what_is_no_injury_is_none(line: str) -> None:
    heard = listen(line)
    assert not heard.injury and heard.fact("injury") is None


@pytest.mark.parametrize("asked", [(), ("failure_sign", "repeat_failure"), ("repeat_failure",), ("accumulator",)])
@pytest.mark.parametrize(
    "line", ["no injury, no one was hurt", "no injuries", "nobody was hurt", "no one got hit", "nobody's hurt"]
)
def test_that_nobody_is_hurt_says_nothing_else(line: str, asked: tuple[str, ...]) -> None:
    heard = listen(line, asked=asked)
    assert {f.name: f.value for f in heard.facts} == {"injury": False}
    assert not heard.injury and not heard.unclear and not heard.dont_know
