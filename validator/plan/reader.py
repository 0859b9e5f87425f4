"""Reads what is written into models and says in plain words everything that cannot be read, each with its place."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any, TypeVar, get_args

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from validator.plan.choices import shown_text
from validator.plan.elements import Element, LongForm, Unfit
from validator.plan.names import fold, nearest
from validator.plan.places import Places
from validator.plan.pointers import join
from validator.plan.problems import Place, Problem
from validator.plan.quantities import BadQuantity

E = TypeVar("E", bound=Element)

_EXPECTED = {
    "string_type": "text",
    "int_type": "a whole number",
    "int_parsing": "a whole number",
    "int_from_float": "a whole number",
    "dict_type": "`name: value` lines, or braces",
    "tuple_type": "a list in brackets",
    "list_type": "a list in brackets",
    "model_type": "`key: value` lines, or braces",
}
"""What could stand where pydantic refuses a type."""


class Reader:
    """Collects what is wrong while the sections are read; `context` is what fields need to know of the plan."""

    def __init__(self, places: Places, context: Mapping[str, Any]) -> None:
        self.places = places
        self.context = dict(context)
        self.problems: list[Problem] = []

    def problem(
        self, pointer: str, message: str, expected: str = "", nearest: str = "", also: Iterable[str] = ()
    ) -> None:
        """Note a problem at a pointer; `also` are pointers that belong to it."""
        others: tuple[Place, ...] = tuple(self.places.place(other) for other in also)
        written = self.places.written(pointer)
        self.problems.append(Problem(message, self.places.place(pointer), expected, nearest, written, others))

    def unfit(self, pointer: str, error: ValueError) -> None:
        """Note what a short form, a word or a quantity was refused for."""
        said = error if isinstance(error, Unfit | BadQuantity) else Unfit(str(error))
        self.problem(pointer, str(error), said.expected, said.nearest)

    def element(self, model: type[E], written: object, pointer: str) -> E | None:
        """What is written as an element, with its problems noted; None where nothing of it can be read.

        A key that cannot be read is left out, so that what the other keys refer to is looked at all the same.
        """
        return self.checked(model, written, lambda loc: pointer_of(model, pointer, loc))

    def checked(self, model: type[E], written: object, pointer_at: Callable[[tuple[int | str, ...]], str]) -> E | None:
        """As `element`, with the pointer of each fault given by the path to it."""
        try:
            return model.model_validate(written, context=self.context)
        except ValidationError as faults:
            found = faults.errors(include_url=False)
        for fault in found:
            self._fault(model, fault, pointer_at(fault["loc"]))
        bad = {fault["loc"][0] if fault["loc"] else "" for fault in found}
        if "" in bad:
            return None
        good = LongForm({name: value for name, value in model.long_form(written).items() if name not in bad})
        try:
            return model.model_validate(good, context=self.context)
        except ValidationError:
            return None

    def mapping(self, written: object, pointer: str, what: str) -> dict[str, Any] | None:
        """A collection by name: `none` is an empty one; None with a problem noted for anything else."""
        if isinstance(written, dict):
            return written
        if isinstance(written, str) and fold(written) == "none":
            return {}
        self.problem(pointer, f"{what} cannot be `{shown_text(written)}`", "`name: value` lines, braces, or none")
        return None

    def by_hand(self, model: type[Element], written: Mapping[str, object], pointer: str) -> dict[str, object]:
        """What is written without the keys that are worked out and that nobody writes; those are noted as unknown."""
        for key in written:
            if fold(key) in model.worked_out:
                self._unknown_key(model, key, join(pointer, key))
        return {key: value for key, value in written.items() if fold(key) not in model.worked_out}

    def _unknown_key(self, model: type[Element], key: str, pointer: str) -> None:
        keys = model.written_keys()
        self.problem(pointer, f"{model.called} has no `{key}`", ", ".join(keys), nearest(key, keys) or "")

    def _fault(self, model: type[Element], fault: ErrorDetails, pointer: str) -> None:
        kind, loc = fault["type"], fault["loc"]
        if kind == "plan":
            said = fault["ctx"]
            self.problem(pointer, said["message"], said["expected"], said["nearest"])
        elif kind == "value_error":
            self.unfit(pointer, fault["ctx"]["error"])
        elif kind == "extra_forbidden":
            self._unknown_key(_owner(model, loc), str(loc[-1]), pointer)
        elif kind == "missing":
            owner = _owner(model, loc)
            self.problem(pointer, f"{owner.called} needs `{fold(str(loc[-1]))}`", f"`{fold(str(loc[-1]))}: …`")
        elif kind in ("greater_than_equal", "less_than_equal"):
            end = f"at least {fault['ctx']['ge']}" if "ge" in fault["ctx"] else f"at most {fault['ctx']['le']}"
            self.problem(pointer, f"`{shown_text(fault['input'])}` cannot stand here", f"a number of {end}")
        else:
            expected = _EXPECTED.get(kind, "another value")
            self.problem(pointer, f"`{shown_text(fault['input'])}` cannot stand here", expected)


def pointer_of(model: type[Element], pointer: str, loc: tuple[int | str, ...]) -> str:
    """The pointer of a fault below an element, from pydantic's path to it; marks of its unions are left out."""
    at: type[Element] | None = model
    inside = False
    for step in loc:
        if at is not None and not inside:
            field = at.model_fields.get(str(step))
            if field is None:
                return join(pointer, step)
            if str(step) not in at.worked_out:
                pointer = join(pointer, fold(str(step)))
            at, inside = _below(field.annotation)
        elif inside:
            pointer = join(pointer, step)
            inside = False
    return pointer


def _owner(model: type[Element], loc: tuple[int | str, ...]) -> type[Element]:
    """The model whose key is the last step of a path."""
    at = model
    for step in loc[:-1]:
        field = at.model_fields.get(str(step))
        if field is not None:
            at = _below(field.annotation)[0] or at
    return at


def _below(annotation: object) -> tuple[type[Element] | None, bool]:
    """The element a field holds, if any, and whether it holds them in a list or by name."""
    if isinstance(annotation, type) and issubclass(annotation, Element):
        return annotation, False
    parts = get_args(annotation)
    held = getattr(annotation, "__origin__", None) in (dict, tuple, list)
    for part in parts:
        element, inside = _below(part)
        if element is not None or inside:
            return element, held or inside
    return None, held
