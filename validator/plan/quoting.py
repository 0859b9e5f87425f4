"""How a value or a name is written in YAML, TOML and JSON, quoted only where that syntax needs it."""

from __future__ import annotations

import json
import re
from abc import ABC, abstractmethod
from collections.abc import Iterable
from datetime import date

from validator.plan.problems import Unreadable
from validator.plan.yaml_reader import read_yaml

Value = str | list["Value"] | dict[str, "Value"]

_JSON_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?")
_TOML_NUMBER = re.compile(r"[+-]?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_TOML_NAME = re.compile(r"[A-Za-z0-9_-]+")
_DELETE = re.compile("[\x7f-\x9f]")


class Syntax(ABC):
    """One of the three ways to write a plan. `joint` stands between a name and its value."""

    joint: str

    def value(self, value: Value, *, inside: bool = True, instead_of: str = "") -> str:
        """A text, list or group as it is written; `inside` brackets or braces, `instead_of` what stood there before."""
        if isinstance(value, list):
            return "[" + ", ".join(self.value(entry) for entry in value) + "]"
        if isinstance(value, dict):
            return self.group(self.entry(name, inner) for name, inner in value.items())
        return self.text(value, inside=inside, instead_of=instead_of)

    def entry(self, name: str, value: Value, *, inside: bool = True) -> str:
        return self.name(name) + self.joint + self.value(value, inside=inside)

    def group(self, entries: Iterable[str]) -> str:
        return "{" + ", ".join(entries) + "}"

    @abstractmethod
    def name(self, name: str) -> str:
        """A name before its value."""

    @abstractmethod
    def text(self, text: str, *, inside: bool, instead_of: str) -> str:
        """A text as a value."""


class Yaml(Syntax):
    joint = ": "

    def name(self, name: str) -> str:
        plain = _yaml_reads(f"{name}: x", {name: "x"}) and _yaml_reads(f"{{{name}: x}}", {name: "x"})
        return name if plain else _in_double_quotes(name)

    def text(self, text: str, *, inside: bool, instead_of: str) -> str:
        if instead_of.startswith("'") and "\n" not in text:
            return "'" + text.replace("'", "''") + "'"
        if instead_of.startswith('"'):
            return _in_double_quotes(text)
        plain = (
            "\n" not in text
            and not (inside and ":" in text)
            and _yaml_reads(f"a: [{text}]" if inside else f"a: {text}", {"a": [text] if inside else text})
        )
        return text if plain else _in_double_quotes(text)


class Toml(Syntax):
    joint = " = "

    def name(self, name: str) -> str:
        return name if _TOML_NAME.fullmatch(name) else _in_double_quotes(name)

    def text(self, text: str, *, inside: bool, instead_of: str) -> str:
        if (_TOML_NUMBER.fullmatch(text) or _is_day(text)) and instead_of[:1] not in ("'", '"'):
            return text
        if instead_of in ("true", "false") and text in ("true", "false"):
            return text
        if instead_of[:1] == "'" != instead_of[1:2] and "'" not in text and text.isprintable():
            return f"'{text}'"
        return _in_double_quotes(text)


class Json(Syntax):
    joint = ": "

    def name(self, name: str) -> str:
        return _in_double_quotes(name)

    def text(self, text: str, *, inside: bool, instead_of: str) -> str:
        if _JSON_NUMBER.fullmatch(text) and not instead_of.startswith('"'):
            return text
        if instead_of in ("true", "false") and text in ("true", "false"):
            return text
        return _in_double_quotes(text)


def _is_day(text: str) -> bool:
    if not _DAY.fullmatch(text):
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _in_double_quotes(text: str) -> str:
    """The text in double quotes, with escapes that all three syntaxes read alike."""
    return _DELETE.sub(lambda found: f"\\u{ord(found[0]):04x}", json.dumps(text, ensure_ascii=False))


def _yaml_reads(text: str, meant: object) -> bool:
    """Whether a line of YAML is read as it is meant: the reader itself decides what may stand without quotes."""
    try:
        return read_yaml(text, "").data == meant
    except Unreadable:
        return False
