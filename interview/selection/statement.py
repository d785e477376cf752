"""Is that a maker's written statement? One that can be looked up: it has a number or a date, and denies nothing."""

from __future__ import annotations

import re

from interview.facts import Known

DENIED = re.compile(
    r"\b(?:no(?!\.\s*(?:\d|[a-z]{1,4}[- ]?\d))|"  # "No. 12" is a number
    r"not|none|never|nobody|without|n/?a|pending|refus\w*|waiting|await\w*|later|soon|tomorrow|promis\w*|asked|"
    r"asking|will|would|should|says|said|lost|missing|expired|unknown|\w+n['’]t)\b",
    re.IGNORECASE,
)


def written(known: Known, name: str) -> str:
    """The statement as said; empty where it names neither number nor date, or denies itself.

    Our own rule, no source: a statement that nobody can look up is hearsay, and hearsay overrules no standard.
    """
    text = known.text(name) or ""
    return text if counts(text) else ""


def counts(text: str) -> bool:
    """Whether these words name a document: a number or a date in them, and no denial."""
    return re.search(r"\d", text) is not None and DENIED.search(text) is None
