"""Do the documents say all that a record holds, nothing that could be built from too early, and nothing as markup?

Golden texts lie in `golden/`; running this file as a program writes them anew, to be read before they are committed.
The outside readers are pypdf (text and pages of the PDF) and the HTML parser of the standard library.
"""

from __future__ import annotations

import csv
import io
import re
import sys
from html.parser import HTMLParser
from pathlib import Path

import pytest
from pypdf import PdfReader
from record_jobs import BRICK_PRESS, PROVISIONAL, SAWMILL, changed, fact_data

from interview.facts import tidy
from interview.record.digest import content_hash, read_record, record_json, record_schema
from interview.record.documents.build_sheet import build_sheet
from interview.record.documents.certificate import certificate
from interview.record.documents.csv_cells import csv_text, safe_cell
from interview.record.documents.files import DocumentError
from interview.record.documents.make import FORMS, make
from interview.record.documents.markdown import render
from interview.record.documents.page import NOT_FILED, Filed
from interview.record.documents.phrases import limit_words
from interview.record.documents.tag import marked_pressure, tag_text
from interview.record.documents.words import rating
from interview.record.gauges import gauges
from interview.record.model import Record
from interview.selection.judge import Bench

GOLDEN = Path(__file__).parent / "golden"
FILED = Filed("260302-7K3Q", 2)
TESTED = changed(test={"done_on": "2026-03-03", "tester": "R. Quill"})
REFERRED = changed(
    outcome="referred",
    ready_for="none",
    choice=None,
    assembly=None,
    candidates=[],
    missing_for_build=["this use is not for the counter"],
    referral="a labelled brake hose assembly from its registered maker",
    headline="Referred: a brake hose.",
)
UNMATCHED = changed(
    outcome="unmatched",
    ready_for="none",
    choice=None,
    assembly=None,
    missing_for_build=["no hose fits"],
    nearest="EN 853 2SN bears 100 °C; the air at the hose reaches 135 °C",
)


def markdown(record: Record, filed: Filed = NOT_FILED) -> str:
    return make(record, form="md", filed=filed).decode()


def html(record: Record, filed: Filed = NOT_FILED) -> str:
    return make(record, form="html", filed=filed).decode()


def pdf(record: Record, filed: Filed = NOT_FILED) -> bytes:
    return make(record, form="pdf", filed=filed)


GOLDENS = {
    "specification.md": lambda: markdown(PROVISIONAL, FILED),
    "build-sheet.md": lambda: render(build_sheet(BRICK_PRESS, FILED)),
    "build-sheet-refused.md": lambda: render(build_sheet(PROVISIONAL, FILED)),
    "certificate.md": lambda: render(certificate(TESTED, FILED)),
    "tag.txt": lambda: tag_text(SAWMILL, FILED),
}

HOSTILE = (
    "| # <b>bold</b> & *stars* _under_ `code` [link](http://x.example) ![i](y)",
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    '=HYPERLINK("http://x.example")',
    "../../etc/passwd",
    "a\r\n# Heading\n\n| new | table |\n|---|---|",
    "שלום עולם",
    "abc\u202edcb\u2066x\u200b",
    "```\n</pre>\n```",
    "half a letter \udce9 from a terminal",
    "$(rm -rf) %s {0} \\ \x00\x1b[31m",
    "x" * 10_000,
)


@pytest.mark.parametrize("name", GOLDENS)
def test_golden_text(name: str) -> None:
    made = GOLDENS[name]()
    assert "\r" not in made and made.endswith("\n")
    assert made == (GOLDEN / name).read_bytes().decode("utf-8")


def said_by(record: Record) -> list[str]:
    """Everything a reader a year later must find, taken from the record itself."""
    pick = next(c for c in record.candidates if record.choice and c.construction == record.choice.construction)
    assert record.assembly is not None and record.choice is not None
    return [
        record.headline,
        *(a.why for a in record.assumptions),
        *(a.confirm_by for a in record.assumptions),
        *(c.text for c in record.cautions),
        *(a.text for a in record.advice),
        *record.sources,
        *record.house_rules,
        *record.choice.twins,
        *record.choice.runners_up,
        *(n.because for n in record.needs),
        *(f.said for f in record.facts.values() if f.said),
        *(x for f in pick.findings for x in (f.need, f.have, f.source)),
        *(x for p in record.assembly.parts for x in (p.what, p.source)),
        record.tool_version,
        content_hash(record),
    ]


def flat(text: str) -> str:
    return re.sub(r"\s+", " ", text).lower()


@pytest.mark.parametrize("record", [SAWMILL, PROVISIONAL], ids=["build", "quote"])
def test_every_form_says_everything_the_record_holds(record: Record) -> None:
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(pdf(record, FILED))).pages]
    forms = {"markdown": markdown(record, FILED), "html": text_of(html(record, FILED)), "pdf": " ".join(pages)}
    for form, text in forms.items():
        for wanted in said_by(record):
            # a cell of the PDF may break a line inside a word it had to wrap
            assert re.sub(r"\W", "", wanted.lower()) in re.sub(r"\W", "", text.lower()), (form, wanted)


@pytest.mark.parametrize("record", [PROVISIONAL, REFERRED, UNMATCHED], ids=["quote", "referred", "unmatched"])
def test_what_may_not_be_built_says_so_and_why_on_every_page_kind(record: Record) -> None:
    for text in (
        markdown(record),
        render(build_sheet(record)),
        tag_text(record),
        text_of(html(record)),
        PdfReader(io.BytesIO(pdf(record))).pages[0].extract_text(),
    ):
        assert "NOT FOR BUILDING" in text
        for missing in record.missing_for_build:
            assert missing.lower() in flat(text)
    sheet = render(build_sheet(record))
    assert "Cut length" not in sheet and "Proof pressure" not in sheet and "206.8" not in sheet
    assert "working pressure" not in tag_text(record)


def test_what_is_missing_is_worded_by_how_far_it_is_known() -> None:
    record = changed(
        PROVISIONAL,
        missing_for_build=["surge_pressure", "overall_length", "end_b_family", "end_angle", "hose", "bend"],
        facts={
            "surge_pressure": fact_data(270.0, "bar", "assumed"),
            "overall_length": fact_data(1450.0, "mm", "copied"),
        },
    )
    said = tag_text(record).splitlines()[1:]
    assert said == [
        "- highest spike: only assumed (270 bar (3,916 psi))",
        "- overall length: only copied from the old hose (1450 mm (57 1/16 in)); measure it or read it off",
        "- end B connection: named (37° flare), not measured; measure it or read it off",
        "- angle between the ends: not known",
        "- a hose that fits for certain",
        "- the check on bend",
    ]


def test_what_may_be_built_carries_no_such_banner() -> None:
    assert "NOT FOR BUILDING" not in markdown(SAWMILL) + render(build_sheet(SAWMILL)) + tag_text(SAWMILL)


def test_a_stop_says_where_to_go_instead_and_an_unmatched_job_what_blocks_the_nearest() -> None:
    assert "registered maker" in markdown(REFERRED)
    assert "135 °C" in markdown(UNMATCHED)
    assert (
        tag_text(changed(UNMATCHED, missing_for_build=[]))
        == "NOT FOR BUILDING\n- Nothing in the tables makes an assembly that fits.\n"
    )
    assert "ask before anything is cut" in tag_text(changed(PROVISIONAL, missing_for_build=[]))


def test_the_build_sheet_leaves_crimp_figures_to_the_maker() -> None:
    sheet = render(build_sheet(SAWMILL))
    rows = [line for line in sheet.splitlines() if "crimp" in line.lower()]
    cells = [cell.strip() for line in rows for cell in line.split("|") if "crimp" in cell.lower()]
    assert len(cells) == 3 and not any(re.search(r"\d", cell) for cell in cells)
    measured = next(line for line in rows if "Crimp as measured" in line)
    assert re.sub(r"[^—]", "", measured.split("|", 2)[2]) == "—"  # blanks to be written into


def test_no_certificate_without_a_test_entered_and_never_with_a_result() -> None:
    with pytest.raises(DocumentError, match="No test has been entered"):
        certificate(SAWMILL)
    with pytest.raises(DocumentError, match="not for building"):
        certificate(changed(PROVISIONAL, test={"done_on": "2026-03-03"}))
    form = render(certificate(TESTED))
    assert "R. Quill" in form
    for label in ("Passed or failed", "Pressure reached, held for", "Leak, bulge, end moved"):
        row = next(line for line in form.splitlines() if label in line)
        assert re.fullmatch(r"\| \*\*.+\*\* \| \.+ \|", row), row


def test_the_tag_never_marks_more_than_the_assembly_carries() -> None:
    assert marked_pressure(206.843) == "206 bar (3000 psi)"  # 3000 psi, NIST factor 6894.757 Pa
    assert marked_pressure(250.0) == "250 bar (3620 psi)"  # 3625.9 psi
    assert marked_pressure(275.79) == "275 bar (4000 psi)"
    for tenth in range(10, 6000, 7):
        bar = tenth / 10
        found = re.fullmatch(r"(\d+) bar \((\d+) psi\)", marked_pressure(bar))
        assert found and int(found[1]) <= bar and int(found[2]) <= bar * 14.5037738 + 1


# -- hostile words ---------------------------------------------------------------------------------------------------


class Reader(HTMLParser):
    """Well-formed: every start tag closed in order, no script, no attribute that acts, nothing fetched."""

    VOID = ("meta", "col", "br")

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.open: list[str] = []
        self.words: list[str] = []
        self.rows: list[int] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag not in ("script", "img", "iframe", "object", "link", "a"), tag
        assert not any(name.startswith("on") or name in ("src", "href") for name, _ in attrs), attrs
        if tag not in self.VOID:
            self.open.append(tag)
        if tag == "tr":
            self.rows.append(0)
        if tag in ("td", "th"):
            self.rows[-1] += 1

    def handle_endtag(self, tag: str) -> None:
        assert self.open and self.open.pop() == tag, tag

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert tag in ("polyline", "polygon", "circle"), tag

    def handle_data(self, data: str) -> None:
        if "style" not in self.open:
            self.words.append(data)


def text_of(page: str) -> str:
    reader = Reader()
    reader.feed(page)
    reader.close()
    assert not reader.open, reader.open
    return " ".join(" ".join(reader.words).split())


def hostile(name: str) -> Record:
    return changed(
        PROVISIONAL,
        facts={
            "customer": fact_data(name, said=name),
            "machine": fact_data(name),
            "layline": fact_data(name, "", "read"),
        },
        headline=name,
        missing_for_build=[name],
        open_words=[name],
        sources=[name],
    )


@pytest.mark.parametrize("name", HOSTILE, ids=range(len(HOSTILE)))
def test_a_hostile_name_stays_words_in_every_form(name: str) -> None:
    record = hostile(name)
    plain = markdown(changed(PROVISIONAL, headline="x", sources=["x"], missing_for_build=["x"], open_words=["x"]))
    text = markdown(record)
    assert text.count("\n") == plain.count("\n")  # no line, heading or table row more than with a plain name
    for line in text.splitlines():
        cells = re.findall(r"(?<!\\)(?:\\\\)*\|", line)
        if line.startswith("|"):
            assert len(cells) in (3, 4, 5, 6, 7), line
        assert not re.search(r"(?<!\\)<[a-z/]", line), line
        assert not re.search(r"(?<!\\)\]\(", line), line
    assert not re.search("[\x00-\x09\x0b-\x1f\u200b-\u200f\u202a-\u202e\u2066-\u2069]", text)
    page = text_of(html(record))
    if len(name) < 100 and name.isprintable():
        assert " ".join(name.split()) in page
    assert len(PdfReader(io.BytesIO(pdf(record))).pages) >= 2
    for kind, form in (("build-sheet", "md"), ("tag", "txt"), ("drawing", "svg"), ("drawing", "txt")):
        assert make(record, kind, form)


def test_hebrew_is_shown_in_html_and_its_loss_admitted_in_pdf() -> None:
    record = hostile("שלום עולם")
    assert "שלום עולם" in html(record) and 'dir="auto"' in html(record)
    page = PdfReader(io.BytesIO(pdf(record))).pages[0].extract_text()
    assert "not all letters can be shown here" in page
    assert "not all letters" not in PdfReader(io.BytesIO(pdf(SAWMILL))).pages[0].extract_text()


@pytest.mark.parametrize("cell", ["=1+1", "+cmd", "-2+3", "@SUM(A1)", "\t=1", "\r=1", "＝1", "|calc"])
def test_no_cell_starts_a_formula(cell: str) -> None:
    read = next(csv.reader(io.StringIO(csv_text(["x"], [[cell]]).split("\n", 1)[1])))
    assert read[0][0] not in "=+-@\t\r＝|" and read[0].lstrip("'").strip() == cell.strip()


@pytest.mark.parametrize(
    ("value", "shown"), [(-5.0, "-5.0"), ("-40", "-40"), ("+1.5", "+1.5"), (None, ""), ('a,"b"', 'a,"b"')]
)
def test_plain_cells_stay_as_they_are(value: object, shown: str) -> None:
    assert safe_cell(value) == shown


# -- paper -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("home", ["metric", "us"])
@pytest.mark.parametrize("record", [SAWMILL, BRICK_PRESS], ids=["straight", "elbows"])
def test_the_sheet_above_the_crimper_is_one_page_and_the_customer_signs_page_one(record: Record, home: str) -> None:
    record = changed(record, home=home)
    sheet = PdfReader(io.BytesIO(make(record, "build-sheet", "pdf", FILED)))
    assert len(sheet.pages) == 1
    pages = PdfReader(io.BytesIO(pdf(record, FILED))).pages
    assert "Accepted for the customer" in pages[0].extract_text()
    assert pages[1].extract_text().startswith("Evidence")
    long = changed(record, missing_for_build=[f"thing {n} to be measured" for n in range(8)], ready_for="quote")
    assert "Accepted for the customer" in PdfReader(io.BytesIO(pdf(long, FILED))).pages[0].extract_text()
    width = float(pages[0].mediabox.width)
    assert width == pytest.approx(612 if home == "us" else 595.28, abs=0.1)  # ISO 216 A4; US Letter 8.5 in


def test_the_same_record_gives_the_same_pdf() -> None:
    assert pdf(SAWMILL, FILED) == pdf(SAWMILL, FILED)


@pytest.mark.parametrize(
    ("bar", "printed", "metric", "us"),
    [
        (275.0, 4000.0, "275 bar (4,000 psi)", "4,000 psi (275 bar)"),  # 3988.5 psi by conversion
        (172.0, 2500.0, "172 bar (2,500 psi)", "2,500 psi (172 bar)"),
        (225.0, 3250.0, "225 bar (3,250 psi)", "3,250 psi (225 bar)"),  # 3263 psi by conversion
        (250.0, None, "250 bar (3,620 psi)", "3,620 psi (250 bar)"),  # 3625.9 psi
        (206.8, None, "206.8 bar (3,000 psi)", "3,000 psi (206.8 bar)"),
        (171.6794565, None, "171.6 bar (2,490 psi)", "2,490 psi (171.6 bar)"),  # 2490 psi, as somebody stated it
        (2.4, 35.0, "2.4 bar (35 psi)", "35 psi (2.4 bar)"),
        (2.4, None, "2.4 bar (34 psi)", "34 psi (2.4 bar)"),
    ],
)
def test_a_rating_is_what_its_row_prints_and_never_more(
    bar: float, printed: float | None, metric: str, us: str
) -> None:
    assert (rating(bar, "metric", printed), rating(bar, "us", printed)) == (metric, us)


def test_no_row_of_the_tables_is_worded_higher_than_it_prints(on: Bench) -> None:
    rows = [
        (r.pressure, r.psi, r.psi_stated) for f in on.connections.families.values() for s in f.sizes for r in s.ratings
    ]
    rows += [(c.size.wp_select, c.size.wp_psi, c.size.wp_psi_stated) for c in on.candidates]
    for pascal, psi, stated in rows:
        bar = pascal / 1e5
        found = re.fullmatch(r"([\d.]+) bar \(([\d,]+) psi\)", rating(tidy(bar), "metric", psi if stated else None))
        assert found and float(found[1]) <= bar + 1e-6
        shown = float(found[2].replace(",", ""))
        assert shown == psi if stated else shown <= bar * 14.5037738 + 1  # NIST SP 811; 206.8 bar is 3000 psi


def limited(other_bar: float, other_psi: float | None) -> Record:
    """The weaker end prints 27.5 MPa and 4000 psi."""
    part = {"what": "x", "source": "y"}
    return changed(
        assembly={
            "rating": {"value": 275.0, "unit": "bar"},
            "limited_by": "end_a",
            "proof_pressure": None,
            "parts": [
                {**part, "part": "end_a", "rating": {"value": 275.0, "unit": "bar"}, "psi": 4000.0},
                {**part, "part": "hose", "rating": {"value": other_bar, "unit": "bar"}, "psi": other_psi},
            ],
        }
    )


@pytest.mark.parametrize(
    ("other", "psi", "wanted"),
    [(330.0, None, "4,000 psi"), (276.0, 4000.0, "4,000 psi"), (275.0, None, "3,980 psi"), (275.5, None, "3,980 psi")],
)
def test_an_assembly_carries_what_the_limiting_row_prints_and_no_more_than_another_part(
    other: float, psi: float | None, wanted: str
) -> None:
    record = limited(other, psi)
    assert f"275 bar ({wanted})" in limit_words(record)
    assert f"275 bar ({wanted})" in make(record, "drawing", "txt").decode()
    assert f"275 bar ({wanted.replace(',', '')})" in tag_text(record)


@pytest.mark.parametrize(
    ("facts", "seals", "wanted"),
    [
        ({}, (), "both ends: to be confirmed"),
        ({"end_a_seal": fact_data("NBR")}, (), "end A: NBR; end B: to be confirmed"),
        ({"end_a_seal": fact_data(None, origin="unknown")}, (), "both ends: to be confirmed"),
        ({"end_a_seal": fact_data("NBR"), "end_b_seal": fact_data("NBR")}, (), "both ends: NBR"),
        (
            {"end_a_seal": fact_data("FKM", origin="assumed"), "end_b_seal": fact_data("FKM", hedged=True)},
            (),
            "both ends: FKM, to be confirmed",
        ),
        (
            {"end_b_seal": fact_data("NBR")},
            ("no soft seal: two metal cones", ""),
            "end A: no soft seal: two metal cones; end B: NBR",
        ),
    ],
)
def test_the_build_sheet_names_the_seals_or_has_them_confirmed(
    facts: dict[str, object], seals: tuple[str, ...], wanted: str
) -> None:
    record = changed(facts=facts, build={**SAWMILL.build.model_dump(mode="json"), "seals": seals})
    assert f"| **Seals** | {wanted} |" in make(record, "build-sheet").decode()


def test_us_users_read_inches_and_psi_first() -> None:
    text = markdown(changed(home="us"))
    assert "57 1/16 in (1450 mm)" in text and "3,000 psi (206.8 bar)" in text


def test_pictures_are_in_the_readers_units_and_no_rating_in_them_is_above_its_print() -> None:
    """205 bar = 2973 psi, to the ten 2970 (1 psi is 6894.757 Pa); 65 °C = 149 °F; 5.05 m/s = 16.6 ft/s."""
    metric, inch = (" ".join(picture.says for picture in gauges(changed(home=home))) for home in ("metric", "us"))
    assert "205 bar" in metric and "°C" in metric and "psi" not in metric and "°F" not in metric
    assert "highest spike 2,973 psi" in inch and "149 °F" in inch and "16.6 ft/s" in inch
    assert not any(unit in inch for unit in (" bar", "°C", "m/s"))
    assembly = SAWMILL.model_dump(mode="json")["assembly"]
    assembly["parts"] = [{**part, "psi": 2950.0} for part in assembly["parts"]]
    (pressures, *_) = gauges(changed(home="us", assembly=assembly))
    assert pressures.says.count("carries 2,950 psi") == len(assembly["parts"])


def test_every_kind_in_every_form_and_a_sentence_for_others() -> None:
    for kind, forms in FORMS.items():
        for form in forms:
            assert make(TESTED, kind, form, FILED)
    with pytest.raises(DocumentError, match="is not a document"):
        make(SAWMILL, "novel")
    with pytest.raises(DocumentError, match="made as txt"):
        make(SAWMILL, "tag", "pdf")


def test_json_reads_back_equal_and_the_schema_names_every_field() -> None:
    assert read_record(record_json(SAWMILL)) == SAWMILL
    schema = record_schema()
    assert set(schema["properties"]) == set(SAWMILL.model_dump())
    assert schema["additionalProperties"] is False
    assert {"outcome", "facts", "candidates"} <= set(schema["required"])


if __name__ == "__main__":
    for golden, write in GOLDENS.items():
        (GOLDEN / golden).write_bytes(write().encode("utf-8"))
        sys.stdout.write(f"{golden}\n")
