"""Pieces that the schemas of plans and rulebooks share: groups of keys in every spelling, and one of several words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from validator.reporting import schema_patterns as patterns

Schema = dict[str, Any]
META_SCHEMA = "https://json-schema.org/draft/2020-12/schema"


@dataclass(frozen=True, slots=True)
class Key:
    """A key as an editor offers it, what may stand behind it, and other names it is read by."""

    name: str
    schema: Schema
    needed: bool = False
    others: tuple[str, ...] = ()

    @property
    def pattern(self) -> str:
        """Every spelling of it."""
        return patterns.key(self.name, self.others)


def ref(name: str) -> Schema:
    return {"$ref": f"#/$defs/{name}"}


def objects(keys: Sequence[Key], at: str, others: Schema | bool = False) -> Schema:
    """What a group of keys has to be; `at` is where this schema stands, `others` what stands behind other names."""
    spellings = {
        f"(?!^{patterns.exactly(key.name)}$){key.pattern}": {"$ref": f"{at}/properties/{quote(key.name)}"}
        for key in keys
    }
    needed = [{"if": lacks(key), "then": {"required": [key.name]}} for key in keys if key.needed]
    return {
        "properties": {key.name: key.schema for key in keys},
        "patternProperties": spellings,
        "additionalProperties": others,
        **({"allOf": needed} if needed else {}),
    }


def lacks(key: Key) -> Schema:
    """No key of the group is this one, in any spelling."""
    return {"propertyNames": {"not": {"pattern": key.pattern}}}


def has(key: Key) -> Schema:
    return {"not": lacks(key)}


def one_of(
    words: Iterable[str],
    to_find: bool = False,
    *,
    american: bool = True,
    others: Sequence[str] = (),
    types: Sequence[str] = ("string",),
) -> Schema:
    """One of several words, which an editor offers as they stand here and a reader takes in any spelling."""
    listed = list(words)
    texts = [patterns.as_names(*listed, *others, american=american), *([patterns.LEFT_OPEN] if to_find else [])]
    enum: list[str | bool] = [*listed, "to find out"] if to_find else [*listed]
    if "boolean" in types:
        enum += [True, False]
    found: Schema = {"type": types[0] if len(types) == 1 else list(types)}
    return {**found, "anyOf": [{"enum": enum}, {"type": "string", "pattern": patterns.whole(*texts)}]}
