"""Values, words and places as a reader of one plan sees them: in the plan's units and the words of its country."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import cached_property
from pathlib import PurePath

from validator.measures.rows import FieldType, Given, Known
from validator.measures.site import Site
from validator.plan.dimensions import LENGTH, NUMBER, Dimension
from validator.plan.elements import Section
from validator.plan.problems import Place
from validator.plan.showing import Units, show, show_pair

YES, NO = "yes", "no"


class Printer:
    """Shows values, texts and places of one plan."""

    def __init__(self, site: Site) -> None:
        self.plan = site.plan
        self._words = _of_country(site.library.words, site.country)
        project = site.plan.project
        self.units = Units(project.lengths_in or "mm", project.currency)

    def value(self, value: float | str | bool, type: FieldType | None, *, unit: bool = False) -> str:
        """A value as the plan would write it; lengths without their unit unless `unit`, as the plan does."""
        if isinstance(value, bool):
            return YES if value else NO
        if isinstance(value, str):
            return self.text(value)
        return show(value, type if isinstance(type, Dimension) else NUMBER, self.units, unit=unit)

    def ends(self, low: float, high: float, type: FieldType | None, *, unit: bool = False) -> str:
        """A range by both its ends, `3568 to 3571`; as one value where they look alike."""
        one, other = self.value(low, type, unit=unit), self.value(high, type, unit=unit)
        return one if one == other else f"{self.value(low, type)} to {other}"

    def given(self, value: Given, otherwise: str, type: FieldType = LENGTH, *, unit: bool = False) -> str:
        """What a measure found, with both ends of its range; `otherwise` where it is not known."""
        return self.ends(*value.ends, type, unit=unit) if isinstance(value, Known) else otherwise

    def pair(self, have: float, need: float, dimension: Dimension, *, unit: bool = False) -> tuple[str, str]:
        """Two values side by side, with as many decimals as it takes to tell them apart."""
        return show_pair(have, need, dimension, self.units, unit=unit)

    def text(self, text: str) -> str:
        """A text of ours in the words of the plan's country; names of the plan are not passed through here."""
        if not self._words:
            return text
        return self._pattern.sub(lambda found: _like(found.group(), self._words.get(found.group().lower(), "")), text)

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        """Our words, and theirs: a range hood is no hood to be called a range hood once more."""
        longest_first = sorted({*self._words, *map(str.lower, self._words.values())}, key=len, reverse=True)
        return re.compile(r"\b(?:" + "|".join(map(re.escape, longest_first)) + r")\b", re.IGNORECASE)

    def may_be_none(self, section: str) -> bool:
        """Whether a plan can say that there is nothing of a section: `circuits: none`."""
        name = section.rpartition(" / ")[2].replace(" ", "_")
        room = next(iter(self.plan.rooms.values()))
        return isinstance(getattr(self.plan, name, getattr(room, name, None)), Section)

    def place(self, pointer: str) -> Place:
        return self.plan.place(pointer)

    def line(self, place: Place) -> str:
        """`layout 57`, or `line 57` where the plan is one file; of what it does not have yet nothing, or which file."""
        if not place.line:
            return PurePath(place.file).stem if len(self.plan.files) > 1 else ""
        if len(self.plan.files) > 1:
            return f"{PurePath(place.file).stem} {place.line}"
        return f"line {place.line}"

    def lines(self, pointers: Iterable[str], most: int = 3) -> str:
        """Where several pointers stand, each line once: `layout 57, kinds 16`."""
        shown: dict[tuple[str, int], str] = {}
        for pointer in pointers:
            place = self.place(pointer)
            shown.setdefault((place.file, place.line), self.line(place))
        texts = list(shown.values())[:most]
        if len(texts) > 1 and all(text.startswith("line ") for text in texts):
            return "lines " + ", ".join(text.removeprefix("line ") for text in texts)
        return ", ".join(texts)


def _of_country(words: Mapping[str, Mapping[str, str]], country: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for prefix, of_prefix in sorted(words.items(), key=lambda item: len(item[0])):
        if country == prefix or country.startswith(prefix + "-"):
            found.update({ours.lower(): theirs for ours, theirs in of_prefix.items()})
    return found


def _like(found: str, replacement: str) -> str:
    """The replacement with a capital where the text has one; what has none stays as it is."""
    if not replacement:
        return found
    return replacement[:1].upper() + replacement[1:] if found[:1].isupper() else replacement
