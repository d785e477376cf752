"""Anything, at any moment: whatever is typed in whatever order, there is an answer, a view and a record.

The lines are the utterances of the listening tests, the commands, and rubbish; the order is drawn by hypothesis.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from interview.dialogue.session import Session, bench
from interview.plain import lines_of
from interview.record.assemble import record_of
from interview.record.documents.make import make

UTTERANCES = Path(__file__).parent / "language" / "utterances_seen.yaml"
COMMANDS = (
    "none",
    "don't know",
    "1",
    "2",
    "3",
    "1 3",
    "99",
    "undo",
    "back",
    "why",
    "how",
    "list",
    "facts",
    "fits",
    "why not 1SN",
    "go ends",
    "go pressure",
    "later",
    "change working pressure to 210 bar",
    "remove bore",
    "accept",
    "build",
    "help",
    "yes",
    "no",
    "resume",
)
RUBBISH = (
    "[red]x[/red]",
    "\x00\x1b[31m",
    "-",
    "½",
    "'; drop table records; --",
    "{{7*7}}",
    "9**9**9 psi",
    "مرحبا 200",
    "🛢️" * 30,
    "a" * 5000,
)


@cache
def utterances() -> tuple[str, ...]:
    return tuple(row["say"] for row in yaml.safe_load(UTTERANCES.read_text(encoding="utf-8")))


shared = cache(bench)
line = st.one_of(
    st.sampled_from(COMMANDS), st.sampled_from(RUBBISH), st.deferred(lambda: st.sampled_from(utterances()))
)


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(job=st.sampled_from(["failed_hose", "sample", "new_line", "repeat"]), lines=st.lists(line, max_size=25))
def test_any_line_at_any_moment(job: str, lines: list[str]) -> None:
    session = Session(job=job, on=shared())
    shown = [text for event in session.open() for text in lines_of(event)]
    assert shown
    for text in lines:
        events = session.say(text)
        assert events, f"{text!r} got no answer"
        assert all(isinstance(t, str) for event in events for t in lines_of(event))
    session.fit_lines(), session.known_lines(), session.topic_lines()
    record = record_of(session)
    assert record.outcome in ("specified", "provisional", "referred", "unmatched")
    assert record.ready_for != "build" or not record.missing_for_build
    heading = make(record).decode()
    assert ("NOT FOR BUILDING" in heading) == (record.ready_for != "build")
