"""How is the assembly drawn in a terminal?

A side view in characters, at most 76 columns, not to scale: an open nut is a female end, a thread a male one, a single
bar a flange head. A's outlet points down where it is bent; `(•)` points at the reader, `(×)` away. A dial shows the
angle as seen from A. `assembly_svg` gives the same view for paper.
"""

from __future__ import annotations

import textwrap
from math import cos, radians, sin

from interview.record.drawing_figure import assembly_figure, says
from interview.record.figure import svg
from interview.record.model import Record
from interview.record.sketch import AssemblySketch, EndSketch, clock, degrees, sketch, way_words, ways

WIDTH = 76
ASCII = str.maketrans({
    "┏": "+", "┓": "+", "┗": "+", "┛": "+", "━": "=", "┃": "|", "┣": "|", "┫": "|", "┻": "+", "┳": "+",
    "┌": "+", "┐": "+", "└": "+", "┘": "+", "─": "-", "│": "|", "├": "|", "┤": "|", "┴": "+", "┬": "+",
    "╌": "-", "╎": ":", "╭": "+", "╮": "+", "╯": "+", "╰": "+", "╫": "#", "▓": "%", "╱": "/", "╲": "\\",
    "▲": "^", "•": "o", "×": "x", "·": ".", "−": "-", "…": "...", "—": "-", "–": "-", "°": " deg",
})  # fmt: skip

# the mouth of a straight end, for the left-hand side; three rows
STRAIGHT = {
    "female": ("┏━━┓   ", "   ┣▓▓▓", "┗━━┛   "),
    "male": ("   ┌┐  ", "╫╫╫┤├▓▓▓", "   └┘  "),
    "flange": (" ┃     ", " ┃──▓▓▓", " ┃     "),
    "": ("┌╌╌┐   ", "╎ ?├▓▓▓", "└╌╌┘   "),
}
# the mouth of a bent end pointing down, centred below the bend; two rows
BENT = {
    "female": ("┏━┻━┓", "┃   ┃"),
    "male": ("┌─┴─┐", " ╫╫╫ "),
    "flange": ("━━┻━━", "     "),
    "": ("┌╌┴╌┐", "╎ ? ╎"),
}
MIRROR = str.maketrans("┏┓┗┛┣┫┌┐└┘├┤╭╮╰╯╱╲()", "┓┏┛┗┫┣┐┌┘└┤├╮╭╯╰╲╱)(")
FLIP = str.maketrans("┏┗┓┛┻┳┌└┐┘┴┬╭╰╮╯╱╲", "┗┏┛┓┳┻└┌┘┐┬┴╰╭╯╮╲╱")


class _Canvas:
    def __init__(self, rows: int) -> None:
        self.rows = [[" "] * WIDTH for _ in range(rows)]

    def put(self, row: int, column: int, text: str) -> None:
        for offset, char in enumerate(text):
            if char != " " and 0 <= column + offset < WIDTH:
                self.rows[row][column + offset] = char

    def lines(self) -> list[str]:
        return ["".join(row).rstrip() for row in self.rows]


def _kind(end: EndSketch) -> str:
    return "flange" if end.flange else end.gender if end.gender in ("male", "female") else ""


def _way(end: EndSketch, view: AssemblySketch) -> str:
    """Where a bent end is drawn: down, up, near, far or unknown."""
    if end.letter == "A" or not view.needs_angle:
        return "down"
    if view.angle is None:
        return "unknown"
    first = ways(view.angle)[0]
    return {"at you": "near", "away from you": "far"}.get(first, first)


def _draw_end(canvas: _Canvas, end: EndSketch, way: str, middle: int) -> int:
    """Draws one end and returns the column its length is measured from."""
    left = end.letter == "A"

    def put(row: int, column: int, text: str) -> None:
        if left:
            canvas.put(row, column, text)
        else:
            canvas.put(row, WIDTH - column - len(text), text[::-1].translate(MIRROR))

    kind = _kind(end)
    if not end.bent:
        for offset, text in enumerate(STRAIGHT[kind]):
            put(middle - 1 + offset, 2, text)
        return 2
    centre = 5 if end.form == "elbow90" else 4
    if way in ("near", "far", "unknown"):
        sign = {"near": "(•)", "far": "(×)", "unknown": "(?)"}[way]
        put(middle, 4, f"{sign}──▓▓▓")
        return 5
    down = way == "down"
    step = 1 if down else -1
    put(middle, 6, "──▓▓▓")
    put(middle, 5, "╭" if down else "╭".translate(FLIP))
    put(middle + step, centre, "│" if end.form == "elbow90" else ("╱" if down else "╲"))
    shift = centre - 2 if end.form == "elbow90" else centre - 3
    for offset, text in enumerate(BENT[kind], start=2):
        put(middle + step * offset, shift, text if down else text.translate(FLIP))
    return shift + 2


def _dial(angle: float) -> list[str]:
    """A clock face seen from A: A at six, B where its outlet points, to the nearest hour."""
    rows = [[" "] * 17 for _ in range(7)]

    def spot(hour: float) -> tuple[int, int]:
        turn = radians(hour * 30)
        return round(3 - 3 * cos(turn)), round(8 + 6 * sin(turn))

    for hour in range(12):
        row, column = spot(hour)
        rows[row][column] = "·"
    for text, hour in (("12", 0), ("3", 3), ("9", 9)):
        row, column = spot(hour)
        rows[row][column : column + len(text)] = list(text)
    rows[3][8] = "o"
    hour_b = round(6 - angle / 30) % 12
    row, column = spot(hour_b)
    if hour_b == 6:
        rows[6][7:10] = list("A+B")
    else:
        rows[6][8] = "A"
        rows[row][column : column + 2] = ["B", " "]
    return ["".join(line).rstrip() for line in rows]


def assembly_text(record: Record, *, ascii_only: bool = False) -> str:
    """The drawing as lines of text; `ascii_only` for terminals and pipes without line characters."""
    view = sketch(record)
    way_a, way_b = _way(view.a, view), _way(view.b, view)
    above = 3 if view.b.bent and way_b == "up" else 1
    bent_down = (view.a.bent and way_a == "down") or (view.b.bent and way_b == "down")
    below = 3 if bent_down else 1
    canvas = _Canvas(above + below + 1)
    middle = above
    start = _draw_end(canvas, view.a, way_a, middle)
    stop = WIDTH - 1 - _draw_end(canvas, view.b, way_b, middle)
    first = max((i for i, c in enumerate(canvas.rows[middle][:20]) if c == "▓"), default=9) + 1
    last = WIDTH - 1 - max((i for i, c in enumerate(canvas.rows[middle][::-1][:20]) if c == "▓"), default=9)
    canvas.put(middle, first, "━" * (last - first))
    half = (first + last) // 2
    canvas.put(middle, half - 1, "╱╱")
    if view.hose:
        canvas.put(middle - 1, max(11, half - len(view.hose[:52]) // 2), view.hose[:52])
    out = [*_heads(view, ascii_only), *canvas.lines()]
    out += _limit(view, half)
    out.append(_dimension(view, start, stop))
    if view.points:
        out += [line.center(WIDTH).rstrip() for line in textwrap.wrap(f"measured {view.points}", WIDTH - 8)]
    if view.needs_angle:
        out += _angle(view)
    text = "\n".join(line.rstrip() for line in out) + "\n"
    return "\n".join(line[:WIDTH] for line in text.translate(ASCII).split("\n")) if ascii_only else text


def _heads(view: AssemblySketch, ascii_only: bool) -> list[str]:
    """What each end is, above it: A on the left, B on the right."""
    half = WIDTH // 2 - 2
    sides = []
    for end, extra in ((view.a, ""), (view.b, way_words(view))):
        texts: tuple[str, ...] = (f"End {end.letter}: {end.connection}", end.manner, extra)
        if ascii_only:  # before the lines are broken: some signs become longer
            texts = tuple(text.translate(ASCII) for text in texts)
        sides.append([line for text in texts for line in textwrap.wrap(text, half)])
    rows = max(len(side) for side in sides)
    left, right = (side + [""] * (rows - len(side)) for side in sides)
    return [f"{a:<{half}}{b:>{WIDTH - half}}" for a, b in zip(left, right, strict=True)] + [""]


def _limit(view: AssemblySketch, half: int) -> list[str]:
    if not view.limit_words:
        return []
    words = view.limit_words
    if view.limited_by == "end_a":
        return [f"   ▲ {words}"]
    if view.limited_by == "end_b":
        return [f"{words} ▲".rjust(WIDTH - 3)]
    if view.limited_by == "hose":
        return [" " * (half - 1) + "▲", words.center(WIDTH).rstrip()]
    return [words.center(WIDTH).rstrip()]


def _dimension(view: AssemblySketch, start: int, stop: int) -> str:
    words = f" {view.length} "
    room = stop - start - 1
    if len(words) > room - 4:
        words = words[: room - 5] + "… "
    return " " * start + "├" + words.center(room, "─") + "┤"


def _angle(view: AssemblySketch) -> list[str]:
    if view.angle is None:
        return ["", *textwrap.wrap(view.angle_words, WIDTH)]
    dial = _dial(view.angle)
    told = (
        f"A points down (6). B points to {clock(view.angle)}: {degrees(view.angle)} counter-clockwise from A "
        "(the same number from either end)."
    )
    words = ["Seen from A, along the hose:", "", *textwrap.wrap(told, WIDTH - 24)]
    words = [""] * ((7 - len(words)) // 2) + words
    words += [""] * (7 - len(words))
    return ["", *(f"{face:<22}{line}" for face, line in zip(dial, words, strict=False))]


def assembly_svg(record: Record) -> str:
    """The drawing as a stand-alone SVG."""
    return svg(assembly_figure(record))


def assembly_says(record: Record) -> str:
    """The drawing in words, for those who cannot see it."""
    return says(sketch(record))
