"""Who may import whom: the table of rooms, held against the imports, and a clean interpreter as the second witness."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

PACKAGE = Path(__file__).resolve().parents[1] / "interview"

FOUNDATION: dict[str, set[str]] = {  # what lies below every room, and what each of it may import
    "interview.resources": set(),
    "interview.yaml_file": set(),
    "interview.csv_file": {"interview.yaml_file"},
    "interview.catalogue": set(),
    "interview.facts": {"interview.catalogue"},
    "interview.ledger": {"interview.catalogue", "interview.facts"},
}
COMMON = {"interview", *FOUNDATION}
BELOW: dict[str, set[str]] = {
    "engineering": set(),
    "reference": set(),
    "language": set(),
    "selection": {"reference", "engineering"},
    "dialogue": {"selection", "reference", "engineering", "language"},
    "record": {"dialogue", "selection", "reference", "engineering", "language"},
    "training": {"record", "dialogue", "selection", "reference", "engineering", "language"},
    "terminal": {"training", "record", "dialogue", "selection", "reference", "engineering", "language"},
}
OUTSIDE_ONLY = {
    "pint": {"interview.language.quantity"},
    "transitions": {"interview.dialogue.machine"},
    "sqlalchemy": {"interview.record.store"},
    "fpdf": {"interview.record.documents"},
    "textual": {"interview.terminal"},
}


def modules() -> list[Path]:
    return sorted(p for p in PACKAGE.rglob("*.py") if "_data" not in p.parts)


def name_of(path: Path) -> str:
    parts = path.relative_to(PACKAGE.parent).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def imports_of(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
            found |= {
                f"{node.module}.{alias.name}"
                for alias in node.names
                if (PACKAGE.parent / Path(*node.module.split("."))).is_dir()
            }
    return found


@pytest.mark.parametrize("path", modules(), ids=name_of)
def test_a_room_imports_only_what_lies_below_it(path: Path) -> None:
    name = name_of(path)
    room = name.split(".")[1] if name.count(".") >= 1 and name.split(".")[1] in BELOW else None
    for imported in imports_of(path):
        if not imported.startswith("interview"):
            continue
        other = imported.split(".")[1] if "." in imported else None
        if room is None:
            if name in FOUNDATION:
                assert imported in {"interview", *FOUNDATION[name]}, f"{name} lies below every room, imports {imported}"
            continue
        if other is None or other in (room, "__version__") or imported in COMMON:
            continue
        assert other in BELOW[room], f"{name} imports {imported}; {room} may import {sorted(BELOW[room]) or 'no room'}"


@pytest.mark.parametrize("path", modules(), ids=name_of)
def test_an_outside_library_has_one_door(path: Path) -> None:
    name = name_of(path)
    for library, doors in OUTSIDE_ONLY.items():
        if any(i == library or i.startswith(library + ".") for i in imports_of(path)):
            assert any(name == d or name.startswith(d + ".") for d in doors), f"{name} imports {library}"


def test_engineering_needs_the_standard_library_only() -> None:
    for path in modules():
        if name_of(path).startswith("interview.engineering"):
            for imported in imports_of(path):
                root = imported.split(".")[0]
                assert root == "interview" or root in sys.stdlib_module_names, f"{name_of(path)} imports {imported}"


def test_the_engine_loads_neither_textual_nor_pint() -> None:
    code = (
        "import sys, interview.dialogue.session as s; s.Session().open(); "
        "print(sorted(m for m in ('textual', 'pint', 'fpdf', 'sqlalchemy') if m in sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True)
    assert done.stdout.strip() == "[]"


@pytest.mark.parametrize("path", modules(), ids=name_of)
def test_every_module_says_which_question_it_answers(path: Path) -> None:
    assert ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))), f"{name_of(path)} has no docstring"


def test_nothing_else_stands_at_the_top() -> None:
    allowed = {"README.md", "DEVELOPERS.md", "pyproject.toml", "interview", "flows", "tests", "scenarios"}
    tracked = subprocess.run(["git", "ls-files"], cwd=PACKAGE.parent, capture_output=True, text=True)
    if tracked.returncode != 0:
        pytest.skip("not a git checkout")
    top = {line.split("/")[0] for line in tracked.stdout.splitlines()}
    assert {name for name in top if not name.startswith(".")} <= allowed
