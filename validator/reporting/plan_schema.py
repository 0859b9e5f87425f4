"""The JSON Schema (2020-12) of a plan, for editors: made from the models that read one, key by key.

A key may stand in any spelling its reader takes; the one with spaces is a property, so that an editor can offer it. One
schema serves a plan in one file and each file of a folder. What holds only between two places of a plan (that a name
is there, that a sum comes out) is no matter of form and is left to the check.
"""

from __future__ import annotations

import ast
import functools
import importlib
import inspect
import io
import pkgutil
import re
import textwrap
import tokenize
from collections.abc import Iterable, Mapping
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from validator.plan import sections
from validator.plan.american import KEYS
from validator.plan.choices import NamesOf, OneOf, YesOrNo
from validator.plan.dimensions import LENGTH
from validator.plan.elements import Element, Section, takes_to_find
from validator.plan.fields import Height, OfAnyDimension, QuantityOf, TermOf
from validator.plan.load import SECTIONS
from validator.plan.merging import DATUMS, VERSION
from validator.plan.names import fold
from validator.plan.order import WORDS_OF_A_LINE
from validator.plan.plan import Plan
from validator.plan.quantities import MOST_READINGS
from validator.plan.rooms import PARTS, Room
from validator.plan.sections.appliances import Papers
from validator.plan.units import wanted
from validator.plan.values import ToFind
from validator.plan.written import Written
from validator.reference.library import Library
from validator.reporting import schema_patterns as patterns
from validator.reporting.rule_schema import requirement_names, requirement_schema
from validator.reporting.schema_objects import META_SCHEMA, Key, Schema, objects, one_of, ref

TEXT: Schema = {"type": ["string", "number", "boolean"]}
"""A text; what an editor takes for a number or for yes and no is text to a plan."""

_NAME_OF_A_KIND = "a name without `left`, `right`, `over`, `in` and `of`, that neither starts nor ends with a number"


def plan_schema(library: Library) -> Schema:
    """The schema of a file of a plan; what the household's own rules may say is taken from the library."""
    return _Making(library).plan()


class _Making:
    """One schema while it is made; `_defs` are filled as models are come across."""

    def __init__(self, library: Library) -> None:
        self._library = library
        self._defs: dict[str, Schema] = {}

    def plan(self) -> Schema:
        keys = [
            Key("dryfit", {"description": "The version of the form.", "enum": [int(VERSION), VERSION]}, needed=True),
            Key(
                "heights from",
                {
                    "description": "What heights in this file start from where they do not say.",
                    **one_of(DATUMS, american=False),
                },
            ),
        ]
        keys += [Key(name, schema, others=_also(name)) for name, schema in self._sections().items()]
        return {
            "$schema": META_SCHEMA,
            "$id": f"urn:dryfit:plan:{VERSION}",
            "title": "A kitchen fit-out plan",
            **objects(keys, "#"),
            "type": "object",
            "$defs": dict(sorted(self._defs.items())),
        }

    def _sections(self) -> dict[str, Schema]:
        hints = get_type_hints(Plan, localns=_names_of_models()) | get_type_hints(Room, localns=_names_of_models())
        typed = {fold(name): hint for name, hint in hints.items() if fold(name) in SECTIONS}
        found = {name: self._section(name, typed.get(name)) for name in SECTIONS if name != "rooms"}
        note = Key("note", TEXT)
        keys = [*(Key(part, found[part], others=_also(part)) for part in PARTS), note]
        self._defs["Room"] = {"type": "object", **objects(keys, "#/$defs/Room")}
        rooms = _by_name(ref("Room"), "Rooms beside the one at the top of the plan, or in place of it.")
        return {name: rooms if name == "rooms" else found[name] for name in SECTIONS}

    def _section(self, name: str, hint: Any) -> Schema:
        if name == "kinds":
            return self._kinds()
        if name == "requirements":
            self._defs["requirement"] = requirement_schema(self._library)
            found = _by_name(ref("requirement"), "The household's own rules, in the form of a rulebook's.")
            return {**found, "propertyNames": requirement_names()}
        if name == "own":
            return _by_name(self._own(), "Values of the household's own, which its requirements may name.")
        origin, inside = get_origin(hint), get_args(hint)
        if origin is tuple:
            return _by_name(_one_or_several(self._element(inside[0])), f"{_doc(inside[0])} By the name of the rule.")
        if origin is Section:
            return self._collection(inside[0])
        model = next(part for part in (hint, *inside) if _is_element(part))
        return self._element(model)

    def _collection(self, hint: Any) -> Schema:
        if get_origin(hint) is tuple:
            model = get_args(hint)[0]
            return _by_name(_one_or_several(self._element(model)), f"{_doc(model)} Several stand in a list.")
        if _is_element(hint):
            return _by_name(self._element(hint), _doc(hint))
        models = get_args(hint)
        self._defs["Stated"] = {"type": "object", **objects(self._merged(models), "#/$defs/Stated")}
        return _by_name(ref("Stated"), "What makers' papers say, by the thing they are about.")

    def _kinds(self) -> Schema:
        """Kinds are used for whatever has an `is` that is a name of the plan's own."""
        users = [
            model for model in models() if "is_" in model.model_fields and model.model_fields["is_"].annotation is str
        ]
        like = Key("like", {**TEXT, "description": "The kind from which everything is taken that is not said here."})
        keys = [like, *(key for key in self._merged(users, use=False) if key.name != "is")]
        self._defs["Kind"] = {"type": "object", **objects(keys, "#/$defs/Kind")}
        taken = "|".join(map(patterns.in_any_case, WORDS_OF_A_LINE))
        number = patterns.STARTS_A_FIGURE
        wrong = rf"(?:^|[\s_-])(?:{taken})(?:[\s_-]|$)|^\s*{number}|(?:^|[\s_-]){number}\s*$"
        return {
            **_by_name(ref("Kind"), "What is said once of a kind, and holds for everything of it."),
            "propertyNames": {"description": _NAME_OF_A_KIND, "not": {"pattern": wrong}},
        }

    def _own(self) -> Schema:
        pattern = patterns.whole(patterns.any_quantity(), patterns.TO_FIND_OUT)
        return {"type": ["string", "number"], "pattern": pattern, "minimum": 0, "examples": ["940 mm"]}

    def _merged(self, models: Iterable[type[Element]], *, use: bool = True) -> list[Key]:
        """The keys of several models as those of one, needed where each of them needs it."""
        found: dict[str, list[Key]] = {}
        models = list(models)
        for model in models:
            for key in self._keys(model):
                found.setdefault(key.name, []).append(key)
        merged = []
        for name, keys in found.items():
            schemas = [schema for at, schema in enumerate(k.schema for k in keys) if schema not in _before(keys, at)]
            schema: Schema = schemas[0] if len(schemas) == 1 else {"anyOf": schemas}
            needed = use and len(keys) == len(models) and all(key.needed for key in keys)
            merged.append(Key(name, schema, needed, keys[0].others))
        return merged

    def _element(self, model: type[Element]) -> Schema:
        """The place of a model's schema among the definitions, where it is put when it is first asked for."""
        name = model.__name__
        if name not in self._defs:
            self._defs[name] = {}
            self._defs[name] = self._definition(model)
        return ref(name)

    def _definition(self, model: type[Element]) -> Schema:
        found: Schema = {"description": _doc(model)}
        others = next(
            (self._value(field.annotation, ())["additionalProperties"]
             for name, field in model.model_fields.items()
             if name in model.worked_out and get_origin(field.annotation) is dict),
            False,
        )  # fmt: skip
        at = f"#/$defs/{model.__name__}"
        line = model.line
        alone = re.fullmatch(r"<(\w+)>", line.pattern) if line is not None else None
        if alone and alone[1] in model.model_fields:
            field = model.model_fields[alone[1]]
            value = self._value(field.annotation, tuple(field.metadata))
            return {**found, "if": {"type": "object"}, "then": objects(self._keys(model), f"{at}/then"), "else": value}
        keys = objects(self._keys(model), at, others)
        texts = [self._line(line, model)] if line is not None else []
        texts += [patterns.TO_FIND_OUT] if model.asks else []
        if not texts:
            return {**found, "type": "object", **keys}
        said = _said(texts, line.examples if line is not None else ("to find out",))
        return {**found, **said, "type": ["object", *_listed(said["type"])], **keys}

    def _keys(self, model: type[Element]) -> list[Key]:
        remarks = _remarks(model)
        found = []
        for name, field in model.model_fields.items():
            if name in model.worked_out:
                continue
            needed = field.is_required()
            left_open = not needed and not takes_to_find(field.annotation)
            schema = self._value(field.annotation, tuple(field.metadata), left_open=left_open)
            if name in remarks:
                schema = {**schema, "description": remarks[name]}
            key = fold(name)
            found.append(Key(key, schema, needed, _also(key)))
        return sorted(found, key=lambda key: key.name == "note")

    def _value(self, hint: Any, marks: tuple[Any, ...], *, left_open: bool = False) -> Schema:
        """The schema of a field; `left_open` where `to find out` may stand in it and is then as if left out."""
        hint, marks = _unwrapped(hint, marks)
        line = next((mark if isinstance(mark, Written) else mark.line for mark in marks if _has_line(mark)), None)
        texts = [patterns.LEFT_OPEN] if left_open else []
        if line is not None:
            texts.insert(0, self._line(line, None))
        for mark in marks:
            match mark:
                case QuantityOf():
                    found = self._quantity(mark)
                    if line is None:
                        return found
                    own = self._defs[_named(mark)]
                    return {**own, **_said(texts, line.examples), "type": own["type"]}
                case OfAnyDimension():
                    return {**_said([patterns.any_quantity(), *texts], ("250 mm",))}
                case TermOf():
                    return {**TEXT, "pattern": r"\S"}
                case OneOf():
                    return one_of(_literals(hint), ToFind in get_args(hint) or left_open)
                case YesOrNo():
                    return one_of(("yes", "no"), True, others=("true", "false"), types=("string", "boolean"))
                case NamesOf():
                    return {"type": [*TEXT["type"], "array"], "pattern": r"[^\s,]", "items": TEXT, "minItems": 1}
        return self._plain(hint, line, texts)

    def _plain(self, hint: Any, line: Written | None, texts: list[str]) -> Schema:
        origin, inside = get_origin(hint), get_args(hint)
        said = _said(texts, line.examples if line is not None else ()) if texts else {"type": []}
        if hint is str:
            return said if line is not None else TEXT
        if hint is int:
            return {**said, "type": ["integer", "string"]}
        if origin is dict:
            below = self._value(inside[1], ())
            return {**said, "type": ["object", *_listed(said["type"])], "additionalProperties": below}
        if origin is tuple:
            return {**said, "type": ["array", *_listed(said["type"])], "items": self._value(inside[0], ())}
        if _is_element(hint):
            found = self._element(hint)
            return {"if": said, "else": found} if texts and not hint.asks else found
        if line is None:
            if hint.__name__ not in self._defs:
                found = _said([self._line(hint.line, None)], hint.line.examples)
                self._defs[hint.__name__] = _or_readings(found) if hint is Height else found
            return ref(hint.__name__)
        return _or_readings(said) if Height in inside else said

    def _quantity(self, of: QuantityOf) -> Schema:
        name = _named(of)
        if name not in self._defs:
            self._defs[name] = _quantity(of)
        return ref(name)

    def _line(self, line: Written, model: type[Element] | None) -> str:
        """The regular expression of a line; its fields say what they are written as."""

        def part(name: str) -> str | None:
            field = model.model_fields.get(name) if model is not None else None
            if field is None:
                if name == "height":
                    return self._line(Height.line, None)
                other = next((other for other in models() if fold(other.__name__) == name and not model), None)
                if other is None or other.line is None:
                    return None
                return f"{self._line(other.line, other)}|{patterns.TO_FIND_OUT}"
            hint, marks = _unwrapped(field.annotation, tuple(field.metadata))
            for mark in marks:
                if isinstance(mark, QuantityOf):
                    return patterns.quantity(mark.dimension, none=mark.none, level=mark.level)
                if isinstance(mark, OneOf):
                    return patterns.as_names(*_literals(hint)) + f"|{patterns.TO_FIND_OUT}" * (ToFind in get_args(hint))
            return None

        return patterns.line(line.pattern, part)


def _named(of: QuantityOf) -> str:
    name = "level" if of.level else of.dimension.name.replace(" ", "-") + "-by-place" * of.named
    return f"{name}-or-none" if of.none else name


def _quantity(of: QuantityOf) -> Schema:
    """A quantity: a text, a number where it needs no unit, or several readings."""
    text = wanted(of.dimension)
    examples = ["9 low", "0"] if of.level else re.findall("`([^`]+)`", text)
    called = "how far a spot lies below the high spot" if of.level else text.partition(",")[0]
    allowed = patterns.quantity(of.dimension, none=of.none, level=of.level)
    found = _said([allowed], [*examples, "to find out", *(["none"] if of.none else [])])
    number = "number" in found["type"]
    if of.level:
        found |= {"minimum": 0, "maximum": 0}
    more = _readings(patterns.reading(of.dimension, level=of.level), number=number)
    kinds = [*_listed(found["type"]), "array", *(["object"] if of.named else [])]
    if of.named:
        more |= {"additionalProperties": more["items"], "minProperties": 1, "maxProperties": MOST_READINGS}
    return {"description": f"{called[0].upper()}{called[1:]}, readings of it in a list, or `to find out`.", **found,
            "type": kinds, **more}  # fmt: skip


def _readings(pattern: str, *, number: bool) -> Schema:
    kinds: Schema = {"type": ["string", "number"], "minimum": 0} if number else {"type": "string"}
    return {"items": {**kinds, "pattern": patterns.whole(pattern)}, "minItems": 1, "maxItems": MOST_READINGS}


def _or_readings(height: Schema) -> Schema:
    """A height, which may also be several readings."""
    more = _readings(patterns.reading(LENGTH), number=True)
    return {**height, "type": [*_listed(height["type"]), "array"], **more}


def _said(texts: Iterable[str], examples: Iterable[str]) -> Schema:
    """A text that is one of the patterns; where a figure alone is, a number may stand as well."""
    pattern = patterns.whole(*texts)
    shown = list(examples)
    number = re.search(pattern, "0") is not None or re.search(pattern, "1968") is not None
    found: Schema = {"type": ["string", "number"], "minimum": 0} if number else {"type": "string"}
    return {**found, "pattern": pattern, **({"examples": shown} if shown else {})}


def _by_name(items: Schema, description: str) -> Schema:
    """A collection by names of the plan's own, or `none`."""
    return {
        "description": f"{description} `none` says that there are none.",
        "type": ["object", "string"],
        "pattern": patterns.whole(patterns.as_names("none")),
        "additionalProperties": items,
    }


def _one_or_several(items: Schema) -> Schema:
    return {"if": {"type": "array"}, "then": {"items": items}, "else": items}


def _also(key: str) -> tuple[str, ...]:
    """The other names of a key."""
    return tuple(theirs for theirs, ours in KEYS.items() if ours == key)


def _before(keys: list[Key], at: int) -> list[Schema]:
    return [key.schema for key in keys[:at]]


def _listed(types: str | list[str]) -> list[str]:
    return [types] if isinstance(types, str) else types


def _has_line(mark: object) -> bool:
    return isinstance(mark, Written) or isinstance(getattr(mark, "line", None), Written)


def _is_element(hint: object) -> bool:
    return isinstance(hint, type) and issubclass(hint, Element)


def _literals(hint: Any) -> list[str]:
    parts = get_args(hint) if get_origin(hint) in (Literal, Union, UnionType) else ()
    return [word for part in parts for word in ([part] if isinstance(part, str) else _literals(part))]


def _unwrapped(hint: Any, marks: tuple[Any, ...]) -> tuple[Any, tuple[Any, ...]]:
    """A type without None and its marks, and those marks, the outermost first."""
    while True:
        if get_origin(hint) is Annotated:
            hint, *more = get_args(hint)
            marks = (*marks, *more)
        elif get_origin(hint) in (Union, UnionType) and NoneType in get_args(hint):
            parts = [part for part in get_args(hint) if part is not NoneType]
            hint = functools.reduce(lambda one, other: one | other, parts)
        else:
            return hint, marks


@functools.cache
def _modules() -> tuple[Any, ...]:
    names = sorted(module.name for module in pkgutil.iter_modules(sections.__path__))
    return tuple(importlib.import_module(f"{sections.__name__}.{name}") for name in names)


@functools.cache
def models() -> tuple[type[Element], ...]:
    found = (value for module in _modules() for value in vars(module).values() if _is_element(value))
    return tuple(dict.fromkeys(model for model in found if model is not Element))


def _names_of_models() -> dict[str, Any]:
    """What the names in the annotations of a plan stand for."""
    return {model.__name__: model for model in models()} | {"Papers": Papers}


def _doc(model: type[Element]) -> str:
    """What a model's docstring says, or at least what it is called."""
    text = inspect.cleandoc(model.__dict__.get("__doc__") or "")
    return " ".join(text.split()) or f"{model.called[0].upper()}{model.called[1:]}."


@functools.cache
def _remarks(model: type[Element]) -> Mapping[str, str]:
    """The remarks behind the fields in the source: what each says, by the field's name."""
    source = textwrap.dedent(inspect.getsource(model))
    tokens = tokenize.generate_tokens(io.StringIO(source).readline)
    remarks = {token.start[0]: token.string for token in tokens if token.type == tokenize.COMMENT}
    (definition,) = ast.parse(source).body
    assert isinstance(definition, ast.ClassDef)
    fields = [each for each in definition.body if isinstance(each, ast.AnnAssign) and isinstance(each.target, ast.Name)]
    return {
        each.target.id: remarks[each.end_lineno].lstrip("# ")
        for each in fields
        if isinstance(each.target, ast.Name) and each.end_lineno in remarks
    }
