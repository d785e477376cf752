"""What can be run? The commands, with every heavy import deferred until its command needs it.

Exit status: 0 done; 1 it ran, and an expectation or a row was not met; 2 the input could not be used (one line on
stderr).
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import NoReturn

from interview import __version__

DONE, NOT_MET, UNUSABLE = 0, 1, 2


class Unusable(Exception):
    """The input could not be used: one line for stderr."""


class Parser(argparse.ArgumentParser):
    """One line on stderr and exit 2, as everywhere."""

    def error(self, message: str) -> NoReturn:
        raise Unusable(f"{self.prog}: {message}; see {self.prog} --help")


def parser() -> argparse.ArgumentParser:
    top = Parser(
        prog="hosewright",
        description="A guided interview at the hydraulics counter: from a burst hose to a justified "
        "specification. Without a command it opens the interview.",
    )
    top.add_argument("--version", action="version", version=f"hosewright {__version__}")
    top.add_argument("--plain", action="store_true", help="line by line on stdin and stdout")
    top.add_argument("--job", default="failed_hose", help="kind of job to start with (default: failed_hose)")
    top.add_argument(
        "--units", choices=("us", "metric"), default=None, help="units to start with; they follow what is typed"
    )
    top.add_argument("--fresh", action="store_true", help="do not offer to go on with an unfinished interview")
    top.add_argument("--store", metavar="URL", default=None, help="where records are kept")
    top.add_argument("--flows", metavar="FOLDER", default=None, help="the shop's own copy of the flows folder")
    top.add_argument("--shelf", metavar="FILE.csv", default=None, help="the hoses on the shop's shelf")
    # The same options behind a command; without them there, what stood before the command holds.
    anywhere = Parser(add_help=False)
    anywhere.add_argument("--store", metavar="URL", default=argparse.SUPPRESS, help=argparse.SUPPRESS)
    anywhere.add_argument("--flows", metavar="FOLDER", default=argparse.SUPPRESS, help=argparse.SUPPRESS)
    anywhere.add_argument("--shelf", metavar="FILE.csv", default=argparse.SUPPRESS, help=argparse.SUPPRESS)
    commands = top.add_subparsers(dest="command", metavar="COMMAND", parser_class=Parser)

    hear = commands.add_parser("hear", help="what facts one sentence holds", parents=[anywhere])
    hear.add_argument("text", nargs="?", help="the sentence; without it, one line of stdin each")
    hear.add_argument("--asked", metavar="FACT", help="the question it answers")
    hear.add_argument("--json", action="store_true", help="(the only form there is)")

    replay = commands.add_parser("replay", help="run scenario files without a screen", parents=[anywhere])
    replay.add_argument("files", nargs="+", metavar="FILE")
    replay.add_argument("--json", action="store_true", help="one JSON object a line, a file each, in order")
    replay.add_argument("--show", action="store_true", help="play it in the terminal app")
    replay.add_argument("--against", metavar="SAVED", help="compare outcomes with an earlier --json run")

    identify = commands.add_parser(
        "identify", help="which connection is it, from readings in mm and degrees", parents=[anywhere]
    )
    identify.add_argument("--gender", choices=("male", "female"))
    identify.add_argument("--taper", choices=("yes", "no"))
    for name in (
        "diameter",
        "pitch",
        "tpi",
        "seat-angle",
        "head",
        "bolt-long",
        "bolt-short",
        "head-thickness",
        "recess",
        "flank",
    ):
        identify.add_argument(f"--{name}", type=float, metavar="N")
    identify.add_argument(
        "--seal",
        choices=("face", "base", "shoulder", "nose", "bore", "cone", "bottom", "thread", "none"),
        help="where it seals",
    )
    identify.add_argument("--cone", choices=("convex", "concave"), help="the cone of the half in hand")
    identify.add_argument("--clamped", choices=("yes", "no"), help="a flange head held by screws")
    identify.add_argument("--pitch-sure", choices=("yes", "no"), help="the pitch was counted over ten threads")
    identify.add_argument("--json", action="store_true")

    flows = commands.add_parser("flows", help="check, draw or measure the question flows", parents=[anywhere])
    flows.add_argument("--lint", action="store_true")
    flows.add_argument("--diagram", action="store_true")
    flows.add_argument("--coverage", action="store_true")
    flows.add_argument("--folder", metavar="DIR", help="look at another flows folder")

    reference = commands.add_parser("reference", help="tables, rows, values and what they rest on", parents=[anywhere])
    reference.add_argument("table", nargs="?")
    reference.add_argument("row", nargs="?")
    reference.add_argument("--disagreements", action="store_true")
    reference.add_argument("--json", action="store_true")

    serve = commands.add_parser("serve", help="the app in a browser", parents=[anywhere])
    serve.add_argument("--host", default="localhost", help="who may reach it (default: this machine alone)")
    serve.add_argument("--port", type=int, default=8000)

    train = commands.add_parser(
        "train", help="role-play: the tool is the customer, the trainee asks and proposes", parents=[anywhere]
    )
    train.add_argument("scenario", nargs="?", help="its name, or a scenario file (default: the first of the level)")
    train.add_argument("--level", choices=("starter", "regular", "hard"), default="starter")
    train.add_argument("--list", action="store_true", help="the scenarios there are, by level")

    check = commands.add_parser("check", help="a whole register of hoses, a row each", parents=[anywhere])
    check.add_argument("register", metavar="REGISTER.csv")
    check.add_argument("--out", metavar="OUT.csv", help="where the answer goes (default: the screen)")

    shelf = commands.add_parser("shelf", help="what a shelf file holds, and what each item bears", parents=[anywhere])
    shelf.add_argument("file", nargs="?", metavar="FILE.csv", help="(default: the shelf in use)")

    records = commands.add_parser(
        "records", help="list, find, show, revise, compare, export stored records", parents=[anywhere]
    )
    records.add_argument("action", nargs="?", default="list")
    records.add_argument("words", nargs="*")
    for name in ("customer", "machine", "tag", "out"):
        records.add_argument(f"--{name}")
    records.add_argument("--json", action="store_true")
    return top


def main(argv: Sequence[str] | None = None) -> int:
    """The command line. Never a traceback."""
    try:
        args = parser().parse_args(argv)
        return _run(args)
    except Unusable as error:
        print(error, file=sys.stderr)
        return UNUSABLE
    except (ValueError, OSError) as error:
        if isinstance(error, BrokenPipeError):
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return DONE
        print(" ".join(str(error).split()) or type(error).__name__, file=sys.stderr)
        return UNUSABLE
    except KeyboardInterrupt:
        print("\nLeft. Everything typed is kept; the next start offers to go on.", file=sys.stderr)
        return DONE


def _run(args: argparse.Namespace) -> int:
    from interview import commands, own_files

    own_files.use_flows(args)
    own_files.use_shelf(args)
    if args.command is not None:
        return int(getattr(commands, args.command)(args))
    return commands.interview(args)


def print_json(value: object) -> None:
    sys.stdout.write(json.dumps(value, ensure_ascii=False, separators=(",", ":")) + "\n")


def existing(name: str) -> Path:
    path = Path(name)
    if not path.is_file():
        raise Unusable(f"{name}: no such file")
    return path


if __name__ == "__main__":
    sys.exit(main())
