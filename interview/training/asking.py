"""Which facts does a trainee's question ask for? By the words it shares with the flow's own questions.

A word counts the more, the fewer questions have it. Nothing is guessed: a question whose words fit many things alike,
or nothing, asks for none of them.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from math import log

from interview.catalogue import CATALOGUE
from interview.dialogue.flows import Flow

MOST = 8  # facts that one question can ask for at once
NEAR = 0.75  # share of the best score that still counts as meant
LEAST = 2.0  # less shared than this is chance (our own bound)
WHOLE = 1.6  # a question whose short form is said whole is meant the more
COMMON = frozenset(
    "a an and any anything are as at be been between by can could did do does for from get gets give given had "
    "has have he her him his i if in is it its let like me much my no none not now numbers of on one or other our "
    "out please said say she should so some something tell than that the their them then there these they thing "
    "things this those to us was we were what whats when where which who will with words would you your about all "
    "also know last still way well near hose old many how kind sort got need want exactly customer sir mate ok "
    "okay right just really".split()
)
# Words of the counter for words of the questions (common practice, no source).
MEANT = {
    "customer": "who",
    "anyone": "people",
    "anybody": "people",
    "oil": "oil fluid",
    "liquid": "fluid",
    "medium": "fluid",
    "hot": "hottest",
    "warm": "hottest",
    "temperature": "hottest coldest",
    "temp": "hottest coldest",
    "cold": "coldest",
    "winter": "coldest",
    "frost": "coldest",
    "outside": "air coldest",
    "weather": "air",
    "ambient": "air",
    "outdoors": "air sit",
    "pressure": "pressure steady",
    "psi": "pressure steady",
    "bar": "pressure steady",
    "working": "steady",
    "peak": "spike",
    "surge": "spike",
    "shock": "shock spike",
    "hammer": "hammer",
    "gpm": "flow",
    "litre": "flow",
    "flow": "flow",
    "size": "bore size",
    "diameter": "bore diameter",
    "inside": "bore",
    "fitting": "connection",
    "thread": "thread connection",
    "coupling": "connection",
    "end": "end",
    "length": "long length",
    "marked": "printed",
    "writing": "printed",
    "stamped": "printed",
    "layline": "printed",
    "broke": "broke failed",
    "fail": "broke fail",
    "burst": "broke burst fail",
    "happened": "broke",
    "failed": "broke fail",
    "before": "before year",
    "leak": "broke",
    "again": "repeat before",
    "often": "strokes hour",
    "cycle": "strokes",
    "move": "move fixed",
    "moving": "move fixed",
    "flex": "move",
    "chafe": "rub",
    "bend": "bend",
    "radius": "room bend",
    "tight": "tight bend",
    "adaptor": "adapter",
    "brake": "regulated",
    "steering": "regulated",
    "people": "people",
    "operator": "people",
    "electric": "electric",
    "power": "electric live",
    "chemical": "chemicals",
    "salt": "salt",
    "relief": "relief",
    "suction": "suction",
    "return": "return",
    "line": "line",
    "route": "run",
    "routed": "run",
    "exhaust": "hot",
    "job": "machine",
    "machine": "machine",
    "equipment": "machine",
    "used": "machine",
    "elbow": "straight degrees",
    "bent": "straight degrees",
    "angle": "angle bent",
}


def _stem(word: str) -> str:
    """A word without the endings that questions vary.

    >>> _stem("fittings"), _stem("bursts"), _stem("hose")
    ('fitting', 'burst', 'hose')
    """
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def words_of(text: str, *, question: bool = False) -> list[str]:
    """The words that tell questions apart; "end A" is one word. In a trainee's `question` a word of `MEANT` counts too.

    >>> words_of("What is the relief valve of end A set to?")
    ['relief', 'valve', 'enda', 'set']
    """
    low = re.sub(r"\bend ([ab])\b", r"end\1", text.lower().replace("'s", ""))
    low = low.replace("how old", "which date")
    kept = (word for word in re.findall(r"[a-z]+", low) if word not in COMMON or (question and word in MEANT))
    return [_stem(word) for word in kept]


@dataclass(frozen=True)
class Asking:
    """What the questions of a flow can be asked by."""

    flow: Flow

    @cached_property
    def _words(self) -> dict[str, frozenset[str]]:
        return {
            name: frozenset(words_of(f"{q.ask} {q.short} {q.tick} {CATALOGUE[name].label}"))
            for name, q in self.flow.questions.items()
        }

    @cached_property
    def _short(self) -> dict[str, frozenset[str]]:
        return {name: frozenset(words_of(q.short)) for name, q in self.flow.questions.items()}

    @cached_property
    def _weight(self) -> dict[str, float]:
        seen = Counter(word for words in self._words.values() for word in words)
        return {word: log(len(self._words) / count) for word, count in seen.items()}

    def facts(self, question: str) -> tuple[str, ...]:
        """The facts a question asks for, the likeliest first; () where it is not clear."""
        said = words_of(question, question=True)
        ends = [end for end in ("enda", "endb") if end in said]
        if said and len(ends) == len(said):
            return tuple(f"end_{end[-1]}_{what}" for end in ends for what in ("family", "size", "gender", "form"))
        meant = [{word, *map(_stem, MEANT.get(word, "").split())} for word in said]
        every = frozenset[str]().union(*meant)
        scores = {
            name: sum(max((self._weight.get(w, 0.0) for w in options & words), default=0.0) for options in meant)
            * (WHOLE if self._short[name] and self._short[name] <= every else 1.0)
            / (1 + 0.02 * len(words))
            for name, words in self._words.items()
        }
        best = max(scores.values(), default=0.0)
        if best < LEAST:
            return ()
        near = sorted((n for n, score in scores.items() if score >= NEAR * best), key=lambda n: -scores[n])
        return tuple(near) if len(near) <= MOST else ()
