"""Which form does a tester fill in after a test?

Only where a test was entered as done; and even then the form says what was to be done and with what, and leaves every
reading and the result to the tester's hand. It also says what was not tested.
"""

from __future__ import annotations

from interview.record.documents import words as w
from interview.record.documents.files import DocumentError
from interview.record.documents.page import NOT_FILED, Filed, Heading, Page, Pairs, Points, Sheet, SignLines, Words
from interview.record.documents.phrases import end_words, hose_words, length_words, limit_words, page_of
from interview.record.model import Record, TestDone

BLANK = "." * 30
TITLE = "Test certificate"


def certificate(record: Record, filed: Filed = NOT_FILED) -> Page:
    """The form. Raises DocumentError where no test was entered, or the record may not be built from."""
    if record.ready_for != "build":
        raise DocumentError(
            "There is no certificate for a record that is not for building: nothing can have been tested."
        )
    if record.test is None:
        raise DocumentError(
            "No test has been entered as done; enter when and by whom it was done, then print the form."
        )
    sheet = Sheet()
    sheet.add(
        Heading(TITLE, 1),
        Words("For the tester to complete: it certifies nothing without readings, result and signature."),
        Pairs(
            (
                ("Certificate no.", BLANK),
                ("Record", str(filed)),
                ("Customer, order", w.shown(record, "customer") or BLANK),
                ("Machine, line", ", ".join(x for n in ("machine", "line_tag") if (x := w.shown(record, n))) or BLANK),
                ("Assembly no. or mark", BLANK),
            )
        ),
        Heading("What was tested"),
        Pairs(
            (
                ("Hose", hose_words(record)),
                ("End A", end_words(record, "A")),
                ("End B", end_words(record, "B")),
                ("Length", length_words(record)),
                ("Maximum working pressure", limit_words(record)),
                ("Batches of hose and ends", BLANK),
            )
        ),
        Heading("The test"),
        Pairs(tuple(_test(record, record.test))),
        Heading("Found"),
        Pairs(
            (
                ("Pressure reached, held for", BLANK),
                ("Leak, bulge, end moved", BLANK),
                ("Length before and under pressure", BLANK),
                ("Passed or failed", BLANK),
            )
        ),
        Heading("Not tested"),
        Points(
            (
                "This piece was neither pulsed nor burst: impulse life and burst rest on the makers' type tests.",
                "Cleanliness is certified only where a sampling method and a result are written here: " + BLANK,
            )
        ),
        SignLines(("Tested by, date", "Authorised by, date")),
    )
    return page_of(TITLE, sheet, record, filed)


def _test(record: Record, test: TestDone) -> list[tuple[str, str]]:
    proof = record.assembly.proof_pressure if record.assembly else None
    wanted = w.pressure(proof.value, record.home) if proof else BLANK
    return [
        ("Done on", w.clean(test.done_on) or BLANK),
        ("Tester", w.clean(test.tester) or BLANK),
        ("Standard", w.clean(test.standard) or f"{BLANK} (ISO 1402, ISO 6605 or SAE J343)"),
        ("Pieces tested", str(test.pieces) if test.pieces is not None else BLANK),
        ("Medium, its temperature", f"{w.clean(test.medium)}, {'.' * 10} °C" if test.medium else BLANK),
        ("Proof pressure by the record", wanted),
        ("Gauge no., calibrated until", f"{w.clean(test.gauge)}, {'.' * 16}" if test.gauge else BLANK),
        ("Criterion", "no leak, no bulge, no end moved; change of length within the hose standard's limits"),
    ]
