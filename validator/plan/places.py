"""Where the things of a plan stand: from a kind where the kind says it, American keys as they were written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from validator.plan.american import KEYS, THEIRS
from validator.plan.elements import is_to_find
from validator.plan.merging import Merged
from validator.plan.names import fold
from validator.plan.pointers import folded, join, split
from validator.plan.problems import Place

SAID_BY_EACH = frozenset(
    (
        *(
            "is",
            "hand",
            "width",
            "rest",
            "over",
            "corner",
            "left of",
            "right of",
            "in",
            "above",
            "behind",
            "wall",
            "along",
        ),
        *("on", "between", "joint", "joints", "past", "past end", "blind", "other side", "post"),
    )
)
"""What every thing of a kind says of itself: where it goes, and what only one of them has."""


class Places:
    """From a pointer of the typed plan to where its value was written."""

    def __init__(self, files: Merged) -> None:
        self._files = files
        self._kinds: dict[str, tuple[Iterable[str], Mapping[str, str], str]] = {}
        self._by_fold: dict[str, str] = {}
        self._names: dict[int, dict[str, str]] = {}  # by the identity of a mapping; the files keep them all

    def from_kind(self, pointer: str, own: Iterable[str], kind: Mapping[str, str], root: str = "") -> None:
        """Remember that the keys of the thing at `pointer` stand in its kind, except its own.

        `kind` gives the pointer of each, by its folded key; `root` is that of the kind which all like it build on.
        """
        self._kinds[pointer] = (own, kind, root)

    def written(self, pointer: str) -> str:
        """The pointer of the same value as the files have it."""
        return self._as_spelt(self._in_kind(pointer))

    def open_at(self, pointer: str) -> str | None:
        """The pointer of the `to find out` that leaves the value at `pointer` open, alone or with others, or None.

        `waste: to find out` leaves bore, length and fall open, a kind's height that of each of its uses.
        """
        node: Any = self._files.data
        segments = split(self.written(pointer))
        for at, segment in enumerate(segments):
            if isinstance(node, Mapping) and segment in node:
                node = node[segment]
            elif isinstance(node, list) and segment.isdecimal() and int(segment) < len(node):
                node = node[int(segment)]
            else:
                return None
            if is_to_find(node):
                return join("", *segments[: at + 1])
        return None

    def place(self, pointer: str) -> Place:
        return self._files.place(self.written(pointer))

    def heights_from(self, pointer: str) -> str:
        """What heights start from in the file where the value at `pointer` was written, or ''."""
        return self._files.heights_from(self._files.file_of(self.written(pointer)))

    def asked_at(self, pointer: str) -> str:
        """Where a value that nothing says is best said: once, in the kind that all things like it build on.

        What every thing says of itself (its width, its hand) is asked at the thing.
        """
        segments = split(pointer)
        if fold(segments[0]) == "kinds" and len(segments) > 2:
            if fold(segments[2]) in SAID_BY_EACH:
                return pointer
            return join("/kinds", self._root(segments[1]), *segments[2:])
        use, length = self._use(segments)
        if use is None or fold(segments[length]) in SAID_BY_EACH or self._in_kind(pointer) != pointer:
            return pointer
        own, _, root = self._kinds[use]
        return pointer if not root or fold(segments[length]) in map(fold, own) else join(root, *segments[length:])

    def _root(self, kind: str) -> str:
        """The kind that a kind builds on in the end."""
        kinds = next((value for name, value in self._files.data.items() if fold(name) == "kinds"), None)
        seen: list[str] = []
        while isinstance(kinds, Mapping) and kind not in seen:
            seen.append(kind)
            entries = next((value for name, value in kinds.items() if fold(name) == fold(kind)), None)
            if isinstance(entries, Mapping):
                kind = next((str(value) for name, value in entries.items() if fold(name) == "like"), kind)
        return kind

    def _use(self, segments: Sequence[str]) -> tuple[str | None, int]:
        """The thing of a kind that holds a value, and how many segments name it."""
        if len(self._by_fold) != len(self._kinds):
            self._by_fold = {folded(each): each for each in self._kinds}
        for length in range(len(segments) - 1, 0, -1):
            use = self._by_fold.get(folded(join("", *segments[:length])))
            if use is not None:
                return use, length
        return None, 0

    def _in_kind(self, pointer: str) -> str:
        segments = split(pointer)
        use, length = self._use(segments)
        if use is None:
            return pointer
        own, kind, _ = self._kinds[use]
        key = fold(segments[length])
        if key in kind and key not in map(fold, own):
            return join(kind[key], *segments[length + 1 :])
        return pointer

    def _names_in(self, node: Mapping[str, Any]) -> dict[str, str]:
        """The names of a mapping of the files by their folded form."""
        names = self._names.get(id(node))
        if names is None:
            names = self._names[id(node)] = {fold(name): name for name in node}
        return names

    def _as_asked(self, key: str) -> str:
        """A key that is not there yet as the plan's country writes it: an American plan is asked for `spaces`."""
        project = self._files.data.get("project")
        country = project.get("country") if isinstance(project, Mapping) else None
        return THEIRS.get(fold(key), key) if str(country).startswith("US") else key

    def _as_spelt(self, pointer: str) -> str:
        node: Any = self._files.data
        spelt = ""
        segments = split(pointer)
        for at, segment in enumerate(segments):
            if isinstance(node, Mapping):
                names = self._names_in(node)
                wanted = fold(segment)
                theirs = next((name for name, ours in KEYS.items() if ours == wanted and name in names), wanted)
                name = names.get(wanted, names.get(theirs))
                if name is None:
                    return join(spelt, *map(self._as_asked, segments[at:]))
                spelt, node = join(spelt, name), node[name]
            elif isinstance(node, list) and segment.isdecimal() and int(segment) < len(node):
                spelt, node = join(spelt, segment), node[int(segment)]
            else:
                return join(spelt, *segments[at:])
        return spelt
