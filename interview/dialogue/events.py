"""What happened? Frozen events in past tense; the app, plain mode and replay are renderers of the same list.

Every event carries plain sentences ready to show (no markup, brackets are just brackets) and the data behind them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Option:
    """One answer that can be chosen by number."""

    value: str
    label: str


@dataclass(frozen=True, slots=True)
class Asked:
    """A question is on the table. `parts` are the facts it asks; one: a plain question; several: a compound turn."""

    turn: int
    topic: str
    parts: tuple[str, ...]
    text: str
    hint: str = ""  # units and form, e.g. "a pressure: 2500 psi, 170 bar"
    options: tuple[Option, ...] = ()
    many: bool = False  # several options may be chosen; "none" is an answer
    why: str = ""
    how: str = ""  # how to find out
    again: bool = False  # the same question after an answer that would not do: show the error, not all of this again
    step: int = 0  # how many questions have been asked, this one included
    progress: Mapping[str, str] = field(default_factory=dict)  # topic -> done | now | open | later


@dataclass(frozen=True, slots=True)
class Noted:
    """What was understood, in plain words; each part can be taken back with its number."""

    turn: int
    lines: tuple[str, ...]
    facts: tuple[str, ...]
    origin: str = "stated"


@dataclass(frozen=True, slots=True)
class Unheard:
    """Words nothing could be made of: named, not swallowed."""

    said: tuple[str, ...]
    text: str


@dataclass(frozen=True, slots=True)
class Refused:
    """An answer that will not do: what was read, why it will not do, what would do."""

    read: str
    text: str


@dataclass(frozen=True, slots=True)
class Doubted:
    """Several meanings, or an implausible number: the candidate meanings as options."""

    said: str
    text: str
    options: tuple[Option, ...]
    then: str = ""  # the question that waits meanwhile, in one line


@dataclass(frozen=True, slots=True)
class Conflicted:
    """Two sayings that cannot both hold; the adverse one governs until an option is chosen."""

    fact: str
    text: str
    options: tuple[Option, ...]
    then: str = ""  # the question that waits meanwhile, in one line


@dataclass(frozen=True, slots=True)
class Computed:
    """A value worked out from others, with its reason."""

    fact: str
    text: str


@dataclass(frozen=True, slots=True)
class Assumed:
    """A value assumed by a house rule, with how to confirm it."""

    fact: str
    text: str
    confirm_by: str


@dataclass(frozen=True, slots=True)
class Narrowed:
    """What an answer changed among the candidates, in one line."""

    text: str
    fits: int
    open: int
    fails: int


@dataclass(frozen=True, slots=True)
class Warned:
    """A caution whose trigger was met."""

    caution: str
    text: str


@dataclass(frozen=True, slots=True)
class Emergency:
    """Somebody is hurt: shown before anything else."""

    text: str


@dataclass(frozen=True, slots=True)
class Referred:
    """The interview ends here; where to go instead."""

    text: str
    where: str


@dataclass(frozen=True, slots=True)
class Explained:
    """An answer to a question of the user: why, how, what fits, what is known, help."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Reviewed:
    """Nothing is left to ask that could change the result: the result in short lines, and what is missing for build."""

    outcome: str
    ready_for: str
    lines: tuple[str, ...]
    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Settled:
    """The specification stands as accepted."""

    text: str


@dataclass(frozen=True, slots=True)
class Undone:
    """The last turn was taken back."""

    text: str


@dataclass(frozen=True, slots=True)
class Wrote:
    """A file was written (or not, and why)."""

    path: str
    text: str


@dataclass(frozen=True, slots=True)
class Left:
    """The user leaves; everything is in the journal."""

    text: str


Event = (
    Asked
    | Noted
    | Unheard
    | Refused
    | Doubted
    | Conflicted
    | Computed
    | Assumed
    | Narrowed
    | Warned
    | Emergency
    | Referred
    | Explained
    | Reviewed
    | Settled
    | Undone
    | Wrote
    | Left
)


def nothing_open(title: str = "") -> Explained:
    """Told to who asks about a question, or answers one, where there is none."""
    return Explained(title, ("There is no question open; anything known can still be corrected.",))
