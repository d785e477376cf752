"""Which document, in which form? One entrance for faces and commands; each writer is loaded only when it is wanted."""

from __future__ import annotations

from interview.record.digest import record_json
from interview.record.documents.files import DocumentError
from interview.record.documents.page import NOT_FILED, Filed, Page
from interview.record.model import Record

KINDS = ("specification", "build-sheet", "tag", "certificate", "drawing")
FORMS: dict[str, tuple[str, ...]] = {
    "specification": ("md", "html", "pdf", "json"),
    "build-sheet": ("md", "html", "pdf"),
    "certificate": ("md", "html", "pdf"),
    "tag": ("txt",),
    "drawing": ("txt", "svg"),
}


def make(record: Record, kind: str = "specification", form: str = "md", filed: Filed = NOT_FILED) -> bytes:
    """The document as bytes. Raises DocumentError for a kind, form or document that does not exist."""
    if kind not in FORMS:
        raise DocumentError(f"{kind} is not a document; there are {', '.join(KINDS)}.")
    if form not in FORMS[kind]:
        raise DocumentError(f"The {kind} is not made as {form}; it is made as {', '.join(FORMS[kind])}.")
    if kind == "drawing":
        from interview.record.drawing import assembly_svg, assembly_text

        return (assembly_svg(record) if form == "svg" else assembly_text(record)).encode()
    if kind == "tag":
        from interview.record.documents.tag import tag_text

        return tag_text(record, filed).encode()
    if form == "json":
        return record_json(record).encode()
    return _rendered(_page(record, kind, filed), form)


def _page(record: Record, kind: str, filed: Filed) -> Page:
    if kind == "build-sheet":
        from interview.record.documents.build_sheet import build_sheet

        return build_sheet(record, filed)
    if kind == "certificate":
        from interview.record.documents.certificate import certificate

        return certificate(record, filed)
    from interview.record.documents.specification import specification

    return specification(record, filed)


def _rendered(page: Page, form: str) -> bytes:
    if form == "pdf":
        from interview.record.documents import pdf

        return pdf.render(page)
    if form == "html":
        from interview.record.documents import html

        return html.render(page).encode()
    from interview.record.documents import markdown

    return markdown.render(page).encode()
