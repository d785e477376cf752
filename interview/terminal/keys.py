"""Which keys are there? The last line of every screen: each key with its word; a click does the same."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len
from textual.content import Content
from textual.style import Style
from textual.widgets import Static


class Keys(Static):
    """Key, word, action; as many as fit, in the order given."""

    ALLOW_SELECT = False

    def __init__(self, keys: Sequence[tuple[str, str, str]]) -> None:
        super().__init__("", classes="keys", markup=False)
        self.keys = keys

    def on_resize(self) -> None:
        self.update(keys_content(self.keys, self.content_size.width))


def keys_content(keys: Sequence[tuple[str, str, str]], width: int) -> Content:
    """The keys that fit into `width`; the last of the list (the way out) is always among them."""
    if not keys:
        return Content("")
    *rest, last = keys
    room = width - cell_len(f"{last[0]} {last[1]}")
    shown = []
    for key in rest:
        room -= cell_len(f"{key[0]} {key[1]}") + 2
        if room < 0:
            break
        shown.append(key)
    return Content("  ").join(
        [
            Content.assemble((name, "bold"), " ", (word, "$faint")).stylize(Style.from_meta({"@click": action}))
            for name, word, action in (*shown, last)
        ]
    )
