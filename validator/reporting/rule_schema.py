"""The JSON Schema (2020-12) of a rulebook, for editors: made from the lists that rules are read by.

Which figures a rule may ask for follows from the kind of row it names. What its expressions, tables and documents come
to is no matter of form and is left to the reader of rules.
"""

from __future__ import annotations

from collections.abc import Mapping

from validator.judging.limits import BOUNDS, types_of
from validator.judging.rule_reading import (
    CHANGES,
    CODE,
    NEEDED,
    NEEDED_TO_TRY,
    OF_A_BOOK,
    OF_THE_HOUSEHOLD,
    PLAIN_NAME,
    TRIAL,
)
from validator.judging.rules import SEVERITIES
from validator.measures.catalogue import MEASURES
from validator.measures.rows import Name, YesNo
from validator.measures.site import row_class
from validator.plan.dimensions import Dimension
from validator.plan.names import fold
from validator.reference.countries import CODE as COUNTRY
from validator.reference.countries import EVERYWHERE
from validator.reference.documents import COMMON_PRACTICE, SEEN
from validator.reference.library import Library
from validator.reporting import schema_patterns as patterns
from validator.reporting.schema_objects import META_SCHEMA, Key, Schema, has, lacks, objects, one_of, ref

_WORDS: Schema = {"type": ["string", "number"], "pattern": r"\S"}
_SAME_FOR_ALL: Schema = {"type": ["string", "number"], "pattern": r"^[^{}]*[^{}\s][^{}]*$"}
_LIST_OF_WORDS: Schema = {"type": "array", "items": _WORDS}
_ANYTHING: Schema = {}

_SAYS: Mapping[str, str] = {
    "title": "What the rule is about, in a few words.",
    "each": "The kind of thing that is judged.",
    "when": "A condition: the rule is only for things of which it holds.",
    "figure": "The figure, or the field with one of several words, that is limited.",
    "at least": "The least the figure may be, as an expression or a table's row; several in a list must all hold.",
    "at most": "The most the figure may be.",
    "within": "The least and the most the figure may be.",
    "equals": "What the figure has to be.",
    "one of": "The words the figure may be.",
    "stated": "Figures that makers state, on the same datum: the strictest counts.",
    "holds": "A condition in place of a figure with its limit.",
    "severity": "How bad it is when the rule is not met.",
    "before": "The stage by which it has to be met.",
    "because": "Why it matters, in one sentence.",
    "remedy": "What to do, with figures in braces: have, need, short and those of the row.",
    "source": "What the rule rests on.",
    "tolerance": "How far past the limit is still taken for it.",
    "tried": "The plan in which the rule is tried, and the values on both sides of its limit.",
    "note": "Whatever else there is to say.",
    "also called": "Names it had before.",
    "tightens": "Why this rule asks for more than the general one of its name.",
    "replaces": "Why this rule stands in place of the general one of its name.",
}


def book_schema(library: Library) -> Schema:
    """The schema of a rulebook's file."""
    head = [
        Key("title", _WORDS, needed=True),
        Key("covers", _covers(), needed=True),
        Key("edition", _WORDS),
        Key("note", _ANYTHING),
    ]
    why = Key("withdraws", {**_WORDS, "description": "Why this book takes the rule away. In a book of one's own only."})
    withdrawn = {"type": "object", **objects([why], "#/$defs/withdrawal")}
    rules = {
        "description": "The rules by their names.",
        "type": "object",
        "propertyNames": {"pattern": f"^{PLAIN_NAME.pattern}$"},
        "additionalProperties": {"if": has(why), "then": ref("withdrawal"), "else": ref("rule")},
    }
    keys = [
        Key("book", {"description": "What the book is, and where it applies.", **ref("book")}, needed=True),
        Key("rules", rules, needed=True),
    ]
    return {
        "$schema": META_SCHEMA,
        "$id": "urn:dryfit:rulebook:1",
        "title": "A rulebook",
        "type": "object",
        **objects(keys, "#"),
        "$defs": {
            "book": {"type": "object", **objects(head, "#/$defs/book")},
            "rule": _rule(library, OF_A_BOOK, NEEDED, "#/$defs/rule"),
            "withdrawal": withdrawn,
        },
    }


def requirement_schema(library: Library) -> Schema:
    """The schema of a requirement, for the definitions of a plan's schema."""
    return _rule(library, OF_THE_HOUSEHOLD, ("each",), "#/$defs/requirement")


def requirement_names() -> Schema:
    """What a requirement may be called: anything but a code."""
    code = CODE.pattern.replace(r"\d", "[0-9]")
    return {"not": {"pattern": rf"^(?:{code})$|(?:^|\s)(?:{code})(?:\s|$)"}}


def _rule(library: Library, known: tuple[str, ...], needed: tuple[str, ...], at: str) -> Schema:
    says = _values(library)
    keys = [Key(_key(name), {"description": _SAYS[name], **says[name]}, name in needed) for name in known]
    schema = objects(keys, at)
    by_name = {fold(key.name): key for key in keys}
    holds, figure = by_name["holds"], by_name["figure"]
    bounds = [by_name[bound] for bound in BOUNDS]
    apart = [figure, *bounds, by_name["stated"], by_name["tolerance"]]
    asks = {
        "if": has(holds),
        "then": {"propertyNames": {"not": {"pattern": "|".join(key.pattern for key in apart)}}},
        "else": {"if": lacks(figure), "then": {"required": [figure.name]}, "else": {"anyOf": [*map(has, bounds)]}},
    }
    rests = [] if not set(CHANGES) <= set(known) else [{"not": {"allOf": [has(by_name[key]) for key in CHANGES]}}]
    schema["allOf"] = [*schema.get("allOf", []), asks, *rests, *_by_kind(by_name)]
    return {"type": "object", **schema}


def _by_kind(keys: Mapping[str, Key]) -> list[Schema]:
    """For each kind of row the figures and fields a rule about it may name."""
    found: list[Schema] = []
    each = keys["each"]
    for kind in MEASURES:
        types = types_of(row_class(kind))
        figures = [name for name, type in types.items() if not isinstance(type, YesNo | Name)]
        stated = [name for name, type in types.items() if isinstance(type, Dimension)]
        called = {"pattern": patterns.whole(patterns.as_names(kind, american=False))}
        then = {
            keys["figure"].pattern: _names(figures),
            keys["stated"].pattern: {"items": _names(stated)},
        }
        found.append(
            {
                "if": {"allOf": [has(each), {"patternProperties": {each.pattern: called}}]},
                "then": {"patternProperties": then},
            }
        )
    return found


def _names(names: list[str]) -> Schema:
    """Names of a row, with underscores as expressions have them."""
    if not names:
        return {"not": {}}
    return {"anyOf": [{"enum": names}, {"pattern": patterns.whole(patterns.as_names(*names, american=False))}]}


def _values(library: Library) -> dict[str, Schema]:
    row = [
        Key("table", {**_WORDS, "examples": sorted(library.tables)}, needed=True),
        Key("by", {"type": "object", "additionalProperties": _WORDS}, needed=True),
        Key("gives", _WORDS, needed=True),
    ]
    limit: Schema = {"type": ["string", "number", "object"], "pattern": r"\S", **_in_place(row)}
    limits: Schema = {**limit, "type": [*limit["type"], "array"], "items": limit}
    return {
        "title": _SAME_FOR_ALL,
        "each": one_of(MEASURES, american=False),
        "when": _WORDS,
        "figure": _WORDS,
        "at least": limits,
        "at most": limits,
        "within": {"type": "array", "items": limit, "minItems": 2, "maxItems": 2},
        "equals": limits,
        "one of": _LIST_OF_WORDS,
        "stated": _LIST_OF_WORDS,
        "holds": _WORDS,
        "severity": one_of(SEVERITIES, american=False),
        "before": one_of(library.stages, american=False),
        "because": _SAME_FOR_ALL,
        "remedy": _WORDS,
        "source": _source(library),
        "tolerance": {"type": ["string", "number"], "pattern": patterns.whole(patterns.any_quantity())},
        "tried": _tried(),
        "note": _ANYTHING,
        "also called": _LIST_OF_WORDS,
        **dict.fromkeys(CHANGES, _WORDS),
    }


def _source(library: Library) -> Schema:
    keys = [
        Key("document", {**_WORDS, "examples": sorted(library.documents)}, needed=True),
        Key("edition", _WORDS),
        Key("clause", _WORDS),
        Key("seen", one_of(SEEN, american=False)),
        Key("note", _WORDS),
    ]
    return {
        "type": ["string", "object"],
        "pattern": patterns.whole(patterns.as_names(COMMON_PRACTICE)),
        "examples": [COMMON_PRACTICE],
        **_in_place(keys),
    }


def _tried() -> Schema:
    says: dict[str, Schema] = {"vary": {"type": "string", "pattern": r"^\s*/"}, "met": _ANYTHING, "not met": _ANYTHING}
    keys = [Key(_key(name), says.get(name, _WORDS), name in NEEDED_TO_TRY) for name in TRIAL]
    trial: Schema = {"type": "object", **_in_place(keys)}
    return {"if": {"type": "array"}, "then": {"items": trial}, "else": trial}


def _in_place(keys: list[Key]) -> Schema:
    """A group of keys that stands in several places, so that nothing can point at it."""
    schema = objects(keys, "")
    schema["patternProperties"] = {
        spelling: key.schema for key, spelling in zip(keys, schema["patternProperties"], strict=True)
    }
    return schema


def _covers() -> Schema:
    return {
        "description": "Where the book applies: everywhere, or a country or part of one by ISO 3166.",
        "type": "string",
        "pattern": patterns.whole(EVERYWHERE, COUNTRY.pattern),
        "examples": [EVERYWHERE, "GB", "GB-ENG", "US-CA"],
    }


def _key(name: str) -> str:
    """A key of a rule as books write it."""
    return name.replace(" ", "_")
