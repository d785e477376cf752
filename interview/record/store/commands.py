"""What can be done with stored records from the command line? See ACTIONS."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from pathlib import Path

from interview.record.store import Found, Store, StoreError, open_store

ACTIONS = "list, find WORD, show NUMBER, compare NUMBER A B, recheck, export, import FILE, schema"


def run(args: argparse.Namespace) -> int:
    """0 done; 1 recheck found verdicts that changed. Raises StoreError with a sentence."""
    if args.action == "schema":
        import json

        from interview.record.digest import record_schema

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


def line_of(row: Found) -> str:
    who = ", ".join(x for x in (row.customer, row.machine, row.tag) if x) or "nobody named"
    return f"{row.number} r{row.revision}  {row.day}  {who}: {row.headline} [{row.outcome}, ready for {row.ready_for}]"


def listed(store: Store, word: str) -> list[str]:
    """Records found by number, customer, machine or tag, a line each; all where no word is given."""
    searches = [{"number": word}, {"customer": word}, {"machine": word}, {"tag": word}] if word else [{}]
    found = {(r.number, r.revision): r for search in searches for r in store.find(**search)}  # type: ignore[arg-type]
    return [line_of(r) for r in found.values()]


def _list(store: Store, args: argparse.Namespace) -> int:
    word = " ".join(args.words)
    narrowed = {k: str(getattr(args, k) or "") for k in ("customer", "machine", "tag")}
    searches = [{k: word} for k in ("number", "customer", "machine", "tag")] if word else [{}]
    found: dict[tuple[str, int], Found] = {}
    for search in searches:
        names = {**narrowed, **search}
        for row in store.find(
            number=names.get("number", ""), customer=names["customer"], machine=names["machine"], tag=names["tag"]
        ):
            found[row.number, row.revision] = row
    if args.json:
        import json
        from dataclasses import asdict

        for row in found.values():
            print(json.dumps(asdict(row), ensure_ascii=False))
        return 0
    print("\n".join(line_of(r) for r in found.values()) or f"No records in {store.place}.")
    return 0


def _show(store: Store, args: argparse.Namespace) -> int:
    from interview.record.documents.files import write_document
    from interview.record.documents.make import make

    stored = store.load(
        _word(args, 0, "the record's number").upper(), int(args.words[1]) if len(args.words) > 1 else None
    )
    if args.out:
        path = Path(args.out)
        print(
            write_document(path, make(stored.record, form=path.suffix.lstrip(".").lower() or "md", filed=stored.filed))
        )
        return 0
    sys.stdout.write(make(stored.record, form="json" if args.json else "md", filed=stored.filed).decode())
    return 0


def _compare(store: Store, args: argparse.Namespace) -> int:
    number = _word(args, 0, "the record's number").upper()
    rows = store.history(number)
    before = int(args.words[1]) if len(args.words) > 1 else max(1, rows[-1].revision - 1)
    after = int(args.words[2]) if len(args.words) > 2 else rows[-1].revision
    found = store.compare(number, before, after)
    for difference in found:
        print(f"{difference.label}: {difference.before or '(not there)'} -> {difference.after or '(not there)'}")
    if not found:
        print("No difference.")
    return 0


def _recheck(store: Store, args: argparse.Namespace) -> int:
    """Judges every stored record by today's tables and rules, and lists those that would be decided otherwise."""
    from interview.record.recheck import decided_otherwise

    changed = 0
    for stored in store.each():
        why = decided_otherwise(stored.record)
        if why:
            changed += 1
            print(f"{stored.found.number} r{stored.found.revision}: {'; '.join(why)}")
    print(f"{changed} of {store.count()} records would be decided otherwise today.")
    return 1 if changed else 0


def _export(store: Store, args: argparse.Namespace) -> int:
    from interview.record.documents.files import write_document

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
