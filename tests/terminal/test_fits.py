"""What the candidates say of themselves in the side column and in the full view."""

from __future__ import annotations

import pytest

from interview.dialogue.fit_view import FitLine, FitView
from interview.terminal.fits import fit_line, fits_content

FIRST = FitLine(
    "EN 857 2SC, 1/2 in", "en857-2sc", 8, "fits", "275 bar", 0.25, "", True, ("EN 853 2SN",), "bin 14, 42 m left"
)
SECOND = FitLine(
    "EN 857 2SC, 1/2 in, shelf item rack 3", "en857-2sc", 8, "fits", "400 bar", 0.6, "", False, (), "rack 3"
)
BARE = FitLine("EN 853 2SN, 1/2 in", "en853-2sn", 8, "fits", "275 bar", 0.25, "", False, ())


@pytest.mark.parametrize("width", [30, 42, 78])
def test_what_lies_on_the_shelf_is_said_beside_and_in_full(width: int) -> None:
    beside = fits_content(FitView(3, 0, 0, (FIRST, SECOND, BARE)), width).plain
    assert "on the shelf: bin 14, 42 m left" in " ".join(beside.split())  # the first choice is never cut
    assert "  on the shelf; 400 bar" in beside
    assert max(map(len, beside.splitlines())) <= width
    full = [" ".join(fit_line(line, width).plain.split()) for line in (FIRST, SECOND, BARE)]
    assert "fits, 25% to spare; on the shelf: bin 14, 42 m left; counterpart: EN 853 2SN" in full[0]
    assert "on the shelf: rack 3" in full[1] and "shelf" not in full[2]
