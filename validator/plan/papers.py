"""Which makers' papers belong to a name: what it is in the plan decides what its maker can state."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from validator.plan.american import WORDS
from validator.plan.elements import entry, is_to_find
from validator.plan.lines import product_and_water, words_and_quantity
from validator.plan.names import fold
from validator.plan.sections.appliances import (
    AppliancePapers,
    FloorPapers,
    HobPapers,
    HoodPapers,
    PaintPapers,
    Papers,
    PlugPapers,
    WorktopPapers,
    kind_named,
)


class PapersOfAPlan:
    """The makers' papers that the things of a plan may have; `choices` are the names that may have some."""

    def __init__(self, sections: Mapping[str, Any]) -> None:
        self.choices: list[str] = []
        self._models: dict[str, type[Papers]] = {}
        for name, model in _all(sections):
            self.choices.append(name)
            self._models.setdefault(fold(name), model)
        self._any_appliance = "appliances" not in sections

    def model(self, name: str) -> type[Papers] | None:
        """The model of the papers for a name, from what the plan says it is; None where it is nothing in the plan."""
        found = self._models.get(fold(name))
        if found is None and self._any_appliance and (kind_named(name) or _is_hob(name)):
            return _for_appliance(name)
        return found


def _all(sections: Mapping[str, Any]) -> Iterator[tuple[str, type[Papers]]]:
    for name, written in _of(sections, "appliances"):
        kind = entry(written, "is")
        yield name, _for_appliance(kind if isinstance(kind, str) and not is_to_find(kind) else name)
    rooms = [room for _, room in _of(sections, "rooms")]
    for room in (sections, *(room for room in rooms if isinstance(room, dict))):
        for name in _mapping(entry(room, "floors")):
            yield name, FloorPapers
    for name, _ in _of(sections, "worktops"):
        yield name, WorktopPapers
    for name, written in _of(sections, "fixings"):
        yield name, PlugPapers
        plug = entry(written, "plug")
        type = words_and_quantity(plug)[0] if isinstance(plug, str) else entry(plug, "type")
        if isinstance(type, str) and type:
            yield type, PlugPapers
    for name, written in _of(sections, "coatings"):
        yield name, PaintPapers
        coats = entry(written, "coats")
        for coat in coats if isinstance(coats, list) else ():
            product = product_and_water(coat)[0] if isinstance(coat, str) else entry(coat, "product")
            if isinstance(product, str) and product:
                yield product, PaintPapers


def _of(sections: Mapping[str, Any], section: str) -> Iterator[tuple[str, Any]]:
    yield from _mapping(sections.get(section)).items()


def _mapping(written: object) -> Mapping[str, Any]:
    return written if isinstance(written, dict) else {}


def _for_appliance(kind: str) -> type[Papers]:
    if _is_hob(kind):
        return HobPapers
    return HoodPapers if _last_word(kind) == "hood" else AppliancePapers


def _is_hob(kind: str) -> bool:
    return _last_word(kind) in ("hob", "cooker")


def _last_word(kind: str) -> str:
    """What a kind is, in our own word: `gas cooktop` is a `hob`."""
    return WORDS.get(fold(kind), fold(kind)).rpartition(" ")[2]
