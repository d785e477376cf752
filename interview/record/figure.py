"""What is a figure? A short list of strokes and words in points, drawn alike into SVG and PDF.

y grows downwards. Two inks only: the line itself, and the one thing the eye should find first; the words beside it say
the same, so that a print without colour loses nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

INK, MARK, FAINT, PAPER = "#1d2733", "#a3341c", "#8a94a0", "#ffffff"


@dataclass(frozen=True, slots=True)
class Stroke:
    """An open or closed path through points."""

    points: tuple[tuple[float, float], ...]
    ink: str = INK
    width: float = 1.2
    closed: bool = False
    fill: str | None = None
    dash: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Disc:
    x: float
    y: float
    radius: float
    ink: str = INK
    width: float = 1.2
    fill: str | None = None


@dataclass(frozen=True, slots=True)
class Label:
    """One line of words; `x` is its start, middle or end by `anchor`, `y` its base line."""

    x: float
    y: float
    text: str
    size: float = 9.0
    anchor: str = "start"  # start | middle | end
    bold: bool = False
    ink: str = INK


Item = Stroke | Disc | Label


@dataclass(frozen=True, slots=True)
class Figure:
    width: float
    height: float
    items: tuple[Item, ...]
    title: str
    says: str


def arrow(
    x1: float, y1: float, x2: float, y2: float, ink: str = INK, width: float = 1.0, head: float = 5.0
) -> tuple[Stroke, ...]:
    """A line with a filled head at its end."""
    along = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5 or 1.0
    ux, uy = (x2 - x1) / along, (y2 - y1) / along
    bx, by = x2 - ux * head, y2 - uy * head
    side = head * 0.4
    tip = ((x2, y2), (bx - uy * side, by + ux * side), (bx + uy * side, by - ux * side))
    return Stroke(((x1, y1), (bx, by)), ink, width), Stroke(tip, ink, 0.5, closed=True, fill=ink)


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def svg(figure: Figure) -> str:
    """A stand-alone SVG, all words escaped, with title and description for those who cannot see it."""
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_n(figure.width)} {_n(figure.height)}" '
        f'width="{_n(figure.width)}" height="{_n(figure.height)}" role="img" '
        f'font-family="Helvetica, Arial, sans-serif">',
        f"<title>{escape(figure.title)}</title>",
        f"<desc>{escape(figure.says)}</desc>",
    ]
    for item in figure.items:
        if isinstance(item, Stroke):
            tag = "polygon" if item.closed else "polyline"
            points = " ".join(f"{_n(x)},{_n(y)}" for x, y in item.points)
            dash = f' stroke-dasharray="{" ".join(_n(d) for d in item.dash)}"' if item.dash else ""
            out.append(
                f'<{tag} points="{points}" fill="{item.fill or "none"}" stroke="{item.ink}" '
                f'stroke-width="{_n(item.width)}" stroke-linejoin="round" stroke-linecap="round"{dash}/>'
            )
        elif isinstance(item, Disc):
            out.append(
                f'<circle cx="{_n(item.x)}" cy="{_n(item.y)}" r="{_n(item.radius)}" fill="{item.fill or "none"}" '
                f'stroke="{item.ink}" stroke-width="{_n(item.width)}"/>'
            )
        else:
            weight = ' font-weight="bold"' if item.bold else ""
            out.append(
                f'<text x="{_n(item.x)}" y="{_n(item.y)}" font-size="{_n(item.size)}" '
                f'text-anchor={quoteattr(item.anchor)} fill="{item.ink}"{weight}>{escape(item.text)}</text>'
            )
    out.append("</svg>")
    return "\n".join(out) + "\n"
