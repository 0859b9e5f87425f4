"""Where the things of a plan stand: from a kind where the kind says it, American keys as they were written."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from validator.plan.american import KEYS
from validator.plan.elements import is_to_find
from validator.plan.merging import Merged
from validator.plan.names import fold
from validator.plan.pointers import folded, join, split
from validator.plan.problems import Place


class Places:
    """From a pointer of the typed plan to where its value was written."""

    def __init__(self, files: Merged) -> None:
        self._files = files
        self._kinds: dict[str, tuple[Iterable[str], Mapping[str, str]]] = {}
        self._by_fold: dict[str, str] = {}
        self._names: dict[int, dict[str, str]] = {}  # by the identity of a mapping; the files keep them all

    def from_kind(self, pointer: str, own: Iterable[str], kind: Mapping[str, str]) -> None:
        """Remember that the keys of the thing at `pointer` stand in its kind, except its own.

        `kind` gives the pointer of each, by its folded key.
        """
        self._kinds[pointer] = (own, kind)

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

    def _in_kind(self, pointer: str) -> str:
        if len(self._by_fold) != len(self._kinds):
            self._by_fold = {folded(each): each for each in self._kinds}
        segments = split(pointer)
        for length in range(len(segments) - 1, 0, -1):
            use = self._by_fold.get(folded(join("", *segments[:length])))
            if use is None:
                continue
            own, kind = self._kinds[use]
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
                    return join(spelt, *segments[at:])
                spelt, node = join(spelt, name), node[name]
            elif isinstance(node, list) and segment.isdecimal() and int(segment) < len(node):
                spelt, node = join(spelt, segment), node[int(segment)]
            else:
                return join(spelt, *segments[at:])
        return spelt
