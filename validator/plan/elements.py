"""The base of every model of a plan: strict keys as people write them, and the pointer of each element."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, ClassVar, Generic, TypeVar

from pydantic import BaseModel, ConfigDict, PrivateAttr, model_validator

from validator.plan.names import fold
from validator.plan.pointers import join


class Element(BaseModel):
    """One thing of a plan. Its keys compare as names do; unknown keys are errors; `pointer` is set once it is read.

    `short` is overridden by elements that may be written in one line: it turns the text into the long form, or raises
    ValueError saying what was expected. A field whose name is a word of Python ends in `_` and is written without it.
    """

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)
    _pointer: str = PrivateAttr("")
    _spelt: ClassVar[dict[str, str]]

    note: str | None = None

    @classmethod
    def __pydantic_init_subclass__(cls, **kwargs: Any) -> None:
        super().__pydantic_init_subclass__(**kwargs)
        cls._spelt = {fold(name.rstrip("_")): name for name in cls.model_fields}

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        raise ValueError("a list of `key: value` lines is expected here")

    @model_validator(mode="before")
    @classmethod
    def _read(cls, written: object) -> object:
        if isinstance(written, cls):
            return written
        entries = written if isinstance(written, Mapping) else cls.short(written)
        return {cls._spelt.get(fold(str(key)), key): value for key, value in entries.items()}

    @property
    def pointer(self) -> str:
        return self._pointer

    def pointer_to(self, field: str) -> str:
        """The pointer of a field: `pointer_to('made_of')` is `…/made of`."""
        return join(self._pointer, field.rstrip("_").replace("_", " "))


T = TypeVar("T")


class Section(Mapping[str, T], Generic[T]):
    """A collection of a plan by name, in the plan's order; names compare as `fold` does.

    `left_out` is true where the plan has no such section, `none` where it says that there is none.
    """

    def __init__(self, pointer: str, items: Mapping[str, T] | None = None, *, left_out: bool = False) -> None:
        self.pointer = pointer
        self.left_out = left_out
        self._items = dict(items or {})
        self._folded = {fold(name): name for name in self._items}

    @property
    def none(self) -> bool:
        return not self.left_out and not self._items

    def __getitem__(self, name: str) -> T:
        return self._items[self._folded[fold(name)]]

    def __iter__(self) -> Iterator[str]:
        return iter(self._items)

    def __len__(self) -> int:
        return len(self._items)

    def __contains__(self, name: object) -> bool:
        return isinstance(name, str) and fold(name) in self._folded
