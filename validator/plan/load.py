"""From what the files of a plan say to the typed plan, or everything that is wrong with it at once.

Models are imported section by section, only where the plan has one.
"""

from __future__ import annotations

import functools
import importlib
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, TypeVar, get_args

from validator.plan.american import KEYS
from validator.plan.choices import shown_text
from validator.plan.elements import Element, Section, Unfit, entry
from validator.plan.fields import Height
from validator.plan.kinds import Kinds
from validator.plan.merging import KEYS_OF_FILES, Merged
from validator.plan.names import fold, nearest
from validator.plan.places import Places
from validator.plan.plan import Plan
from validator.plan.pointers import join
from validator.plan.problems import Unreadable
from validator.plan.quantities import BadQuantity, parse_any
from validator.plan.reader import Reader
from validator.plan.references import Names, References
from validator.plan.room_reading import RoomReading
from validator.plan.rooms import together
from validator.plan.sections.project import Project
from validator.plan.uses import Uses
from validator.plan.values import Quantity, ToFind

if TYPE_CHECKING:
    from validator.plan.papers import PapersOfAPlan
    from validator.plan.sections.appliances import Appliance, Papers
    from validator.plan.sections.project import Agreed
    from validator.plan.sections.room import Layer
    from validator.plan.sections.work import Work

E = TypeVar("E", bound=Element)
T = TypeVar("T")

SECTIONS = (
    "project",
    "survey",
    "layers",
    "ceiling",
    "walls",
    "corners",
    "diagonals",
    "boxings",
    "openings",
    "way in",
    "floor",
    "floors",
    "rooms",
    "kinds",
    "stated",
    "runs",
    "worktops",
    "boards",
    "appliances",
    "points",
    "circuits",
    "gas",
    "lights",
    "household",
    "fixings",
    "drill",
    "routes",
    "chases",
    "screws",
    "adhesives",
    "coatings",
    "work",
    "people",
    "deliveries",
    "money",
    "papers",
    "built",
    "agreed",
    "own",
    "requirements",
)
"""Every section a plan may have."""

_LENGTH_UNITS = ("mm", "cm", "m", "in", "ft")


def load(merged: Merged) -> Plan:
    """The typed plan. Raises Unreadable with every problem of every section."""
    return _Loading(merged).plan()


class _Loading:
    """One plan while it is read."""

    def __init__(self, merged: Merged) -> None:
        self._merged = merged
        self._places = Places(merged)
        self._reader = Reader(self._places, {})
        self._data = self._sections(merged.data)
        self._names = Names(self._data)
        self._reader.context = {"lengths in": self._lengths_in(), "names": self._names.known}
        self._no_datum: list[tuple[str, str]] = []

    def plan(self) -> Plan:
        reader = self._reader
        kinds = Kinds(self._entries("kinds"), reader)
        uses = Uses(kinds, reader)
        rooms = RoomReading(self._data, self._names.rooms, reader, self._element, self._by_name).rooms()
        plan = Plan(
            digest=self._merged.digest,
            files=tuple(self._merged.files),
            places=self._places,
            project=self._single("project", "project", "Project") or Project(),
            survey=self._single("survey", "survey", "Survey"),
            layers=self._collection("layers", self._layers),
            rooms={room.name: room for room in rooms},
            walls=together("/walls", [(room.name, room.walls) for room in rooms]),
            openings=together("/openings", [(room.name, room.openings) for room in rooms]),
            way_in=self._elements("way in", "openings", "Passage"),
            runs=self._collection("runs", lambda name, written, at: self._set(uses.run(written, at), at)),
            worktops=self._collection("worktops", lambda name, written, at: self._set(uses.worktop(written, at), at)),
            boards=self._single("boards", "furniture", "Boards"),
            appliances=self._collection("appliances", self._appliance),
            stated=self._collection("stated", self._papers),
            points=self._collection("points", lambda name, written, at: self._set(uses.point(written, at), at)),
            circuits=self._elements("circuits", "services", "Circuit"),
            gas=self._single("gas", "supplies", "GasPipe"),
            lights=self._elements("lights", "supplies", "Light"),
            household=self._elements("household", "household", "Member"),
            fixings=self._elements("fixings", "work", "Fixing"),
            drill=self._elements("drill", "drilling", "DrillHole"),
            routes=self._elements("routes", "drilling", "Route"),
            chases=self._elements("chases", "drilling", "Chase"),
            screws=self._elements("screws", "joinery", "Screws"),
            adhesives=self._elements("adhesives", "joinery", "Glue"),
            coatings=self._elements("coatings", "work", "Coating"),
            work=self._work(),
            people=self._elements("people", "work", "Person"),
            deliveries=self._elements("deliveries", "money", "Delivery"),
            money=self._single("money", "money", "Budget"),
            papers=self._elements("papers", "money", "Paper"),
            built=self._elements("built", "record", "Built"),
            agreed=self._agreed(),
            own=self._collection("own", self._own),
            requirements=self._requirements(),
        )
        kinds.check_unused(
            lambda: (_model("furniture", "Item"), _model("services", "Point"), _model("furniture", "Worktop"))
        )
        self._check_heights()
        References(plan, self._names, reader).check()
        if reader.problems:
            raise Unreadable(reader.problems)
        return plan

    def _lengths_in(self) -> str | None:
        """The unit of bare numbers; a unit nobody knows is noted with the project, and not again at every number."""
        said = entry(self._data.get("project"), "lengths in")
        if said is None:
            return None
        return fold(str(said)) if fold(str(said)) in _LENGTH_UNITS else "mm"

    def _sections(self, data: Mapping[str, Any]) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key, written in data.items():
            section = KEYS.get(fold(key), fold(key))
            if section in found:
                self._reader.problem(join("", key), f"`{key}` and `{section}` are one section", "one of the two")
            elif section in SECTIONS:
                found[section] = written
            else:
                meant = nearest(key, (*SECTIONS, *KEYS_OF_FILES)) or ""
                self._reader.problem(join("", key), f"a plan has no section `{key}`", ", ".join(SECTIONS), meant)
        return found

    def _entries(self, section: str) -> dict[str, Any]:
        if section not in self._data:
            return {}
        return self._reader.mapping(self._data[section], join("", section), f"`{section}`") or {}

    def _collection(self, section: str, read: Callable[[str, Any, str], T | None]) -> Section[T]:
        """A section by name; what cannot be read is left out, since its problems are noted."""
        pointer = join("", section)
        if section not in self._data:
            return Section(pointer, left_out=True)
        return self._by_name(self._data[section], pointer, section, read)

    def _by_name(
        self, written: object, pointer: str, what: str, read: Callable[[str, Any, str], T | None]
    ) -> Section[T]:
        entries = self._reader.mapping(written, pointer, f"`{what}`") or {}
        found = {name: read(name, each, join(pointer, name)) for name, each in entries.items()}
        return Section(pointer, {name: value for name, value in found.items() if value is not None})

    def _elements(self, section: str, module: str, model: str) -> Section[Any]:
        if section not in self._data:
            return Section(join("", section), left_out=True)
        kind = _model(module, model)
        return self._collection(section, lambda name, written, at: self._element(kind, written, at))

    def _single(self, section: str, module: str, model: str) -> Any:
        if section not in self._data:
            return None
        return self._element(_model(module, model), self._data[section], join("", section))

    def _element(self, model: type[E], written: object, pointer: str) -> E | None:
        return self._set(self._reader.element(model, written, pointer), pointer)

    def _set(self, element: E | None, pointer: str) -> E | None:
        """Give an element and everything below it their pointers, and keep the heights that say no datum."""
        if element is None:
            return None
        element.stand_at(pointer)
        for field in _reaching_down(type(element)):
            value = element.__dict__[field]
            if isinstance(value, Element):
                self._set(value, element.pointer_to(field))
            elif isinstance(value, Height):
                if value.datum == "" and isinstance(value.amount, Quantity):
                    self._no_datum.append((element.pointer_to(field), value.amount.text))
            elif isinstance(value, dict | tuple):
                below = pointer if field in element.worked_out else element.pointer_to(field)
                members = value.items() if isinstance(value, dict) else enumerate(value)
                for key, member in members:
                    if isinstance(member, Element):
                        self._set(member, join(below, key))
        return element

    def _work(self) -> Work | None:
        if "work" not in self._data:
            return None
        from validator.plan.sections.work import Task, Work

        try:
            form = Work.long_form(self._data["work"])
        except Unfit as error:
            self._reader.unfit("/work", error)
            return None
        written = form.pop("tasks")
        tasks = {
            name: self._reader.element(Task, task, join("/work", name))
            for name, task in (written.items() if isinstance(written, dict) else ())
        }
        form["tasks"] = {name: task for name, task in tasks.items() if task is not None}
        return self._element(Work, form, "/work")

    def _layers(self, name: str, written: Any, pointer: str) -> tuple[Layer, ...] | None:
        from validator.plan.sections.room import Layer

        if not isinstance(written, list):
            layer = self._element(Layer, written, pointer)
            return None if layer is None else (layer,)
        layers = [self._element(Layer, each, join(pointer, at)) for at, each in enumerate(written)]
        return tuple(layer for layer in layers if layer is not None)

    def _appliance(self, name: str, written: Any, pointer: str) -> Appliance | None:
        from validator.plan.sections.appliances import Appliance, kind_named

        if isinstance(written, dict) and entry(written, "is") is None:
            kind = kind_named(name)
            written = {**written, "is": kind} if kind else written
        return self._element(Appliance, written, pointer)

    @functools.cached_property
    def _papers_of_plan(self) -> PapersOfAPlan:
        from validator.plan.papers import PapersOfAPlan

        return PapersOfAPlan(self._data)

    def _papers(self, name: str, written: Any, pointer: str) -> Papers | None:
        papers = self._papers_of_plan
        model = papers.model(name)
        if model is None:
            self._reader.problem(
                pointer,
                f"nothing in this plan is called `{name}`, so that nobody knows what its maker states",
                "an appliance, a fixing or its plug, a floor, or a coating",
                nearest(name, papers.choices) or "",
            )
            return None
        return self._element(model, written, pointer)

    def _agreed(self) -> tuple[Agreed, ...]:
        from validator.plan.sections.project import Agreed

        found: list[Agreed | None] = []
        for rule, written in self._entries("agreed").items():
            pointer = join("/agreed", rule)
            several = isinstance(written, list)
            for at, each in enumerate(written if several else [written]):
                here = join(pointer, at) if several else pointer
                if isinstance(each, dict):
                    each = {**self._reader.by_hand(Agreed, each, here), "rule": rule}
                found.append(self._element(Agreed, each, here))
        return tuple(agreed for agreed in found if agreed is not None)

    def _own(self, name: str, written: Any, pointer: str) -> Quantity | ToFind | None:
        if not isinstance(written, str):
            self._reader.problem(pointer, f"`{shown_text(written)}` cannot stand here", "one quantity")
            return None
        try:
            return parse_any(written, self._reader.context["lengths in"])
        except BadQuantity as error:
            self._reader.unfit(pointer, error)
            return None

    def _requirements(self) -> Mapping[str, object]:
        entries = self._entries("requirements")
        for name, written in entries.items():
            if not isinstance(written, dict):
                self._reader.problem(
                    join("/requirements", name),
                    f"the requirement `{name}` says nothing",
                    "`each: …`, `figure: …` and a limit, as a rule has them",
                )
        return entries

    def _check_heights(self) -> None:
        if all(map(self._merged.heights_from, self._merged.files)):
            return
        for pointer, text in self._no_datum:
            if not self._places.heights_from(pointer):
                self._reader.problem(
                    pointer,
                    f"`{text}` does not say from where it is measured",
                    f"`{text} from bare floor`, or `heights from: bare floor` at the top of the file",
                )


@functools.cache
def _reaching_down(model: type[Element]) -> tuple[str, ...]:
    """The fields of a model that may hold elements or heights."""
    return tuple(name for name, field in model.model_fields.items() if _holds(field.annotation))


def _holds(annotation: object) -> bool:
    if isinstance(annotation, type) and issubclass(annotation, Element | Height):
        return True
    return any(map(_holds, get_args(annotation)))


def _model(module: str, name: str) -> Any:
    return getattr(importlib.import_module(f"validator.plan.sections.{module}"), name)
