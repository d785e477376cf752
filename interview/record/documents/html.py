"""How is a page written as HTML that stands alone?

One file, no script, nothing fetched; it prints on A4 and on Letter alike. All words are escaped, and each value is its
own direction, so that a right-to-left name does not turn the line around it.
"""

from __future__ import annotations

from html import escape

from interview.record.documents import page as p
from interview.record.figure import svg

STYLE = """
@page { margin: 14mm 13mm 16mm; }
:root { color-scheme: light; }
body { font: 10pt/1.35 Georgia, "Times New Roman", serif; color: #1d2733; max-width: 186mm; margin: 6mm auto;
  padding: 0 4mm; background: #fff; }
h1, h2, h3, th, .banner strong, .foot { font-family: Helvetica, Arial, sans-serif; }
.by-hand td { height: 6mm; }
h1 { font-size: 17pt; margin: 0 0 2mm; }
h2 { font-size: 11.5pt; margin: 4.5mm 0 1.2mm; border-bottom: 0.4pt solid #8a94a0; break-after: avoid; }
h3 { font-size: 10pt; margin: 3mm 0 1mm; break-after: avoid; }
p, ul { margin: 1.2mm 0; }
ul { padding-left: 5mm; }
.lead { font-size: 12pt; font-weight: bold; }
.banner { border: 2pt solid #a3341c; padding: 2mm 4mm; margin: 2mm 0 3mm; break-inside: avoid; }
.banner ul { columns: 2; }
.banner strong { font-size: 15pt; letter-spacing: 0.06em; color: #a3341c; }
table { border-collapse: collapse; width: 100%; font-size: 9pt; table-layout: fixed; }
th, td { text-align: left; vertical-align: top; padding: 0.7mm 2mm 0.7mm 0; border-bottom: 0.3pt solid #c8ced5;
  overflow-wrap: anywhere; }
.pairs th { width: 27%; font-weight: bold; font-size: 8.5pt; }
thead { display: table-header-group; }
tr, figure { break-inside: avoid; }
figure { margin: 2mm 0; }
figure svg { width: 100%; height: auto; max-height: 52mm; }
.sign { display: flex; gap: 8mm; margin-top: 9mm; break-inside: avoid; }
.sign div { flex: 1; border-top: 0.6pt solid #1d2733; font-size: 8.5pt; padding-top: 1mm; }
.evidence { break-before: page; margin-top: 12mm; }
.foot { break-before: avoid; margin-top: 5mm; font-size: 7.5pt; color: #56606b; border-top: 0.3pt solid #8a94a0;
  padding-top: 1mm; }
@media print {
  body { margin: 0; padding: 0; max-width: none; font-size: 9pt; line-height: 1.25; }
  h1 { font-size: 15pt; margin-bottom: 1mm; }
  h2 { font-size: 10.5pt; margin: 3mm 0 0.8mm; }
  .lead { font-size: 11pt; }
  table { font-size: 8pt; }
  th, td { padding: 0.4mm 2mm 0.4mm 0; }
  .pairs th { font-size: 7.5pt; }
  .by-hand td { height: 5mm; }
  figure { margin: 1mm 0; }
  figure svg { max-height: 44mm; }
  .sign { margin-top: 7mm; }
  .evidence { margin-top: 0; }
}
"""


def _bdi(text: str) -> str:
    return f'<bdi dir="auto">{escape(text)}</bdi>' if text else ""


def render(page: p.Page) -> str:
    """The page as one self-contained HTML file."""
    body: list[str] = []
    new_page = False
    for block in page.blocks:
        if isinstance(block, p.PageBreak):
            new_page = True
            continue
        body.append(_block(block, new_page))
        new_page = False
    size = "letter" if page.letter else "A4"
    return "\n".join(
        [
            "<!DOCTYPE html>",
            '<html lang="en">',
            "<head>",
            '<meta charset="utf-8">',
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">",
            '<meta name="viewport" content="width=device-width, initial-scale=1">',
            f"<title>{escape(page.title)}</title>",
            f"<style>{STYLE.replace('@page { ', f'@page {{ size: {size}; ')}</style>",
            "</head>",
            "<body>",
            *body,
            f'<p class="foot">{_bdi(page.foot)}</p>' if page.foot else "",
            "</body>",
            "</html>",
            "",
        ]
    )


def _block(block: p.Printed, new_page: bool) -> str:
    match block:
        case p.Heading():
            start = ' class="evidence"' if new_page else ""
            return f"<h{block.level}{start}>{escape(block.text)}</h{block.level}>"
        case p.Banner():
            points = _list(block.lines) if block.lines else ""
            return f'<div class="banner" role="alert"><strong>{escape(block.title)}</strong>{points}</div>'
        case p.Lead():
            return f'<p class="lead">{_bdi(block.text)}</p>'
        case p.Words():
            return f"<p>{_bdi(block.text)}</p>"
        case p.Points():
            return _list(block.items)
        case p.Pairs():
            rows = "".join(f'<tr><th scope="row">{_bdi(a)}</th><td>{_bdi(b)}</td></tr>' for a, b in block.rows)
            return f'<table class="pairs"><tbody>{rows}</tbody></table>'
        case p.Table():
            return _table(block)
        case p.Picture():
            return f"<figure>{svg(block.figure)}</figure>"
        case p.SignLines():
            return f'<div class="sign">{"".join(f"<div>{escape(label)}</div>" for label in block.labels)}</div>'


def _list(items: tuple[str, ...]) -> str:
    return f"<ul>{''.join(f'<li>{_bdi(text)}</li>' for text in items)}</ul>"


def _table(block: p.Table) -> str:
    total = sum(block.widths)
    columns = "".join(f'<col style="width:{100 * width / total:.1f}%">' for width in block.widths)
    head = "".join(f'<th scope="col">{escape(text)}</th>' for text in block.head)
    rows = "".join(f"<tr>{''.join(f'<td>{_bdi(cell)}</td>' for cell in row)}</tr>" for row in block.rows)
    group = f"<colgroup>{columns}</colgroup>" if columns else ""
    kind = ' class="by-hand"' if block.by_hand else ""
    return f"<table{kind}>{group}<thead><tr>{head}</tr></thead><tbody>{rows}</tbody></table>"
