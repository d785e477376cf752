"""Which keys are there? The last line of every screen: each key with its word; a click does the same."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.cells import cell_len
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.reactive import reactive
from textual.style import Style
from textual.widget import Widget

Key = tuple[str, str, str]  # key, word, action; without an action there is nothing to click


def keys_of(bindings: Iterable[BindingType]) -> list[Key]:
    """The bindings of a screen that are to be shown, so that key and line cannot part."""
    shown = (b for b in bindings if isinstance(b, Binding) and b.show)
    return [(b.key_display or b.key, b.description, f"screen.{b.action}") for b in shown]


class Keys(Widget):
    """As many keys as fit, in the order given."""

    ALLOW_SELECT = False

    keys: reactive[Sequence[Key]] = reactive[Sequence[Key]](())

    def __init__(self, keys: Sequence[Key]) -> None:
        super().__init__(classes="keys", markup=False)
        self.set_reactive(Keys.keys, keys)

    def render(self) -> Content:
        return keys_content(self.keys, self.content_size.width)


def keys_content(keys: Sequence[Key], width: int) -> Content:
    """The keys that fit into `width`; the last of the list (the way out) is always among them."""
    *rest, last = keys
    room = width - cell_len(f"{last[0]} {last[1]}")
    shown = []
    for key in rest:
        room -= cell_len(f"{key[0]} {key[1]}") + 2
        if room < 0:
            break
        shown.append(key)
    return Content("  ").join([_key(*key) for key in (*shown, last)])


def _key(name: str, word: str, action: str) -> Content:
    content = Content.assemble((name, "bold"), " ", (word, "$faint"))
    return content.stylize(Style.from_meta({"@click": action})) if action else content
