"""What is a check? One need against one candidate, with the facts it rests on declared.

The agenda tries a fact only through the checks that rest on it; a check that reads a fact it does not declare would
let a question go unasked, so a test holds the declaration against what the check really reads.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from interview.facts import Known, Origin
from interview.selection.candidates import Candidate
from interview.selection.finding import Answer, Verdict
from interview.selection.needs import Needs

Judge = Callable[[Needs, Candidate], Answer]
Scope = Literal["job", "construction", "bore", "rating", "size"]


def always(needs: Needs) -> bool:
    return True


@dataclass(frozen=True, slots=True)
class Check:
    """`scope` says how often it must be judged: once for the job, a construction, a nominal bore, a rating, or a size.

    Where `speaks` says no, it has nothing to say of any candidate and is not called.
    """

    id: str
    topic: str
    rests_on: frozenset[str]
    judge: Judge
    scope: Scope = "size"
    speaks: Callable[[Needs], bool] = always


def on_word_of(known: Known, fact: str, verdict: Verdict) -> Verdict:
    """What nobody said condemns nothing: a fail resting on an assumed or inferred fact is open, to be asked."""
    inferred = known.origin(fact) in (Origin.ASSUMED, Origin.COMPUTED)
    return Verdict.OPEN if verdict is Verdict.FAILS and inferred else verdict


def check(
    check_id: str,
    topic: str,
    rests_on: str,
    judge: Judge,
    scope: Scope = "size",
    *,
    speaks: Callable[[Needs], bool] = always,
) -> Check:
    return Check(check_id, topic, frozenset(rests_on.split()), judge, scope, speaks)
