"""What does the screen itself say? Its few sentences, and what stands in an empty prompt."""

from __future__ import annotations

import re

from interview.dialogue import events as ev

Wanting = ev.Asked | ev.Doubted | ev.Conflicted | ev.Reviewed  # events that wait for a line

EMPTY_LINE = "Type an answer, or ? where nobody knows."
NOT_YET = "One moment; your line is kept."
EMERGENCY_FIRST = "Read the emergency text first."
PAST = 'That question is past; "change X to Y" corrects its answer.'
READ_FIRST = "Read the question first; Enter then sends your answer."
READ_ON = "Enter reads on; or type the answer"
NOT_SHOWN = "That could not be shown: something is wrong inside the program. The interview goes on; nothing is lost."


def sorry(error: Exception) -> str:
    """What the person reads when a line could not be taken; nothing of it has been taken in part."""
    from interview.dialogue.journal import JournalError

    if isinstance(error, JournalError):
        words = str(error)
        return f"{words[:1].upper()}{words[1:]}. Your line is back in the prompt."
    return (
        "That went wrong inside the program, not with you. Everything up to here is kept; your line is back in the "
        "prompt. Put it another way, or leave with ctrl+q and go on later."
    )


def below_words(asked: Wanting | None) -> str:
    """What stands below, when the screen does not hold it all; `asked` where the open question is part of it."""
    if isinstance(asked, ev.Asked):
        return f"More below, then question {asked.step}." if asked.step else "More below, then the question."
    return "More below, then a choice." if isinstance(asked, ev.Doubted | ev.Conflicted) else "More below."


def placeholder(asked: Wanting) -> str:
    """What may be typed now."""
    if isinstance(asked, ev.Reviewed):
        return "accept, build, save, record FILE.md, or correct anything"
    if not isinstance(asked, ev.Asked):
        return f"1 to {len(asked.options)}, or say it again in other words"
    if asked.many:
        return "numbers or words; none; ? for don't know"
    if asked.options:
        return f"1 to {len(asked.options)}, or the words; ? for don't know"
    return "your answer; ? for don't know"


def unread_stop(wanting: Wanting | None, line: str) -> bool:
    """A "none" or a number for the question that can stop a job: not before it has been on the screen."""
    if not isinstance(wanting, ev.Asked) or "regulated_use" not in wanting.parts:
        return False
    return re.fullmatch(r"none\b.*|no|nope|nothing|[\d\s,.]+", line.strip(), re.IGNORECASE) is not None
