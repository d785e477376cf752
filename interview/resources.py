"""Where are the shipped files? The only module that knows file locations of `flows/` and `scenarios/`.

An installed wheel carries both inside the package; a checkout (or editable install) has them beside it.
The checkout is looked at first, so that an edited flow is seen at once even where an old copy lies in site-packages.
A shop's own copy of the flows goes before both: HOSEWRIGHT_FLOWS names it, and nobody edits inside site-packages.
"""

from __future__ import annotations

import os
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent
FLOWS = "HOSEWRIGHT_FLOWS"
SHELF = "HOSEWRIGHT_SHELF"


def shipped(kind: str) -> Path:
    """The folder of `flows` or `scenarios`; the shop's own flows where it has some.

    Raises FileNotFoundError where the installation is broken.
    """
    if kind == "flows" and (own := own_flows()) is not None:
        return own
    checkout = PACKAGE.parent / kind
    if (PACKAGE.parent / "pyproject.toml").is_file() and checkout.is_dir():
        return checkout
    installed = PACKAGE / "_data" / kind
    if installed.is_dir():
        return installed
    raise FileNotFoundError(f"the installation lacks its {kind} folder (looked in {installed} and {checkout})")


def own_flows() -> Path | None:
    """The shop's own flows folder, as HOSEWRIGHT_FLOWS says; None where the shipped ones are used."""
    name = os.environ.get(FLOWS, "").strip()
    return Path(name).expanduser() if name else None


def own_shelf() -> Path | None:
    """The shop's shelf file, as HOSEWRIGHT_SHELF says; None where it keeps none."""
    name = os.environ.get(SHELF, "").strip()
    return Path(name).expanduser() if name else None
