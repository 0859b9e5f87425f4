"""Places that depend on themselves: W1 over B1, which is left of W1. Each circle is shown once, from its first step."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from validator.plan.elements import Element
from validator.plan.names import fold
from validator.plan.reader import Reader

if TYPE_CHECKING:
    from validator.plan.plan import Plan
    from validator.plan.sections.furniture import Item, Run

_RELATIONS = {
    "over": "over",
    "in_": "in",
    "behind": "behind",
    "above": "above",
    "left_of": "left of",
    "right_of": "right of",
}


class _Thing(NamedTuple):
    """What has a place: a run, a thing in a run, an appliance, a point, or the height of a run (`sort`)."""

    sort: str
    name: str
    run: str = ""


class _Step(NamedTuple):
    """One thing's place follows from another's; `said` is how the plan says it, `pointer` where."""

    said: str
    to: _Thing
    pointer: str


class Circles:
    """Finds the circles among the places and heights of a plan."""

    def __init__(self, plan: Plan, reader: Reader) -> None:
        self._plan = plan
        self._reader = reader
        self._steps: dict[_Thing, list[_Step]] = {}
        for name, run in plan.runs.items():
            self._run(name, run)
        for name, appliance in plan.appliances.items():
            thing = _Thing("appliance", fold(name))
            self._relate(thing, appliance, "in_", "item")
            self._relate(thing, appliance, "over", "appliance", "item")
        for name, point in plan.points.items():
            thing = _Thing("point", fold(name))
            for field in ("over", "in_", "behind", "above"):
                self._relate(thing, point, field, "item", "appliance")
            for field in ("left_of", "right_of"):
                self._relate(thing, point, field, "point")

    def check(self) -> None:
        """Note every circle once."""
        done: set[_Thing] = set()
        for start in self._steps:
            path: list[tuple[_Thing, int]] = [(start, 0)]
            on_path = {start: 0}
            while path:
                thing, at = path.pop()
                steps = self._steps.get(thing, ())
                if thing in done or at == len(steps):
                    done.add(thing)
                    on_path.pop(thing, None)
                    continue
                path.append((thing, at + 1))
                following = steps[at].to
                if following in on_path:
                    self._note(
                        [self._steps[other][tried - 1] for other, tried in path[on_path[following] :]], following
                    )
                elif following not in done:
                    on_path[following] = len(path)
                    path.append((following, 0))

    def _note(self, steps: list[_Step], start: _Thing) -> None:
        first = next(at for at, step in enumerate(steps) if step.pointer)
        things = [start, *(step.to for step in steps)]
        turned = [(things[at % len(steps)], steps[at % len(steps)]) for at in range(first, first + len(steps))]
        shown = ", ".join(f"{self._called(thing)} {step.said} {self._called(step.to)}" for thing, step in turned)
        what = "height" if start.sort == "height" else "place"
        pointers = [step.pointer for _, step in turned if step.pointer]
        self._reader.problem(
            pointers[0],
            f"the {what} of {self._called(turned[0][0])} depends on itself: {shown}",
            f"one of them with a {what} of its own",
            also=pointers[1:],
        )

    def _run(self, name: str, run: Run) -> None:
        thing = _Thing("run", fold(name))
        steps = self._steps.setdefault(thing, [])
        if run.from_ is not None and run.from_.fronts_of:
            other = _Thing("run", fold(run.from_.fronts_of))
            steps.append(_Step("starts at the fronts of", other, run.pointer_to("from_")))
        if isinstance(run.tops, str):
            found = self._plan.unit(run.tops)
            if found is not None:
                height = _Step("is level with one in", _Thing("height", fold(found[0])), run.pointer_to("tops"))
                self._steps.setdefault(_Thing("height", fold(name)), []).append(height)
        before = _Step("starts", thing, "")
        for called, item in run.order.items():
            at = _Thing("item", fold(called), fold(name))
            if not self._anchored(at, item) and item.corner is None:
                self._steps.setdefault(at, []).append(before)
            before = _Step("follows", at, "")

    def _anchored(self, thing: _Thing, item: Item) -> bool:
        """Whether a thing in a run says where it stands, so that it does not simply follow the one before."""
        if item.over is None and item.left_of is None and item.right_of is None:
            return False
        self._relate(thing, item, "over", "item", "appliance")
        self._relate(thing, item, "left_of", "item")
        self._relate(thing, item, "right_of", "item")
        return True

    def _relate(self, thing: _Thing, element: Element, field: str, *sorts: str) -> None:
        name: str | None = getattr(element, field)
        to = None if name is None else next(filter(None, (self._find(sort, name) for sort in sorts)), None)
        if to is not None:
            self._steps.setdefault(thing, []).append(_Step(_RELATIONS[field], to, element.pointer_to(field)))

    def _find(self, sort: str, name: str) -> _Thing | None:
        if sort == "item":
            unit = self._plan.unit(name)
            return None if unit is None else _Thing("item", fold(unit[1]), fold(unit[0]))
        section = self._plan.appliances if sort == "appliance" else self._plan.points
        return _Thing(sort, fold(name)) if name in section else None

    def _called(self, thing: _Thing) -> str:
        """The thing's name as the plan writes it."""
        if thing.sort == "item":
            order = self._plan.runs[thing.run].order
            return next(name for name in order if fold(name) == thing.name)
        if thing.sort == "appliance":
            return self._plan.appliances.written(thing.name)
        return (self._plan.points if thing.sort == "point" else self._plan.runs).written(thing.name)
