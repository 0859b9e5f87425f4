"""Which value of a plan somebody means: by its pointer, or in the words people say (`hood up`, `sink run B1 width`)."""

from __future__ import annotations

import difflib
import unicodedata
from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from validator.plan.american import KEYS
from validator.plan.documents import Document
from validator.plan.elements import Unfit
from validator.plan.names import fold, nearest
from validator.plan.pointers import join, split

MOST_SHOWN = 8


class Target(NamedTuple):
    """A value of a plan: the file that holds it, and its pointer as spelt there. It may not be there yet."""

    document: Document
    pointer: str
    there: bool


class InOneLine(Unfit):
    """Something below a thing that is written in one line: `pointer` is the thing's, `line` what stands there."""

    def __init__(self, document: Document, pointer: str, line: str, key: str) -> None:
        super().__init__(f"`{pointer}` is written in one line, `{line}`, and has no place for `{key}`")
        self.document, self.pointer, self.line, self.key = document, pointer, line, key


def find(documents: Sequence[Document], path: str, sections: Sequence[str]) -> Target:
    """What a path means. A path with slashes is a pointer, with or without the first; else it is words.

    `sections` are those a plan may have, in their usual order. Raises Unfit with the nearest there is.
    """
    path = unicodedata.normalize("NFC", path).strip()
    if not path:
        raise Unfit("no value is named", "`/appliances/hood/up`, or `hood up`")
    if path.startswith("/"):
        return _at_pointer(documents, [segment.strip() for segment in split(path)], sections)
    if "/" in path:
        return _at_pointer(documents, [part.strip() for part in path.split("/")], sections)
    return _by_words(documents, path, sections)


class _Followed(NamedTuple):
    """How far a path leads into a file: what is spelt there, what stands at its end, and what is left of it."""

    document: Document
    spelt: str
    node: Any
    left: list[str]


def _at_pointer(documents: Sequence[Document], segments: list[str], sections: Sequence[str]) -> Target:
    followed = [_follow(document, segments) for document in documents]
    least = min(len(each.left) for each in followed)
    furthest = [each for each in followed if len(each.left) == least]
    last = furthest[-1]
    if not least:
        if len(furthest) > 1 and not isinstance(last.node, dict):
            files = ", ".join(each.document.file for each in furthest)
            raise Unfit(f"`{last.spelt}` stands in several files: {files}", "an editor, for this one")
        return Target(last.document, last.spelt, True)
    if isinstance(last.node, str):
        raise InOneLine(last.document, last.spelt, last.node, " / ".join(last.left))
    if least > 1 or not last.left[0]:
        raise _nothing_at(furthest, last)
    if not last.spelt:
        return _new_section(documents, last.left[0], sections)
    return Target(last.document, join(last.spelt, last.left[0]), False)


def _follow(document: Document, segments: list[str]) -> _Followed:
    node: Any = document.data
    spelt = ""
    for at, segment in enumerate(segments):
        name = _name_in(node, segment)
        if name is None:
            return _Followed(document, spelt, node, segments[at:])
        spelt, node = join(spelt, name), node[int(name) if isinstance(node, list) else name]
    return _Followed(document, spelt, node, [])


def _name_in(node: Any, segment: str) -> str | None:
    if isinstance(node, list):
        return segment if segment.isdecimal() and int(segment) < len(node) else None
    if not isinstance(node, dict):
        return None
    wanted = fold(segment)
    names = {fold(name): name for name in node}
    ours = KEYS.get(wanted, wanted)
    theirs = next((key for key, key_of_ours in KEYS.items() if key_of_ours == ours and key in names), ours)
    return names.get(wanted) or names.get(ours) or names.get(theirs)


def _nothing_at(furthest: Sequence[_Followed], last: _Followed) -> Unfit:
    wanted, *below = last.left
    here = join(last.spelt, wanted)
    if isinstance(last.node, list):
        return Unfit(f"nothing stands at `{here}`", f"entries 0 to {len(last.node) - 1}")
    names = [name for each in furthest for name in each.node]
    meant = nearest(wanted, names)
    found = join(last.spelt, meant, *below) if meant else ""
    return Unfit(
        f"nothing stands at `{here}`", "" if meant else _shown(join(last.spelt, name) for name in names), found
    )


def _new_section(documents: Sequence[Document], name: str, sections: Sequence[str]) -> Target:
    """A section that no file has yet goes into the file with the section that usually comes before it."""
    section = KEYS.get(fold(name), fold(name))
    if section not in sections:
        meant = nearest(name, [*sections, *(key for document in documents for key in document.data)])
        raise Unfit(f"nothing stands at `{join('', name)}`", "a section of a plan", join("", meant) if meant else "")
    for before in reversed(sections[: sections.index(section)]):
        for document in documents:
            if any(KEYS.get(fold(key), fold(key)) == before for key in document.data):
                return Target(document, join("", name), False)
    return Target(documents[0], join("", name), False)


def _by_words(documents: Sequence[Document], path: str, sections: Sequence[str]) -> Target:
    words = fold(path).split()
    nodes = list(_nodes(documents))
    found = [node for node in nodes if _fits(words, node.segments)]
    exact = [node for node in found if sum(map(_words_in, node.segments)) == len(words)]
    if len(exact) == 1 or len(found) == 1:
        node = (exact if len(exact) == 1 else found)[0]
        return Target(node.document, node.pointer, True)
    if found:
        raise Unfit(f"«{path}» may mean several values", "one of " + _shown(node.pointer for node in found))
    return _new_by_words(documents, path, words, nodes, sections)


def _new_by_words(
    documents: Sequence[Document], path: str, words: list[str], nodes: list[_Node], sections: Sequence[str]
) -> Target:
    """A name that is not there yet, below a thing that the first words mean."""
    if KEYS.get(" ".join(words), " ".join(words)) in sections:
        return _new_section(documents, path, sections)
    written = path.split()
    meant = _nearest_words(words, nodes)
    for behind in range(1, len(words)):
        key = " ".join(written[-behind:])
        around = [node for node in nodes if _fits(words[:-behind], node.segments) and not isinstance(node.value, list)]
        if len(around) > 1:
            choices = _shown(join(node.pointer, key) for node in around)
            raise Unfit(f"there is no «{path}»", f"one of {choices}, if it is to be added", meant)
        if around and isinstance(around[0].value, str):
            raise InOneLine(around[0].document, around[0].pointer, around[0].value, key)
        if around:
            return Target(around[0].document, join(around[0].pointer, key), False)
    raise Unfit(f"there is no «{path}» in the plan", "`/appliances/hood/up`, or `hood up`" if not meant else "", meant)


class _Node(NamedTuple):
    document: Document
    pointer: str
    segments: tuple[str, ...]
    value: Any


def _nodes(documents: Sequence[Document]) -> Iterator[_Node]:
    """Every named value of the files, with the folded names that lead to it."""
    for document in documents:
        waiting: list[_Node] = [_Node(document, "", (), document.data)]
        while waiting:
            node = waiting.pop()
            if node.pointer:
                yield node
            if isinstance(node.value, dict):
                waiting += [
                    _Node(document, join(node.pointer, name), (*node.segments, fold(name)), value)
                    for name, value in reversed(node.value.items())
                ]


def _fits(words: Sequence[str], segments: Sequence[str]) -> bool:
    """Whether the words name the last of these names in full, and names before it in their order."""
    rest = _without(words, segments[-1])
    if rest is None:
        return False
    for segment in reversed(segments[:-1]):
        if not rest:
            break
        shorter = _without(rest, segment)
        rest = rest if shorter is None else shorter
    return not rest


def _without(words: Sequence[str], segment: str) -> Sequence[str] | None:
    """The words before a name that they end with, in the plan's own word for it or the other country's."""
    for name in (segment, KEYS.get(segment, segment)):
        of_name = name.split()
        if list(words[-len(of_name) :]) == of_name:
            return words[: -len(of_name)]
    return None


def _words_in(segment: str) -> int:
    return segment.count(" ") + 1


def _nearest_words(words: list[str], nodes: Sequence[_Node]) -> str:
    """The words for a value that were probably meant, among those that share a word, else among all."""
    spoken = {" ".join(node.segments[-2:]) for node in nodes}
    alike = {text for text in spoken if not set(words).isdisjoint(text.split())}
    for choices in (alike, spoken):
        found = difflib.get_close_matches(" ".join(words), sorted(choices), n=1, cutoff=0.7)
        if found:
            return found[0]
    return ""


def _shown(pointers: Iterator[str]) -> str:
    names = [f"`{pointer}`" for pointer in dict.fromkeys(pointers)]
    return ", ".join(names[:MOST_SHOWN]) + (", …" if len(names) > MOST_SHOWN else "")
