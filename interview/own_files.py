"""Which of a shop's own files are used? Its flows and its shelf, from an option or a setting, checked first."""

from __future__ import annotations

import argparse
import os
from pathlib import Path

from interview.cli import Unusable

FLOWS_UNUSED = frozenset(("flows", "reference", "identify"))  # `flows` tells the faults itself


def use_flows(args: argparse.Namespace) -> None:
    """The shop's own flows, from --flows or HOSEWRIGHT_FLOWS, for this program and those it starts.

    Raises Unusable where they are no flows folder, or with the first of their faults: nobody is interviewed on rules
    that were never checked.
    """
    from interview.resources import FLOWS, own_flows

    if args.flows:
        os.environ[FLOWS] = str(Path(args.flows).expanduser().resolve())
    folder = own_flows()
    if folder is None:
        return
    named = f"--flows {args.flows}" if args.flows else f"{FLOWS}={folder}"
    if not (folder / "topics").is_dir():
        raise Unusable(f"{named}: no flows there; it takes a folder like the shipped flows, with topics in it")
    if args.command in FLOWS_UNUSED:
        return
    from interview.dialogue.lint import lint

    if faults := lint():
        more = f" ({len(faults) - 1} more: hosewright flows --lint)" if len(faults) > 1 else ""
        raise Unusable(f"{named}: {faults[0]}{more}")


def use_shelf(args: argparse.Namespace) -> None:
    """The shop's shelf, from --shelf or HOSEWRIGHT_SHELF, for this program and those it starts.

    Raises Unusable where there is no such file, FileError with the first fault: nobody is offered a hose on a shelf
    that cannot be read.
    """
    from interview.resources import SHELF, own_shelf

    if args.shelf:
        os.environ[SHELF] = str(Path(args.shelf).expanduser().resolve())
    path = own_shelf()
    if path is not None and not path.is_file():
        named = f"--shelf {args.shelf}" if args.shelf else f"{SHELF}={path}"
        raise Unusable(f"{named}: no such file; it takes the shop's shelf as CSV, see hosewright shelf --help")
