"""Things that are of a kind: what stands in the runs, points, worktops; each with what it inherits."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from validator.plan.elements import Element, LongForm, Unfit
from validator.plan.kinds import Inherited, Kinds
from validator.plan.names import fold
from validator.plan.order import item_line, point_line
from validator.plan.pointers import join
from validator.plan.reader import Reader

if TYPE_CHECKING:
    from validator.plan.sections.furniture import Item, Run, Worktop
    from validator.plan.sections.services import Point

E = TypeVar("E", bound=Element)

_NOTHING: dict[str, object] = {}


class Uses:
    """Reads what is of a kind; everything that cannot be read is noted in the reader."""

    def __init__(self, kinds: Kinds, reader: Reader) -> None:
        self._kinds = kinds
        self._reader = reader

    def run(self, written: object, pointer: str) -> Run | None:
        """A run with everything that stands in it."""
        from validator.plan.sections.furniture import Run

        form = self._form(Run, written, pointer)
        if form is None:
            return None
        order = form.get("order")
        if isinstance(order, str) and fold(order) == "none":
            order = {}
        if isinstance(order, dict):
            items = {name: self._item(entry, join(pointer, "order", name)) for name, entry in order.items()}
            form["order"] = {name: item for name, item in items.items() if item is not None}
        return self._reader.element(Run, form, pointer)

    def point(self, written: object, pointer: str) -> Point | None:
        """A point on a wall, in one line or written out."""
        from validator.plan.sections.services import Point

        if isinstance(written, str):
            try:
                written = point_line(written, self._kinds.points)
            except Unfit as error:
                self._reader.unfit(pointer, error)
                return None
        form = self._form(Point, written, pointer)
        return None if form is None else self._used(Point, form, pointer)

    def worktop(self, written: object, pointer: str) -> Worktop | None:
        """A worktop; one that does not say its kind is a `worktop`, whether or not that is declared."""
        from validator.plan.sections.furniture import Worktop

        form = self._form(Worktop, written, pointer)
        if form is None:
            return None
        if "is_" not in form and "worktop" not in self._kinds.names:
            return self._reader.element(Worktop, form, pointer)
        form.setdefault("is_", "worktop")
        return self._used(Worktop, form, pointer)

    def _item(self, written: object, pointer: str) -> Item | None:
        from validator.plan.sections.furniture import Item

        if isinstance(written, str):
            try:
                written = item_line(written, self._kinds.names)
            except Unfit as error:
                self._reader.unfit(pointer, error)
                return None
        form = self._form(Item, written, pointer)
        if form is None:
            return None
        if isinstance(form.get("width"), str) and fold(str(form["width"])) == "rest":
            form.update(width=None, rest=True)
        elif "width" in form and "rest" in form:
            self._reader.problem(pointer, "a width is given, and `rest` as well", "one of the two")
        elif "width" in form:
            form["rest"] = False
        elif "rest" in form:
            form["width"] = None
        return self._used(Item, form, pointer, {"family": self._kinds.family(str(form.get("is_", "")))})

    def _used(self, model: type[E], form: LongForm, pointer: str, worked_out: dict[str, object] = _NOTHING) -> E | None:
        """A use of a kind: what it says itself over what the kind gives."""
        kind = form.get("is_")
        inherited: Inherited | None = None
        if isinstance(kind, str):
            try:
                form["is_"] = self._kinds.called(kind, point="plate" in model.model_fields)
            except KeyError:
                self._reader.problem(
                    join(pointer, "is"), f"`{kind}` is no kind of this plan", "a kind", self._kinds.nearest(kind)
                )
                return None
            inherited = self._kinds.inherited(kind, model)
            self._reader.places.from_kind(pointer, form, inherited.stands, inherited.root)
        element = self._reader.element(model, LongForm(form | worked_out), pointer)
        if element is None or inherited is None:
            return element
        given = {
            name: value.model_copy() if isinstance(value, Element) else value
            for name, value in inherited.values.items()
            if name not in form
        }
        return element.model_copy(update=given)

    def _form(self, model: type[Element], written: object, pointer: str) -> LongForm | None:
        """The long form of what is written by hand, or None with its problem noted."""
        if isinstance(written, dict) and not isinstance(written, LongForm):
            written = self._reader.by_hand(model, written, pointer)
        try:
            return model.long_form(written)
        except Unfit as error:
            self._reader.unfit(pointer, error)
            return None
