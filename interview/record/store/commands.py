"""What can be done with stored records from the command line? See ACTIONS."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable
from dataclasses import asdict
from pathlib import Path

from interview.record.digest import record_schema
from interview.record.documents.files import write_document
from interview.record.documents.make import make
from interview.record.store import Found, Store, StoreError, open_store
from interview.record.store.listing import listing_csv
from interview.record.store.store import SHOWN

ACTIONS = (
    "list, find WORD, show NUMBER, revise NUMBER, repeat NUMBER, compare NUMBER A B, recheck, export, import FILE, "
    "schema"
)
INTERVIEWED = ("revise", "repeat")  # these open the interview


def run(args: argparse.Namespace) -> int:
    """0 done; 1 recheck found verdicts that changed. Raises StoreError with a sentence."""
    if args.action == "schema":
        print(json.dumps(record_schema(), indent=2))
        return 0
    actions: dict[str, Callable[[Store, argparse.Namespace], int]] = {
        "list": _list,
        "find": _list,
        "show": _show,
        "compare": _compare,
        "recheck": _recheck,
        "export": _export,
        "import": _import,
    }
    if args.action not in actions:
        raise StoreError(f"records {args.action}: no such action; there are {ACTIONS}")
    with open_store(args.store) as store:
        return actions[args.action](store, args)


def _word(args: argparse.Namespace, place: int, what: str) -> str:
    if len(args.words) <= place:
        raise StoreError(f"records {args.action}: {what} is missing; {ACTIONS}")
    return str(args.words[place])


def _number(args: argparse.Namespace) -> str:
    return _word(args, 0, "the record's number").upper()


def kept_number(args: argparse.Namespace) -> str:
    """The number of a record that is in the store. Raises StoreError with a sentence."""
    number = _number(args)
    with open_store(args.store) as store:
        store.load(number)
    return number


def _revision(args: argparse.Namespace, place: int) -> int | None:
    if len(args.words) <= place:
        return None
    word = _word(args, place, "the revision")
    if not word.isdecimal() or int(word) < 1:
        raise StoreError(f"records {args.action}: {word} is no revision; a revision is a whole number, for example 2")
    return int(word)


def line_of(row: Found) -> str:
    who = ", ".join(x for x in (row.customer, row.machine, row.tag) if x) or "nobody named"
    return f"{row.number} r{row.revision}  {row.day}  {who}: {row.headline} [{row.outcome}, ready for {row.ready_for}]"


def listed(store: Store, word: str) -> list[str]:
    """Records found by number, customer, machine or tag, a line each; all where no word is given."""
    return [line_of(row) for row in store.find(text=word)]


def _list(store: Store, args: argparse.Namespace) -> int:
    rows = store.find(
        text=" ".join(args.words),
        customer=args.customer or "",
        machine=args.machine or "",
        tag=args.tag or "",
        limit=sys.maxsize if args.out else SHOWN,
    )
    if args.out:
        print(write_document(Path(args.out), listing_csv(rows)))
    elif args.json:
        for row in rows:
            print(json.dumps(asdict(row), ensure_ascii=False))
    else:
        print("\n".join(map(line_of, rows)) or f"No records in {store.place}.")
        if len(rows) == SHOWN:
            print(
                f"The newest {SHOWN} of {store.count()}: a word, --customer, --machine or --tag narrows it; "
                "--out FILE.csv writes all."
            )
    return 0


def _show(store: Store, args: argparse.Namespace) -> int:
    stored = store.load(_number(args), _revision(args, 1))
    if args.out:
        path = Path(args.out)
        form = path.suffix.lstrip(".").lower() or "md"
        print(write_document(path, make(stored.record, form=form, filed=stored.filed)))
    else:
        sys.stdout.write(make(stored.record, form="json" if args.json else "md", filed=stored.filed).decode())
    return 0


def _compare(store: Store, args: argparse.Namespace) -> int:
    number = _number(args)
    newest = store.history(number)[-1].revision
    before, after = _revision(args, 1) or max(1, newest - 1), _revision(args, 2) or newest
    found = store.compare(number, before, after)
    for difference in found:
        print(f"{difference.label}: {difference.before or '(not there)'} -> {difference.after or '(not there)'}")
    if not found:
        print("No difference.")
    return 0


def _recheck(store: Store, args: argparse.Namespace) -> int:
    """Judges every stored record by today's tables and rules, and lists those that would be decided otherwise."""
    from interview.record.recheck import decided_otherwise  # the engine: the other actions do without it

    changed = 0
    for stored in store.each():
        why = decided_otherwise(stored.record)
        if why:
            changed += 1
            print(f"{stored.found.number} r{stored.found.revision}: {'; '.join(why)}")
    print(f"{changed} of {store.count()} records would be decided otherwise today.")
    return 1 if changed else 0


def _export(store: Store, args: argparse.Namespace) -> int:
    text = store.export_json()
    if args.out:
        print(write_document(Path(args.out), text))
    else:
        sys.stdout.write(text)
    return 0


def _import(store: Store, args: argparse.Namespace) -> int:
    path = Path(_word(args, 0, "the file"))
    try:
        text = path.read_bytes()
    except OSError as error:
        raise StoreError(f"{path}: cannot be read ({error.strerror})") from error
    done = store.import_json(text)
    print(f"{done.added} added, {done.already} were there already.")
    return 0
