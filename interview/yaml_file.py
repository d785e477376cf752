"""How is one of our YAML files read? Without YAML 1.1 surprises, and with the line of every value.

Duplicate keys are errors; `yes`, `no`, `on` and `12:30` stay text; only plain decimal numbers, true, false and null are
more than text. Dates stay text.
"""

from __future__ import annotations

import difflib
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import Annotated, Any, TypeVar, get_args, get_origin

import yaml
from pydantic import BaseModel, RootModel, ValidationError

Path_ = tuple[object, ...]
_NUMBER = re.compile(r"[-+]?(?:0|[1-9]\d*)(?:\.\d+)?\Z")
M = TypeVar("M", bound=BaseModel)
LARGEST = 2_000_000  # bytes; a shop's file is a few kilobytes


class FileError(ValueError):
    """A file that will not do: name, line, what is wrong, what would be right."""


@dataclass
class YamlFile:
    """The data of a file and where each value stands."""

    name: str
    data: object
    lines: dict[Path_, int] = field(default_factory=dict)

    def line(self, path: Path_) -> int:
        """The line of a value; of the nearest thing above it where the value itself is missing."""
        while path not in self.lines and path:
            path = path[:-1]
        return self.lines.get(path, 1)

    def error(self, path: Path_, text: str) -> FileError:
        return FileError(f"{self.name}: line {self.line(path)}: {text}")


def read_yaml(path: Path) -> YamlFile:
    """Reads a file. Raises FileError with the line for anything that is not plain, unique-keyed YAML."""
    try:
        if path.stat().st_size > LARGEST:
            raise FileError(
                f"{path.name}: larger than {LARGEST // 1_000_000} MB; a file of this kind is a few kilobytes"
            )
        text = path.read_text(encoding="utf-8")
    except OSError as error:
        raise FileError(f"{path}: cannot be read ({error.strerror or error})") from error
    except UnicodeDecodeError as error:
        raise FileError(f"{path.name}: not text in UTF-8 (byte {error.start}); save it as UTF-8") from error
    return parse_yaml(text, path.name)


def parse_yaml(text: str, name: str) -> YamlFile:
    """The same for a text already read."""
    try:
        root = yaml.compose(text, Loader=yaml.CSafeLoader)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = mark.line + 1 if mark is not None else 1
        problem = getattr(error, "problem", None) or "cannot be read as YAML"
        raise FileError(
            f"{name}: line {line}: not YAML: {problem}; check indentation, quotes and colons there"
        ) from error
    except RecursionError as error:
        raise FileError(f"{name}: nested too deeply to be one of our files") from error
    file = YamlFile(name, None)
    if root is not None:
        file.data = _build(root, (), file, set())
    return file


MOST_NODES = 50_000  # aliases multiply; a shop's file has a few hundred values


def _build(node: yaml.Node, path: Path_, file: YamlFile, above: set[int]) -> object:
    file.lines[path] = node.start_mark.line + 1
    if len(file.lines) > MOST_NODES:
        raise FileError(
            f"{file.name}: line {node.start_mark.line + 1}: more values than one of our files can have; write out "
            "what the aliases stand for, once"
        )
    if id(node) in above or len(path) > 40:
        raise FileError(
            f"{file.name}: line {node.start_mark.line + 1}: an alias that contains itself; write the value out"
        )
    above = above | {id(node)}
    if isinstance(node, yaml.MappingNode):
        made: dict[str, object] = {}
        for key_node, value_node in node.value:
            line = key_node.start_mark.line + 1
            if not isinstance(key_node, yaml.ScalarNode):
                raise FileError(f"{file.name}: line {line}: a key must be a single word")
            key = key_node.value
            if key in made:
                raise FileError(f"{file.name}: line {line}: the key {key!r} stands twice; keep one of them")
            made[key] = _build(value_node, (*path, key), file, above)
            file.lines[(*path, key)] = line
        return made
    if isinstance(node, yaml.SequenceNode):
        return [_build(item, (*path, i), file, above) for i, item in enumerate(node.value)]
    return _scalar(node)


def _scalar(node: yaml.Node) -> object:
    value = str(node.value)
    if getattr(node, "style", None) in ("'", '"', "|", ">"):
        return value
    if value in ("", "~", "null"):
        return None
    if value in ("true", "false"):
        return value == "true"
    if _NUMBER.match(value):
        return float(value) if "." in value else int(value)
    return value


def validated(file: YamlFile, model: type[M]) -> M:
    """The data as a model. Raises FileError with the line of the first fault."""
    try:
        return model.model_validate(file.data)
    except ValidationError as error:
        raise _faults(file, model, error)[0] from error


def faults_of(file: YamlFile, model: type[BaseModel]) -> list[FileError]:
    """Every fault of the data against a model, each with its line; an empty list where there is none."""
    try:
        model.model_validate(file.data)
    except ValidationError as error:
        return _faults(file, model, error)
    return []


def _faults(file: YamlFile, model: type[BaseModel], error: ValidationError) -> list[FileError]:
    """In our words, in the order of the file; a key that is missing only because it is misspelt is not told twice."""
    told: list[tuple[int, FileError]] = []
    found = error.errors()
    missing = {tuple(f["loc"]) for f in found if f["type"] == "missing"}
    meant_keys: set[Path_] = set()
    for fault in found:
        if fault["type"] != "extra_forbidden":
            continue
        path = tuple(fault["loc"])
        keys = _keys_of(model, path[:-1])
        lacking = [k for k in keys if (*path[:-1], k) in missing]
        close = difflib.get_close_matches(str(path[-1]), lacking or keys, 1, 0.7)
        meant_keys |= {(*path[:-1], k) for k in close}
        would = f"{close[0]} would do" if close else f"the keys here are {', '.join(keys)}" if keys else "take it out"
        told.append((file.line(path), file.error(path, f"{_dotted(path)}: no such key here; {would}")))
    for fault in found:
        path = tuple(fault["loc"])
        if fault["type"] == "extra_forbidden" or path in meant_keys:
            continue
        wrong = "missing" if fault["type"] == "missing" else f"{_wrong(fault)} (read {fault.get('input')!r:.60})"
        told.append((file.line(path), file.error(path, f"{_dotted(path)}: {wrong}")))
    return [fault for _, fault in sorted(told, key=lambda pair: pair[0])]


def _dotted(path: Path_) -> str:
    return ".".join(str(p) for p in path) or "the file"


_SENTENCES = {
    "greater_than": "has to be above {gt:g}",
    "greater_than_equal": "has to be at least {ge:g}",
    "less_than": "has to be below {lt:g}",
    "less_than_equal": "has to be at most {le:g}",
    "too_short": "needs at least {min_length} entries",
    "too_long": "may have at most {max_length} entries",
    "string_too_short": "needs at least {min_length} characters",
    "string_too_long": "may have at most {max_length} characters",
    "literal_error": "has to be one of {expected}",
}
_KINDS = {
    "string": "has to be text; put it in quotes where it looks like a number",
    "float": "has to be a plain number, like 2.5",
    "finite": "has to be a plain number, like 2.5",
    "int": "has to be a whole number",
    "bool": "has to be true or false",
    "tuple": "has to be a list, like [one, two]",
    "list": "has to be a list, like [one, two]",
    "dict": "has to be a group of keys, each with its value",
    "mapping": "has to be a group of keys, each with its value",
    "model": "has to be a group of keys, each with its value",
}


def _wrong(fault: Any) -> str:
    kind, context = str(fault["type"]), fault.get("ctx", {})
    if kind in _SENTENCES:
        return _SENTENCES[kind].format_map(context)
    if kind == "value_error":
        return str(fault["msg"]).removeprefix("Value error, ")
    return _KINDS.get(kind.split("_")[0], "will not do here")


def _keys_of(model: object, path: Path_) -> list[str]:
    """The keys that may stand at a place, followed from the model down; none where the place is no group of keys."""
    for step in path:
        if isinstance(model, type) and issubclass(model, RootModel):
            model = model.model_fields["root"].annotation
        if isinstance(model, type) and issubclass(model, BaseModel):
            by_name = {f.alias or n: f.annotation for n, f in model.model_fields.items()}
            model = by_name.get(str(step))
            continue
        # A list or a mapping holds what its last argument says; other steps name a branch of a union.
        inner = [a for a in get_args(model) if a is not Ellipsis]
        held = next((a for a in inner if getattr(a, "__name__", None) == step), None)
        model = held if held is not None else inner[-1] if inner else None
    while model is not None and not isinstance(model, type):
        inside = [a for a in get_args(model) if a not in (type(None), Ellipsis)]
        model = inside[0] if len(inside) == 1 or get_origin(model) is Annotated else None
    if isinstance(model, type) and issubclass(model, BaseModel):
        return [f.alias or n for n, f in model.model_fields.items()]
    return []
