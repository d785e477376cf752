"""How do values of customers go into a spreadsheet without becoming formulas?

A cell that begins with a sign a spreadsheet takes for a formula gets an apostrophe before it; plain numbers, negative
ones too, stay numbers.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

from interview.record.documents.words import clean

STARTS_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "%", "＝", "＋", "－", "＠")
NUMBER = re.compile(r"^[+-]?\d+([.,]\d+)?$")


def safe_cell(value: object) -> str:
    """The text of one cell."""
    if value is None:
        return ""
    text = clean(value, 32000)
    if isinstance(value, (int, float)) or NUMBER.match(text):
        return text
    return f"'{text}" if text.startswith(STARTS_FORMULA) else text


def csv_text(head: Sequence[str], rows: Iterable[Sequence[object]]) -> str:
    """Rows as CSV with line feeds; every cell safe."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([safe_cell(cell) for cell in head])
    for row in rows:
        writer.writerow([safe_cell(cell) for cell in row])
    return out.getvalue()
