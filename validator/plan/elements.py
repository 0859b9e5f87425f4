"""The base of every model of a plan: strict keys as people write them, and the pointer of each element.

Here and in the sections annotations are not put off (`from __future__ import annotations`): pydantic would work out the
text of each of them again for every class below it, which took a tenth of a short run.
"""

from collections.abc import ItemsView, Iterator, Mapping, ValuesView
from types import UnionType
from typing import Annotated, Any, ClassVar, Generic, TypeVar, Union, get_args, get_origin

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from validator.plan.american import KEYS
from validator.plan.names import fold
from validator.plan.values import ToFind
from validator.plan.written import Written

TO_FIND_OUT = "to find out"


class Unfit(ValueError):
    """Something written that cannot stand where it stands: what is wrong, what could stand there, what was meant."""

    def __init__(self, message: str, expected: str = "", nearest: str = "") -> None:
        super().__init__(message)
        self.expected = expected
        self.nearest = nearest


class LongForm(dict[str, object]):
    """An element written out: its keys are the names of the model's fields, and nothing is left to spell out."""


def is_to_find(written: object) -> bool:
    """Whether somebody wrote `to find out …` in place of a value."""
    return type(written) is str and written[:2] in ("to", "To", "TO") and fold(written).startswith(TO_FIND_OUT)


def takes_to_find(annotation: object) -> bool:
    """Whether a field of this type keeps `to find out` as its value (a list of such fields does not)."""
    if annotation is ToFind or getattr(annotation, "takes_to_find", False):
        return True
    origin = get_origin(annotation)
    if origin is Annotated:
        return takes_to_find(get_args(annotation)[0])
    return origin in (Union, UnionType) and any(takes_to_find(part) for part in get_args(annotation))


def entry(written: object, key: str) -> object:
    """What a mapping has under a key, however it is spelt; None where there is none, or no mapping."""
    if not isinstance(written, Mapping):
        return None
    if key in written:
        return written[key]
    return next((value for name, value in written.items() if KEYS.get(fold(name), fold(name)) == key), None)


class Element(BaseModel):
    """One thing of a plan. Its keys compare as names do; unknown keys are errors; `pointer` is set once it is read.

    `short` is overridden by elements that may be written in one line: it turns the text into the long form, or raises
    Unfit. A field whose name is a word of Python ends in `_` and is written without it. `called` is what a message
    calls the element, `asks` names the fields that `to find out` in its place leaves open, `worked_out` those nobody
    writes. `line` is how the short form is written.
    """

    __slots__ = ("_pointer",)  # a slot and not a private attribute of pydantic's: those cost time in every element

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)
    called: ClassVar[str] = "this"
    asks: ClassVar[tuple[str, ...]] = ()
    worked_out: ClassVar[frozenset[str]] = frozenset()
    line: ClassVar[Written | None] = None
    takes_to_find: ClassVar[bool] = False
    _spelt: ClassVar[dict[str, str]] = {}
    _no_doubt: ClassVar[frozenset[str]] = frozenset()

    note: str | None = None

    @classmethod
    def __pydantic_init_subclass__(cls, **kwargs: Any) -> None:
        super().__pydantic_init_subclass__(**kwargs)
        cls._spelt = {fold(name): name for name in cls.model_fields}
        cls._spelt.update({theirs: cls._spelt[ours] for theirs, ours in KEYS.items() if ours in cls._spelt})
        cls.takes_to_find = bool(cls.asks)
        cls._no_doubt = frozenset(
            name
            for name, field in cls.model_fields.items()
            if not field.is_required() and not takes_to_find(field.annotation)
        )

    @classmethod
    def written_keys(cls) -> list[str]:
        """The keys a person may write, as a message shows them."""
        own = [fold(name) for name in cls.model_fields if name not in cls.worked_out and name != "note"]
        return [*own, "note"]

    @classmethod
    def field_of(cls, key: str) -> str:
        """The name of the field a key stands for; the key itself where there is none."""
        return cls._spelt.get(fold(key), key)

    @classmethod
    def short(cls, written: object) -> Mapping[str, object]:
        """The long form of what stands in place of a mapping."""
        raise Unfit(
            f"{cls.called} is written as `key: value` lines, or in braces", expected=", ".join(cls.written_keys())
        )

    @classmethod
    def long_form(cls, written: object) -> LongForm:
        """What is written, with field names for keys; `to find out` is left out where a field cannot keep it.

        Raises Unfit where two keys say the same thing, or a short form cannot be read.
        """
        if isinstance(written, LongForm):
            return written
        if cls.asks and is_to_find(written):
            return LongForm(dict.fromkeys(cls.asks, written))
        entries = written if isinstance(written, Mapping) else cls.short(written)
        found = LongForm()
        for key, value in entries.items():
            field = cls.field_of(key)
            if field in found:
                raise Unfit(f"`{key}` stands here twice, in two spellings")
            if field not in cls._no_doubt or not is_to_find(value):
                found[field] = value
        return found

    @classmethod
    def __get_pydantic_core_schema__(cls, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Spells out what is written before pydantic reads it; a decorated validator costs more in every class."""
        return core_schema.no_info_before_validator_function(cls._read, handler(source))

    @classmethod
    def _read(cls, written: object) -> object:
        return written if isinstance(written, cls) else cls.long_form(written)

    @property
    def pointer(self) -> str:
        pointer: str = getattr(self, "_pointer", "")
        return pointer

    def stand_at(self, pointer: str) -> None:
        """Set the pointer, once, while the plan is read."""
        object.__setattr__(self, "_pointer", pointer)

    def pointer_to(self, field: str) -> str:
        """The pointer of a field: `pointer_to('made_of')` is `…/made of`."""
        return f"{self.pointer}/{fold(field)}"


T = TypeVar("T")


class Section(Mapping[str, T], Generic[T]):
    """A collection of a plan by name, in the plan's order; names compare as `fold` does.

    `left_out` is true where the plan has no such section, `none` where it says that there is none. `also` gives
    further names by which an item is found: further name → name.
    """

    def __init__(
        self,
        pointer: str,
        items: Mapping[str, T] | None = None,
        *,
        left_out: bool = False,
        also: Mapping[str, str] | None = None,
    ) -> None:
        self.pointer = pointer
        self.left_out = left_out
        self._items = dict(items or {})
        self._folded = {fold(other): name for other, name in (also or {}).items()}
        self._folded.update({fold(name): name for name in self._items})

    @property
    def none(self) -> bool:
        return not self.left_out and not self._items

    def written(self, name: str) -> str:
        """The name as the plan writes it; KeyError where it has none."""
        return self._folded[fold(name)]

    def __getitem__(self, name: str) -> T:
        return self._items[self._folded[fold(name)]]

    def __iter__(self) -> Iterator[str]:
        return iter(self._items)

    def __len__(self) -> int:
        return len(self._items)

    def items(self) -> ItemsView[str, T]:
        return self._items.items()

    def values(self) -> ValuesView[T]:
        return self._items.values()

    def __contains__(self, name: object) -> bool:
        return isinstance(name, str) and fold(name) in self._folded
