"""Is the drawing right? Ends, gender, form, direction by the contract's rule, length, and the limiting part."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import pytest
from record_jobs import BRICK_PRESS, SAWMILL, changed, fact_data

from interview.record.drawing import WIDTH, assembly_says, assembly_svg, assembly_text
from interview.record.model import Record
from interview.record.sketch import clock, direction, sketch, ways

SVG = "{http://www.w3.org/2000/svg}"


def elbows(angle: float | None, **facts: object) -> Record:
    return changed(
        BRICK_PRESS,
        facts={"end_angle": fact_data(angle, "deg"), **{k: fact_data(v) for k, v in facts.items()}},
        build=BRICK_PRESS.build.model_dump(mode="json") | {"end_angle_deg": angle},
    )


# the contract's rule on a clock face: looking along the hose from A, A's outlet at 6, counter-clockwise to B's;
# MIL-DTL-83796/5 fig. 3, restating SAE J517, has the same: 90 degrees is 3 o'clock
@pytest.mark.parametrize(
    ("angle", "hour", "seen"),
    [
        (0, "6 o'clock", ["down"]),
        (90, "3 o'clock", ["at you"]),
        (180, "12 o'clock", ["up"]),
        (270, "9 o'clock", ["away from you"]),
        (360, "6 o'clock", ["down"]),
        (135, "half past 1", ["up", "at you"]),
        (225, "half past 10", ["up", "away from you"]),
        (315, "half past 7", ["down", "away from you"]),
    ],
)
def test_the_angle_on_a_clock_and_in_the_side_view(angle: float, hour: str, seen: list[str]) -> None:
    assert clock(angle) == hour
    assert ways(angle) == seen


@pytest.mark.parametrize("angle", range(0, 360, 7))
def test_the_number_is_the_same_from_either_end(angle: int) -> None:
    """Seen from B the face is mirrored; turned until B is at six, A stands where B stood."""
    right, up = direction(angle)
    bx, by = -right, up  # B's outlet on the face seen from the other end
    # turn the mirrored face so that B points down, and carry A (0, -1) along
    cos, sin = -by, bx
    ax, ay = 0 * cos - (-1) * -sin, 0 * -sin + (-1) * cos
    assert (ax, ay) == pytest.approx((right, up), abs=1e-9)


def rows(record: Record) -> list[str]:
    return assembly_text(record).split("\n")


def test_straight_ends_show_gender() -> None:
    female = assembly_text(SAWMILL)
    assert female.count("┏━━┓") == 2 and "╫" not in female
    male = assembly_text(changed(facts={"end_b_gender": fact_data("male")}))
    assert male.count("┏━━┓") == 1 and "╫╫╫" in male
    flange = assembly_text(
        changed(facts={"end_a_family": fact_data("flange61", shown="4-bolt flange"), "end_a_gender": fact_data("male")})
    )
    assert "flange head" in flange and "╫" not in flange


def test_a_bends_down_on_the_left_and_b_as_the_angle_says() -> None:
    down = rows(elbows(0))
    line = next(i for i, row in enumerate(down) if "▓▓▓" in row)
    assert down[line].index("╭") < 10 and down[line].rindex("╮") > WIDTH - 10
    up = rows(elbows(180))
    line = next(i for i, row in enumerate(up) if "▓▓▓" in row)
    assert up[line].rindex("╯") > WIDTH - 10 and "┗━┳━┛" in up[line - 2] and "┏━┻━┓" in up[line + 2]
    assert "(•)" in assembly_text(elbows(90)) and "points at you" in assembly_text(elbows(90))
    assert "(×)" in assembly_text(elbows(270)) and "points away from you" in assembly_text(elbows(270))


def test_the_dial_puts_b_where_it_points() -> None:
    for angle, column in ((90, 14), (270, 2)):
        dial = next(row for row in rows(elbows(angle)) if " o " in row[:20] and "▓" not in row)
        assert dial[column] == "B"
    twelve = next(row for row in rows(elbows(180)) if row.strip().startswith("·") and "B" in row[:20])
    assert twelve.index("B") == 8


def test_an_unknown_angle_is_said_never_drawn() -> None:
    text = assembly_text(elbows(None))
    assert "(?)" in text and "must be measured" in " ".join(text.split())
    assert "must be measured" in assembly_svg(elbows(None))


def test_unknown_ends_and_length_are_drawn_as_unknown() -> None:
    record = changed(
        build={},
        facts={
            "end_a_gender": fact_data(None, "", "unknown"),
            "end_a_family": fact_data(None, "", "unknown"),
            "end_a_size": fact_data(None, "", "unknown"),
            "overall_length": fact_data(None, "mm", "unknown"),
        },
    )
    text = assembly_text(record)
    assert "connection not known" in text and "overall length not known" in text and "╎ ?" in text


@pytest.mark.parametrize("part", ["end_a", "end_b", "hose"])
def test_the_limiting_part_is_marked_at_its_place(part: str) -> None:
    assert SAWMILL.assembly is not None
    record = changed(assembly=SAWMILL.assembly.model_dump(mode="json") | {"limited_by": part})
    place = next(row for row in rows(record) if "▲" in row).index("▲") / WIDTH
    assert {"end_a": place < 0.2, "end_b": place > 0.8, "hose": 0.45 < place < 0.55}[part]
    words = next(row for row in rows(record) if "limits the assembly" in row)
    assert "206.8 bar" in words and {"end_a": "End A", "end_b": "End B", "hose": "The hose"}[part] in words


@pytest.mark.parametrize("form_a", ["straight", "elbow45", "elbow90", None])
@pytest.mark.parametrize("form_b", ["straight", "elbow45", "elbow90", None])
@pytest.mark.parametrize("angle", [None, 0.0, 47.0, 90.0, 180.0, 300.0])
def test_every_shape_fits_the_terminal_and_the_frame(
    form_a: str | None, form_b: str | None, angle: float | None
) -> None:
    record = elbows(angle, end_a_form=form_a, end_b_form=form_b, end_b_gender="male")
    for plain in (False, True):
        text = assembly_text(record, ascii_only=plain)
        assert max(map(len, text.split("\n"))) <= WIDTH
        assert not plain or text.isascii()
    root = ET.fromstring(assembly_svg(record))
    width, height = float(root.attrib["width"]), float(root.attrib["height"])
    for item in root:
        for pair in item.attrib.get("points", "").split():
            x, y = map(float, pair.split(","))
            assert 0 <= x <= width and 0 <= y <= height, (item.tag, pair)
        if item.tag == f"{SVG}text":
            assert 0 < float(item.attrib["y"]) <= height


def test_the_drawing_is_told_in_words_too() -> None:
    said = assembly_says(BRICK_PRESS)
    for wanted in ("End A: face seal -4, female, 90° elbow", "9 o'clock", "270°", "640 mm", "The hose limits"):
        assert wanted in said
    root = ET.fromstring(assembly_svg(BRICK_PRESS))
    assert root.find(f"{SVG}desc") is not None and root.findtext(f"{SVG}desc") == said


def test_hostile_words_stay_words_in_the_svg() -> None:
    bad = '</text><script>x</script>&"'
    record = changed(facts={"end_a_family": fact_data("flare37", shown=bad)})
    root = ET.fromstring(assembly_svg(record))
    assert all(item.tag != f"{SVG}script" for item in root.iter())
    assert any("<script>" in (item.text or "") for item in root.iter(f"{SVG}text"))


def test_only_an_angle_between_two_bent_ends_is_shown() -> None:
    assert sketch(changed(BRICK_PRESS, facts={"end_b_form": fact_data("straight")})).angle is None
