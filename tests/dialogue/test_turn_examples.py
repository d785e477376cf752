"""What a question shows as an example must itself be an answer: heard whole, without doubt, with nothing left over."""

from __future__ import annotations

import pytest

from interview.dialogue.flows import Turn, flow_files, load_flow
from interview.dialogue.replies import SAME
from interview.language.listen import listen

EXAMPLES = [
    pytest.param(turn, words.strip(), id=f"{path.stem}-{turn.id}-{words.strip()}")
    for path in flow_files()
    for turn in load_flow(path.stem).job.turns
    for words in turn.example.split(";")
    if words.strip() and not SAME.match(words.strip())
]


@pytest.mark.parametrize(("turn", "words"), EXAMPLES)
def test_an_example_is_heard_as_an_answer(turn: Turn, words: str) -> None:
    heard = listen(words, asked=turn.asks)
    assert heard.facts
    assert {h.name for h in heard.facts} <= set(turn.asks)
    assert heard.unclear == ()
    assert heard.ignored == ()


def test_there_are_examples() -> None:
    assert len(EXAMPLES) > 10
