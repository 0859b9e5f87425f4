"""The short lists of the rules: groups of terms, stages, the usual order of work, words, questions and texts."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from validator.plan.names import fold, nearest
from validator.reference.countries import read_covers
from validator.reference.documents import Citation, Document, read_citation

if TYPE_CHECKING:
    from validator.reference.entries import Entry

_GROUP = re.compile(r"[a-z]+(_[a-z]+)*")


class UsualTask(NamedTuple):
    """A task of the usual order of work: what it follows, which trade does it, and what dries or cures after it
    (`plaster`, `paint`, `other`, or '' for nothing).
    """

    name: str
    after: tuple[str, ...]
    trade: str
    dries: str


class UsualOrder(NamedTuple):
    """The usual order of work, by the tasks' names folded, and what it rests on."""

    title: str
    tasks: dict[str, UsualTask]
    source: Citation


def read_groups(entry: Entry) -> dict[str, frozenset[str]]:
    """Groups of terms of the trade, the terms folded. A group's name is a word that conditions can use:
    `solid_bases`.
    """
    groups: dict[str, frozenset[str]] = {}
    for name, written in entry.items("groups"):
        if not _GROUP.fullmatch(name):
            written.mistake(
                f"a group cannot be called `{name}`", expected="small letters, words joined by `_`", at="key"
            )
            continue
        terms: set[str] = set()
        for member in written.members(name):
            term = member.text("a term")
            if term is None:
                continue
            if fold(term) in terms:
                member.mistake(f"`{term}` is in `{name}` twice")
            terms.add(fold(term))
        groups[name] = frozenset(terms)
    return groups


def read_stages(entry: Entry) -> dict[str, str]:
    """The stages of the work in their order, each with the question a report answers."""
    return _texts(entry, "stages")


def read_questions(entry: Entry) -> dict[str, str]:
    """What to ask where a value is not known, by field of a kind of row or by place in the plan."""
    return _texts(entry, "questions")


def read_texts(entry: Entry) -> dict[str, str]:
    """The texts that go with a household's own rules where it gives none."""
    return _texts(entry, "texts")


def read_words(entry: Entry) -> dict[str, dict[str, str]]:
    """What our words are called in another country, for printing: country → our word → theirs."""
    words: dict[str, dict[str, str]] = {}
    for country, written in entry.items("words"):
        covers = read_covers(replace(written, value=country))
        if covers is not None:
            words[covers] = _texts(written, f"the words of {country}")
    return words


def read_order(entry: Entry, documents: dict[str, Document]) -> UsualOrder | None:
    """The usual order of work; a mistake for each task that follows one nobody listed, or itself in the end."""
    fields = entry.fields("the usual order", ("title", "covers", "source", "tasks"), ("title", "source", "tasks"))
    if fields is None:
        return None
    title = fields["title"].text("title") if "title" in fields else None
    source = read_citation(fields["source"], documents) if "source" in fields else None
    tasks: dict[str, UsualTask] = {}
    places: dict[str, Entry] = {}
    for name, written in fields["tasks"].items("tasks") if "tasks" in fields else ():
        task = _task(name, written)
        if task is not None:
            tasks[fold(name)], places[fold(name)] = task, written
    for key, task in tasks.items():
        for name in task.after:
            if fold(name) not in tasks:
                places[key].mistake(f"`{task.name}` follows `{name}`, which is no task here", near=nearest(name, tasks))
    for key in _in_a_circle(tasks):
        places[key].mistake(f"`{tasks[key].name}` follows itself, by way of what it follows", at="key")
    return UsualOrder(title, tasks, source) if title and source else None


def _task(name: str, entry: Entry) -> UsualTask | None:
    fields = entry.fields(f"the task `{name}`", ("after", "trade", "dries"), ("after", "trade"))
    if fields is None or "after" not in fields or "trade" not in fields:
        return None
    after = [text for member in fields["after"].members("after") if (text := member.text("a task")) is not None]
    trade = fields["trade"].text("trade")
    dries = fields["dries"].choice("dries", ("plaster", "paint", "other")) if "dries" in fields else ""
    if trade is None or dries is None:
        return None
    return UsualTask(name, tuple(after), trade, dries)


def _in_a_circle(tasks: dict[str, UsualTask]) -> list[str]:
    """The tasks that are left when every task is taken away whose forerunners are."""
    left = dict(tasks)
    while free := [key for key, task in left.items() if not any(fold(name) in left for name in task.after)]:
        for key in free:
            del left[key]
    return list(left)


def _texts(entry: Entry, what: str) -> dict[str, str]:
    found: dict[str, str] = {}
    for name, written in entry.items(what):
        text = written.text(name)
        if text is not None:
            found[name] = text
    return found
