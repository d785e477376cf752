"""Where are the shipped files? The only module that knows file locations of `flows/` and `scenarios/`.

An installed wheel carries both inside the package; a checkout (or editable install) has them beside it.
The checkout is looked at first, so that an edited flow is seen at once even where an old copy lies in site-packages.
"""

from __future__ import annotations

from pathlib import Path

PACKAGE = Path(__file__).resolve().parent


def shipped(kind: str) -> Path:
    """The folder of `flows` or `scenarios`. Raises FileNotFoundError where the installation is broken."""
    checkout = PACKAGE.parent / kind
    if (PACKAGE.parent / "pyproject.toml").is_file() and checkout.is_dir():
        return checkout
    installed = PACKAGE / "_data" / kind
    if installed.is_dir():
        return installed
    raise FileNotFoundError(f"the installation lacks its {kind} folder (looked in {installed} and {checkout})")
