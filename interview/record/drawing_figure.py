"""How is the assembly drawn on paper? The same side view as in the terminal, in strokes, with a dial for the angle."""

from __future__ import annotations

import math
import textwrap

from interview.record.figure import FAINT, INK, MARK, PAPER, Disc, Figure, Item, Label, Stroke, arrow
from interview.record.model import Record
from interview.record.sketch import AssemblySketch, EndSketch, clock, degrees, direction, sketch, way_words

WIDTH = 520.0
HOSE = 7.0  # half the drawn outside diameter
Point = tuple[float, float]


class _Frame:
    """Places an end: `along` runs from its mouth's far side out of the hose, `across` to its left."""

    def __init__(self, x: float, y: float, angle: float) -> None:
        self.x, self.y = x, y
        self.ux, self.uy = math.cos(math.radians(angle)), math.sin(math.radians(angle))

    def at(self, along: float, across: float) -> Point:
        return self.x + along * self.ux - across * self.uy, self.y + along * self.uy + across * self.ux

    def path(self, *points: Point) -> tuple[Point, ...]:
        return tuple(self.at(*p) for p in points)


def _mouth(frame: _Frame, end: EndSketch, ink: str) -> list[Item]:
    """The connection itself, drawn outward from the frame's origin; 26 points long."""
    wide = 13.0
    if end.flange:
        return [
            Stroke(frame.path((0, -5), (16, -5), (16, 5), (0, 5)), ink, 1.2, True, PAPER),
            Stroke(frame.path((16, -wide), (22, -wide), (22, wide), (16, wide)), ink, 1.4, True, PAPER),
        ]
    if end.gender == "male":
        thread: list[Item] = [
            Stroke(frame.path((0, -10), (8, -10), (8, 10), (0, 10)), ink, 1.2, True, PAPER),
            Stroke(frame.path((8, -7), (26, -7), (26, 7), (8, 7)), ink, 1.2, True, PAPER),
        ]
        thread += [Stroke(frame.path((a, -7), (a + 2.5, 7)), ink, 0.8) for a in (10, 13, 16, 19, 22)]
        return thread
    if end.gender == "female":
        return [
            Stroke(frame.path((0, -4), (4, -4), (4, 4), (0, 4)), ink, 1.0),
            Stroke(frame.path((26, -wide), (4, -wide), (4, wide), (26, wide)), ink, 1.8),
            Stroke(frame.path((4, -5), (17, -5), (22, 0), (17, 5), (4, 5)), ink, 1.0),
            Stroke(frame.path((10, -wide), (26, -wide)), ink, 3.0),
            Stroke(frame.path((10, wide), (26, wide)), ink, 3.0),
        ]
    return [Stroke(frame.path((2, -wide), (26, -wide), (26, wide), (2, wide)), ink, 1.0, True, None, (3, 3))]


def _pipe(points: tuple[Point, ...], ink: str) -> list[Item]:
    """A tube along a path: thick ink under thinner paper."""
    return [Stroke(points, ink, 10.0), Stroke(points, PAPER, 7.4)]


def _ferrule(x: float, y: float, sign: float, ink: str) -> Stroke:
    box = ((x, y - 10), (x + sign * 34, y - 10), (x + sign * 34, y + 10), (x, y + 10))
    return Stroke(box, ink, 1.2, True, "#dfe4ea")


def _end(end: EndSketch, view: AssemblySketch, x: float, y: float) -> tuple[list[Item], float]:
    """One end with its neck; the ferrule's outer edge is at x. Returns the x its length is measured from."""
    sign = -1.0 if end.letter == "A" else 1.0  # outward
    ink = MARK if end.limits else INK
    items: list[Item] = []
    if not end.bent:
        items += _mouth(_Frame(x, y, 0 if sign > 0 else 180), end, ink)
        measured = x + sign * 22
        if not end.gender and not end.flange:
            items.append(Label(x + sign * 15, y + 5, "?", 14, "middle", True, ink))
        return items, measured
    up, right = -1.0, 0.0
    if end.letter == "B" and view.needs_angle:
        if view.angle is None:
            items += _pipe(((x, y), (x + sign * 18, y)), ink)
            items += [
                Disc(x + sign * 28, y, 12, ink, 1.2, PAPER),
                Label(x + sign * 28, y + 5, "?", 14, "middle", True, ink),
            ]
            return items, x + sign * 28
        right, up = direction(view.angle)
    reach = abs(up)
    lean = 0.0 if end.form == "elbow90" else 1.0
    corner = (x + sign * (22 if end.form == "elbow90" else 12), y)
    if reach < 0.2:  # straight at the reader or away: a circle with a point or a cross
        centre = (corner[0] + sign * 6, y)
        items += _pipe(((x, y), centre), ink)
        items.append(Disc(*centre, 13, ink, 1.6, PAPER))
        if right > 0:
            items.append(Disc(*centre, 4, ink, 1.0, ink))
        else:
            cx, cy = centre
            items += [
                Stroke(((cx - 7, cy - 7), (cx + 7, cy + 7)), ink, 1.6),
                Stroke(((cx - 7, cy + 7), (cx + 7, cy - 7)), ink, 1.6),
            ]
        return items, centre[0]
    down = 1.0 if up < 0 else -1.0
    long = 26.0 * max(0.55, reach)
    tip = (corner[0] + sign * lean * long, y + down * long)
    items += _pipe(
        (
            (x, y),
            (corner[0] - sign * 6, y),
            (corner[0] - sign * 1.5, y + down * 1.5),
            (corner[0], y + down * 6) if not lean else (corner[0] + sign * 4, y + down * 5.5),
            tip,
        ),
        ink,
    )
    heading = math.degrees(math.atan2(tip[1] - (y if lean else tip[1] - down), tip[0] - corner[0]))
    items += _mouth(_Frame(*tip, heading), end, ink)
    return items, corner[0] if not lean else tip[0]


def _dial(view: AssemblySketch, x: float, y: float) -> list[Item]:
    """Seen from A along the hose: A at six, B where it points."""
    assert view.angle is not None
    radius = 28.0
    items: list[Item] = [Disc(x, y, radius, FAINT, 0.8), Disc(x, y, 5, INK, 1.2, PAPER)]
    for hour in range(12):
        turn = math.radians(hour * 30)
        s, c = math.sin(turn), -math.cos(turn)
        items.append(
            Stroke(((x + s * (radius - 3), y + c * (radius - 3)), (x + s * radius, y + c * radius)), FAINT, 0.8)
        )
    for hour in (12, 3, 9):
        turn = math.radians(hour * 30)
        items.append(
            Label(
                x + math.sin(turn) * (radius + 9),
                y - math.cos(turn) * (radius + 9) + 3,
                str(hour),
                8,
                "middle",
                ink=FAINT,
            )
        )
    right, up = direction(view.angle)
    items += arrow(x, y + 5, x, y + radius - 4, INK, 2.0, 7)
    items += arrow(x + right * 5, y - up * 5, x + right * (radius - 4), y - up * (radius - 4), MARK, 2.0, 7)
    items.append(Label(x - 4, y + radius + 12, "A", 10, "end", True))
    same = abs(math.sin(math.radians(view.angle))) < 0.17 and up < 0
    bx = x + 8 if same else x + right * (radius + 20)
    by = y + radius + 12 if same else y - up * (radius + 20) + 3
    items.append(Label(bx, by, "B", 10, "middle", True, MARK))
    swept = view.angle % 360
    arc = tuple((x + math.sin(math.radians(t)) * 18, y + math.cos(math.radians(t)) * 18) for t in _steps(swept))
    if len(arc) > 2:
        items.append(Stroke(arc, INK, 0.8, dash=(2, 2)))
    words = [
        "Seen from A, along the hose",
        "A points down (6 o'clock)",
        f"B points to {clock(view.angle)}:",
        f"{degrees(view.angle)} counter-clockwise from A",
    ]
    for row, text in enumerate(words):
        items.append(Label(x + radius + 40, y - 20 + row * 14, text, 9.5, bold=row >= 2))
    return items


def _steps(swept: float) -> list[float]:
    count = max(1, int(swept // 10))
    return [swept * i / count for i in range(count + 1)]


def assembly_figure(record: Record) -> Figure:
    view = sketch(record)
    items: list[Item] = []
    b_up = view.b.bent and view.needs_angle and view.angle is not None and direction(view.angle)[1] > 0.2
    bent_down = view.a.bent or (view.b.bent and not (view.needs_angle and (view.angle is None or b_up)))
    y = 48.0 + (54.0 if b_up else 10.0)
    left, right = 86.0, WIDTH - 86.0
    for end, x, anchor in ((view.a, 8.0, "start"), (view.b, WIDTH - 8.0, "end")):
        ink = MARK if end.limits else INK
        items.append(Label(x, 14, f"End {end.letter}: {_short(end.connection, 44)}", 10, anchor, True, ink))
        manner = f"{end.manner}, {words}" if end.letter == "B" and (words := way_words(view)) else end.manner
        items.append(Label(x, 27, manner, 9, anchor, False, ink))
    hose_ink = MARK if view.limited_by == "hose" else INK
    half = (left + right) / 2
    for edge in (-HOSE, HOSE):
        items.append(Stroke(((left, y + edge), (half - 6, y + edge)), hose_ink, 1.4))
        items.append(Stroke(((half + 6, y + edge), (right, y + edge)), hose_ink, 1.4))
    for shift in (-6.0, 6.0):  # broken off: not to scale
        items.append(Stroke(((half + shift + 3, y - 11), (half + shift - 3, y + 11)), hose_ink, 1.0))
    end_a, start = _end(view.a, view, left, y)
    end_b, stop = _end(view.b, view, right, y)
    items += [
        *end_a,
        *end_b,
        _ferrule(left, y, 1, MARK if view.a.limits else INK),
        _ferrule(right, y, -1, MARK if view.b.limits else INK),
    ]
    if view.hose:
        items.append(Label(half, y - 16, _short(view.hose, 56), 9.5, "middle", ink=hose_ink))
    low = y + (58.0 if bent_down else 24.0)
    if view.limit_words:
        place = {"end_a": left + 4, "end_b": right - 4}.get(view.limited_by, half)
        anchor = {"end_a": "start", "end_b": "end"}.get(view.limited_by, "middle")
        if view.limited_by in ("end_a", "end_b", "hose"):
            items += arrow(place, y + 27, place, y + 13, MARK, 1.6, 6)
        items.append(Label(place, y + 38, view.limit_words, 10, anchor, True, MARK))
        low = max(low, y + 50)
    line = low + 16
    for x in (start, stop):
        items.append(Stroke(((x, y + 16 if not bent_down else low), (x, line + 5)), FAINT, 0.6))
    items += arrow(half, line, start, line, INK, 0.9)
    items += arrow(half, line, stop, line, INK, 0.9)
    items.append(Label(half, line - 5, view.length, 10, "middle", True))
    bottom = line + 14
    if view.points:
        for text in textwrap.wrap(f"measured {view.points}", 84):
            items.append(Label(half, bottom, text, 8.5, "middle"))
            bottom += 11
    if view.needs_angle and view.angle is not None:
        items += _dial(view, half - 90, bottom + 42)
        bottom += 85
    elif view.needs_angle:
        items.append(Label(half, bottom + 6, view.angle_words, 9.5, "middle", True, MARK))
        bottom += 18
    return Figure(WIDTH, bottom + 2, tuple(items), "The assembly, not to scale", says(view))


def _short(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"


def says(view: AssemblySketch) -> str:
    """The drawing in words."""
    parts = [f"End {e.letter}: {e.connection}, {e.manner}." for e in (view.a, view.b)]
    parts.append(f"Hose: {view.hose}." if view.hose else "No hose chosen.")
    parts.append(f"{view.length[:1].upper()}{view.length[1:]}{', measured ' + view.points if view.points else ''}.")
    if view.angle_words:
        parts.append(view.angle_words)
    if view.limit_words:
        parts.append(f"{view.limit_words}.")
    return " ".join(parts)
