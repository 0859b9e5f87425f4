"""Kinds, said once and used many times: what a `door` or a `double socket` is, with what it inherits by `like`."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, NamedTuple

from validator.plan.american import WORDS
from validator.plan.choices import shown_text
from validator.plan.elements import Element, LongForm, Unfit
from validator.plan.lines import is_number
from validator.plan.names import fold, nearest
from validator.plan.order import BUILT_IN, POINTS, WORDS_OF_A_LINE
from validator.plan.pointers import join, split
from validator.plan.reader import Reader, pointer_of

_FILLED_IN: dict[str, object] = {"is_": "kind", "family": "unit", "on": "run"}
"""What each use says for itself, so that a kind can be read as if it were used."""


class Inherited(NamedTuple):
    """What a kind gives to each of its uses: values by field, and by folded key the pointer where each stands.

    `root` is the pointer of the kind that it builds on in the end, '' for one that is not declared.
    """

    values: Mapping[str, object] = MappingProxyType({})
    stands: Mapping[str, str] = MappingProxyType({})
    root: str = ""

    def over(self, below: Inherited) -> Inherited:
        """This kind's own values over those of the kind it is like."""
        return Inherited({**below.values, **self.values}, {**below.stands, **self.stands}, below.root or self.root)


class Kinds:
    """The kinds of a plan. Each is read once for every model it is used for; `names` and `points` are folded."""

    def __init__(self, written: Mapping[str, Any], reader: Reader) -> None:
        self._reader = reader
        self._written: dict[str, dict[str, Any]] = {}
        self._called: dict[str, str] = {}
        for name, entries in written.items():
            self._check_name(name)
            if isinstance(entries, dict):
                self._written[fold(name)] = entries
            else:
                reader.problem(join("/kinds", name), f"the kind `{name}` says nothing", "`key: value` lines, or braces")
                self._written[fold(name)] = {}
            self._called[fold(name)] = name
        self._aliases = {ours: theirs for theirs, ours in WORDS.items() if theirs in self._written}
        self.names = frozenset(self._written) | frozenset(BUILT_IN) | frozenset(self._aliases)
        self.points = self.names | frozenset(POINTS)
        self._like = self._likes()
        self._read: dict[tuple[str, type[Element]], Inherited] = {}
        self._inherited: dict[tuple[str, type[Element]], Inherited] = {}

    def called(self, kind: str, *, point: bool = False) -> str:
        """The kind as it is declared; KeyError for one that is neither declared nor built in (`point`: for a point)."""
        key = self._key(kind)
        if key in self._called:
            return self._called[key]
        if key in BUILT_IN or (point and key in POINTS):
            return key
        raise KeyError(kind)

    def nearest(self, kind: str) -> str:
        return nearest(kind, [*self._called.values(), *BUILT_IN]) or ""

    def family(self, kind: str) -> str:
        """Which of the built-in words the kind is like in the end, else `unit`."""
        return next((key for key in self._line(self._key(kind)) if key in BUILT_IN), "unit")

    def inherited(self, kind: str, model: type[Element]) -> Inherited:
        """What a use of the kind takes from it, and from the kinds it is like. Mistakes are noted once, at the kind."""
        key = self._key(kind)
        found = self._inherited.get((key, model))
        if found is None:
            found = Inherited()
            for ancestor in reversed(self._line(key)):
                known = self._inherited.get((ancestor, model))
                found = known or self._own(ancestor, model).over(found)
                self._inherited[ancestor, model] = found
        return found

    def check_unused(self, models: Callable[[], tuple[type[Element], ...]]) -> None:
        """Read the kinds that nothing uses as what their keys fit best, so that their mistakes are noted too."""
        used = {key for key, _ in self._read}
        for key, entries in self._written.items():
            if key not in used:
                choices = models()
                fits = [sum(model.field_of(name) in model.model_fields for name in entries) for model in choices]
                self.inherited(key, choices[fits.index(max(fits))])

    def _key(self, kind: str) -> str:
        folded = fold(kind)
        return folded if folded in self._written else fold(self._aliases.get(folded, folded))

    def _line(self, key: str) -> list[str]:
        """The kind, the kind it is like, and so on."""
        found = [key]
        while (like := self._like.get(found[-1])) is not None:
            found.append(like)
        return found

    def _check_name(self, name: str) -> None:
        words = fold(name).split()
        pointer = join("/kinds", name)
        taken = [word for word in WORDS_OF_A_LINE if word in words]
        if taken:
            self._reader.problem(
                pointer, f"`{name}` cannot name a kind: `{taken[0]}` has a meaning of its own in a line", "another name"
            )
        elif words and (is_number(words[-1]) or is_number(words[0])):
            end = "ends in" if is_number(words[-1]) else "starts with"
            self._reader.problem(
                pointer,
                f"`{name}` cannot name a kind: it {end} a number, which a line would read as a width",
                "another name",
            )

    def _likes(self) -> dict[str, str]:
        """Which kind each is like, without those that lead nowhere or round in a circle."""
        likes: dict[str, str] = {}
        for key, entries in self._written.items():
            like = next((value for name, value in entries.items() if fold(name) == "like"), None)
            if like is None:
                continue
            if isinstance(like, str) and self._key(like) in (*self._written, *BUILT_IN):
                likes[key] = self._key(like)
            else:
                self._reader.problem(
                    join("/kinds", self._called[key], "like"),
                    f"`{shown_text(like)}` is no kind of this plan",
                    "the name of a kind",
                    self.nearest(str(like)),
                )
        ends: set[str] = set()  # kinds that lead to an end, and so into no circle
        for key in list(likes):
            path = {key: None}
            last = key
            while (like := likes.get(last)) is not None and like not in path and like not in ends:
                path[like] = None
                last = like
            if like is None or like in ends:
                ends.update(path)
            elif like == key:
                circle = [self._called.get(name, name) for name in (*path, key)]
                self._reader.problem(
                    join("/kinds", circle[0], "like"),
                    f"kinds are like one another in a circle: {' → '.join(circle)}",
                    also=[join("/kinds", name, "like") for name in circle[1:-1]],
                )
                for name in path:
                    del likes[name]
        return likes

    def _own(self, key: str, model: type[Element]) -> Inherited:
        """What the kind itself says, as values of the model's fields; what cannot be read is noted and left out."""
        if key not in self._written:
            return Inherited()
        found = self._read.get((key, model))
        if found is None:
            found = self._read[key, model] = self._read_own(key, model)
        return found

    def _read_own(self, key: str, model: type[Element]) -> Inherited:
        called = self._called[key]
        place = join("/kinds", called)
        entries = {name: value for name, value in self._written[key].items() if fold(name) not in ("like", "note")}
        try:
            form = model.long_form(self._reader.by_hand(model, entries, place))
        except Unfit as error:
            self._reader.unfit(place, error)
            return Inherited()
        spelt = {model.field_of(name): name for name in entries}
        if "is_" in form:
            self._reader.problem(
                join(place, spelt["is_"]), f"the kind `{called}` says what it is", "`like: KIND`", "like"
            )
            del form["is_"]

        def fault_at(loc: tuple[int | str, ...]) -> str:
            return join(join(place, spelt.get(str(loc[0]), str(loc[0]))), *split(pointer_of(model, "", loc))[1:])

        filled_in = {name: value for name, value in _FILLED_IN.items() if name in model.model_fields}
        read = self._reader.checked(model, LongForm({**filled_in, **form}), fault_at)
        readable = read.model_fields_set if read is not None else frozenset()
        values = {name: getattr(read, name) for name in form if name in readable}
        return Inherited(values, {fold(name): join(place, written) for name, written in spelt.items()}, place)
