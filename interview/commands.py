"""What does each command do? Thin: reads its input, calls the room that knows, prints."""

from __future__ import annotations

import argparse
import gc
import json
import os
import shlex
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

from interview.cli import DONE, NOT_MET, Unusable, existing, print_json

if TYPE_CHECKING:
    from interview.dialogue.session import Session


def interview(args: argparse.Namespace, first_line: str = "") -> int:
    """The interview: the app in a terminal, line by line with --plain or where there is no terminal.

    `first_line` stands in place of the first question.
    """
    from interview.resources import shipped

    if not args.job.isidentifier() or not (shipped("flows") / f"{args.job}.yaml").is_file():
        raise Unusable(f"--job {args.job}: no such kind of job; there are failed_hose, sample, new_line and repeat")
    home = args.units or home_of_locale()
    on_a_screen = "TEXTUAL_DRIVER" in os.environ or (sys.stdin.isatty() and sys.stdout.isatty())
    if args.plain or not on_a_screen:
        from interview.dialogue.flows import load_flow
        from interview.plain import converse

        load_flow(args.job)
        session = _session(args, home, first_line)
        converse(session, session.open(), prompt=sys.stdin.isatty(), warm=_warm)
        return DONE
    from interview.dialogue.journal import journal_folder
    from interview.terminal.app import run

    # The session comes up in a thread after the first paint, so nothing of it is imported here.
    return run(
        lambda: _session(args, home, first_line),
        warm=_warm,
        page_key=None if first_line else f"{args.job}-{home}",
        fault_log=journal_folder() / "faults.log",
    )


def _session(args: argparse.Namespace, home: str, first_line: str = "") -> Session:
    """A new interview with its journal; it offers to go on with one that was left."""
    from interview.dialogue.journal import Journal, unfinished
    from interview.record.saving import CounterSession

    if args.store:  # what cannot be used is said now, not after the whole job
        from interview.record.store import open_store

        with open_store(args.store):
            pass
    earlier = None if args.fresh or first_line else unfinished()
    session = CounterSession(home=home, job=args.job, journal=Journal.start(home, args.job), earlier=earlier)
    session.store_url, session.first_line = args.store, first_line
    return session


def _warm() -> None:
    """What the first answer will need, loaded while the first question is read."""
    from interview.language.listen import listen

    listen("2500 psi")


def home_of_locale() -> str:
    """US units where the user's language setting is American; they follow what is typed anyway."""
    import os

    setting = next((os.environ[n] for n in ("LC_ALL", "LC_MEASUREMENT", "LANG") if os.environ.get(n)), "")
    return "us" if setting.startswith("en_US") else "metric"


def hear(args: argparse.Namespace) -> int:
    from interview.catalogue import CATALOGUE
    from interview.language.hear import hear_json
    from interview.language.listen import listen

    if args.asked is not None and args.asked not in CATALOGUE:
        raise Unusable(f"hear: --asked {args.asked}: not a fact; the facts are in the record of any replay --json")
    asked = (args.asked,) if args.asked else ()
    if args.text is not None:
        print_json(hear_json(listen(args.text, asked=asked)))
        return DONE
    for line in sys.stdin:
        print_json(hear_json(listen(line.rstrip("\n"), asked=asked)))
    return DONE


def replay(args: argparse.Namespace) -> int:
    from interview.dialogue.session import bench
    from interview.plain import lines_of
    from interview.record.assemble import record_of
    from interview.training.replay import play
    from interview.training.scenario import load_scenario
    from interview.training.verdict import unmet

    loaded = [load_scenario(existing(name)) for name in args.files]
    if args.show:
        from interview.terminal.replay import show_replay

        return show_replay(play(*loaded[0], bench(shelved=args.shelf is not None), show=True))
    on = bench(shelved=args.shelf is not None)  # a scenario expects the tables alone unless a shelf is named with it
    gc.freeze()  # the tables stay to the end: no collection between the scenarios need walk them
    gc.set_threshold(20_000)  # and what one scenario makes dies together
    failed = False
    results = []
    for scenario, knows in loaded:
        played = play(scenario, knows, on)
        record = record_of(played.session, candidates=args.json)
        faults = unmet(played, record)
        failed = failed or bool(faults)
        head = {"scenario": scenario.scenario, "met": not faults, "unmet": faults}
        if args.against:
            results.append({**head, **record.model_dump(mode="json", exclude={"candidates"})})
            continue
        if args.json:
            # The record is over a megabyte of JSON: it is written once, by the library that holds it.
            sys.stdout.write(json.dumps(head, ensure_ascii=False)[:-1] + "," + record.model_dump_json()[1:] + "\n")
            continue
        print(f"== {scenario.scenario}: {scenario.title}")
        for turn in played.turns:
            if turn.said:
                print(f"> {turn.said}")
            for event in turn.events:
                for line in lines_of(event):
                    print(line)
        print(f"\n{record.headline}")
        print("MET" if not faults else "NOT MET: " + "; ".join(faults))
        print()
    if args.against:
        from interview.training.against import compare

        lines, worse = compare(results, existing(args.against))
        print("\n".join(lines))
        failed = worse
    return NOT_MET if failed else DONE


def identify(args: argparse.Namespace) -> int:
    from interview.reference.connections import load_connections
    from interview.selection.identify import identify_json, readings_from_mm

    names = (
        "gender",
        "diameter",
        "pitch",
        "tpi",
        "taper",
        "seat_angle",
        "head",
        "bolt_long",
        "bolt_short",
        "head_thickness",
        "recess",
        "flank",
        "cone",
        "clamped",
        "pitch_sure",
    )
    readings = readings_from_mm(**{n: getattr(args, n) for n in names}, seal_position=args.seal)
    found: dict[str, Any] = identify_json(readings, load_connections())
    if args.json:
        print_json(found)
        return DONE
    candidates = found["candidates"]
    if not candidates:
        print(
            "Nothing in the tables has these readings. Measure again: diameter, pitch, seat angle; three readings or "
            "no answer."
        )
    for row in candidates:
        print(f"{row['family']} {row['size']} {row['gender']}: {row['why']}")
    if found["separate_by"]:
        print(f"To tell them apart: {found['separate_by']}")
    for warning in found["warnings"]:
        print(f"Warning: {warning}")
    return DONE


def flows(args: argparse.Namespace) -> int:
    from interview.dialogue.lint import lint
    from interview.resources import shipped

    folder = Path(args.folder) if args.folder else None
    if folder is not None and not folder.is_dir():
        raise Unusable(f"flows: {folder}: no such folder")
    if args.diagram:
        from interview.catalogue import TOPICS
        from interview.dialogue.machine import diagram

        print(diagram(TOPICS))
        return DONE
    if args.coverage:
        from interview.training.coverage import coverage

        print("\n".join(coverage()))
        return DONE
    faults = lint(folder)
    for fault in faults:
        print(fault, file=sys.stderr)
    if not faults:
        print(f"The flow files in {folder or shipped('flows')} are in order.")
    return 2 if faults else DONE


def reference(args: argparse.Namespace) -> int:
    from interview.reference import listing

    data: object
    if args.disagreements:
        data, lines = listing.disagreements_json(), listing.disagreements()
    elif args.table is None:
        data, lines = listing.tables_json(), listing.tables()
    elif args.row is None:
        data, lines = listing.rows_json(args.table), listing.rows(args.table)
    else:
        data, lines = listing.row_json(args.table, args.row), listing.row(args.table, args.row)
    if args.json:
        print_json(data)
    else:
        print("\n".join(lines))
    return DONE


def serve(args: argparse.Namespace) -> int:
    """The app in a browser: a program of its own for each page. Whoever reaches the port can type and read records."""
    try:
        from textual_serve.server import Server
    except ImportError as error:
        raise Unusable("serve: the package textual-serve is not there; pip install 'hosewright[serve]'") from error
    if not 0 < args.port < 65536:
        raise Unusable(f"serve: --port {args.port}: a port is a number from 1 to 65535, for example 8000")
    command = [sys.executable, "-m", "interview", "--job", args.job]
    command += ["--units", args.units] if args.units else []
    command += ["--store", args.store] if args.store else []
    print(f"http://{args.host}:{args.port} (Ctrl-C ends it). Whoever reaches it can type, and read stored records.")
    server = Server(shlex.join(command), host=args.host, port=args.port, title="hosewright")
    server.console.quiet = True  # what is served where is said above
    server.serve()
    return DONE


def train(args: argparse.Namespace) -> int:
    """0 where what was proposed stands; 1 where not, or where the trainee left."""
    from interview.dialogue.session import bench
    from interview.plain import wrapped
    from interview.resources import shipped
    from interview.training.roleplay import RolePlay
    from interview.training.scenario import load_scenario

    files = {path.stem: path for path in sorted(shipped("scenarios").glob("*.yaml"))}
    if args.scenario is not None:
        scenario, knows = load_scenario(files.get(args.scenario) or existing(args.scenario))
    else:
        every = [load_scenario(path) for path in files.values()]
        of_level = sorted((s for s in every if s[0].level == args.level), key=lambda s: s[0].order or 1e9)
        if args.list:
            for found, _ in sorted(every, key=lambda s: (("starter", "regular", "hard").index(s[0].level), s[0].order)):
                print(f"{found.level:8} {found.scenario:40} {found.title}")
            return DONE
        scenario, knows = of_level[0]
    play = RolePlay(scenario, knows, bench(shelved=args.shelf is not None))
    prompt = "> " if sys.stdin.isatty() else ""
    for line in play.open():
        print(wrapped(line))
    while play.score is None:
        print(prompt, end="", flush=True)
        typed = sys.stdin.readline()
        if not typed or typed.strip().lower() in ("quit", "exit"):
            print("Left without a proposal.")
            return NOT_MET
        if typed.strip():
            for line in play.say(typed):
                print(wrapped(line, "    ", "  "))
    return DONE if play.score.right else NOT_MET


def shelf(args: argparse.Namespace) -> int:
    from interview.dialogue.session import bench
    from interview.dialogue.shelf_file import EXAMPLE, load_shelf
    from interview.dialogue.shelf_view import shelf_lines
    from interview.resources import own_shelf
    from interview.selection.checks.history import today
    from interview.selection.judge import Bench

    path = existing(args.file) if args.file else own_shelf()
    if path is None:
        raise Unusable(
            f"shelf: which file? A shelf is a CSV file with the columns {EXAMPLE}; the first three are needed"
        )
    on = bench(shelved=False)
    items = load_shelf(path, on.rules, today())
    print("\n".join(shelf_lines(Bench.of(on.tables, on.connections, on.rules, items), home_of_locale())))
    return DONE


def check(args: argparse.Namespace) -> int:
    from interview.dialogue.session import bench
    from interview.record.documents.files import write_document
    from interview.record.register import check_register, read_register, register_csv, tally

    register = read_register(existing(args.register))
    if args.out and Path(args.out).exists():
        raise Unusable(f"{args.out}: exists already and was left as it is; choose another name")
    on = bench(shelved=args.shelf is not None)  # a scenario expects the tables alone unless a shelf is named with it
    gc.freeze()
    checked = list(check_register(register, on, args.units or home_of_locale()))
    text = register_csv(register, checked)
    if args.out:
        print(f"Written: {write_document(Path(args.out), text)}")
    else:
        sys.stdout.write(text)
    if register.carried:
        print(f"Carried along unread: {', '.join(register.carried)}.", file=sys.stderr)
    print(tally(checked), file=sys.stderr)
    return DONE if all(found.stands == "holds" for found in checked) else NOT_MET


def records(args: argparse.Namespace) -> int:
    from interview.record.store.commands import INTERVIEWED, kept_number, run

    if args.action in INTERVIEWED:  # a record that is there is gone on with in the interview
        return interview(args, f"{args.action} {kept_number(args)}")
    return run(args)
