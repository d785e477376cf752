"""What is stamped or tied to the assembly?

Who made it, what it carries, and when (EN ISO 4413 and DIN 20066, as restated in DGUV Regel 113-020, annex 1: name or
mark of the assembler, maximum working pressure of the assembly, year and month), and under which number its record is.
Never a burst pressure, never a safety factor, never a line of code in place of words.
"""

from __future__ import annotations

from interview.language.show import psi_borne
from interview.record.documents import words as w
from interview.record.documents.page import NOT_FILED, Filed
from interview.record.documents.phrases import banner
from interview.record.model import Record


def marked_pressure(bar: float, printed: float | None = None) -> str:
    """The rating to stamp: never above the assembly's own, in whole bar and in psi."""
    return f"{int(bar + 1e-6)} bar ({psi_borne(bar, printed)} psi)"


def tag_lines(record: Record, filed: Filed = NOT_FILED) -> list[str]:
    """The lines of the tag of a record that may be built."""
    assembly = record.assembly
    bears = marked_pressure(assembly.rating.value, w.assembly_psi(assembly)) if assembly and assembly.rating else None
    lines = [
        f"Made by: {'.' * 24}",
        f"Max. working pressure: {bears or 'NOT KNOWN'}",
        "Assembled (year-month): ....-..",
    ]
    if tag := w.shown(record, "line_tag"):
        lines.append(f"Line: {w.clean(tag, 60)}")
    if filed.number:
        lines.append(f"Record: {filed}")
    return lines


def tag_text(record: Record, filed: Filed = NOT_FILED) -> str:
    """The tag as plain text; NOT FOR BUILDING with what is missing where there is nothing to stamp yet."""
    warning = banner(record)
    if warning is not None:
        return "\n".join([warning.title, *(f"- {line}" for line in warning.lines)]) + "\n"
    return "\n".join(tag_lines(record, filed)) + "\n"
