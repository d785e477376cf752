"""What lies on the shop's shelf? One item of hose: what it bears by its maker's word, and whether it may be built from.

A maker's rating below the standard's row counts at once; above it only with the maker's document and its date, else
the row governs. A rating that rounds to the row's is the row's.
"""

from __future__ import annotations

from dataclasses import dataclass

SAME = 0.005  # relative: pairs printed in bar and psi differ by their rounding


@dataclass(frozen=True, slots=True)
class Item:
    """`name` is what the shop calls it. `left` in m, `rating` in pascal; None where the shop does not say."""

    name: str
    construction: str
    bore: float
    left: float | None = None
    left_said: str = ""  # the same in the shop's own words
    rating: float | None = None
    psi: float | None = None  # the rating as said in psi
    document: str = ""
    dated: str = ""
    made: str = ""  # the hose's own date
    non_conductive: bool = False  # so marked by its maker
    too_old: bool = False  # older than hose may be at build by the house rule, on the day the shelf was read

    @property
    def proven(self) -> bool:
        """Its maker's document and the date of it are known."""
        return bool(self.document and self.dated)

    def bears(self, row: float) -> float:
        """What it bears, in pascal, where the standard's row says `row`.

        >>> Item("bin 3", "en857-2sc", 8, rating=400e5).bears(345e5)
        34500000.0
        >>> Item("bin 3", "en857-2sc", 8, rating=400e5, document="sheet 12", dated="2026-03-01").bears(345e5)
        40000000.0
        """
        rating = self.rating
        if rating is None or abs(rating / row - 1) <= SAME or (rating > row and not self.proven):
            return row
        return rating

    def covers(self, length: float | None) -> bool:
        """There is enough of it for a length in m; what is not known, of either, is no reason to pass it by."""
        return self.left is None or length is None or self.left >= length
