"""How is one of our YAML files read? Without YAML 1.1 surprises, and with the line of every value.

Duplicate keys are errors; `yes`, `no`, `on` and `12:30` stay text; only plain decimal numbers, true, false and null are
more than text. Dates stay text.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import TypeVar

import yaml
from pydantic import BaseModel, ValidationError

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
        fault = error.errors()[0]
        path = tuple(fault["loc"])
        shown = ".".join(str(p) for p in path if not isinstance(p, int) or True)
        wrong = fault["msg"].removeprefix("Value error, ")
        if fault["type"] == "extra_forbidden":
            wrong = "no such key here"
        elif fault["type"] == "missing":
            wrong = "missing"
        given = fault.get("input")
        read = f" (read {given!r:.60})" if fault["type"] not in ("missing",) else ""
        raise file.error(path, f"{shown or 'the file'}: {wrong}{read}") from error
