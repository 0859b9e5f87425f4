"""What each trade is handed: `rules/jobsheets.yaml`. Read only where a sheet is asked for."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from validator.plan.problems import Problem, Unreadable
from validator.reference.countries import EVERYWHERE, read_covers
from validator.reference.documents import Citation, Document, read_citation
from validator.reference.entries import Entry, read_file
from validator.reference.folder import shown

if TYPE_CHECKING:
    from collections.abc import Iterator

FILE = "jobsheets.yaml"
ALL = "all"

_KEYS = (
    *("title", "called", "tasks", "stages", "about", "own", "needed", "strong", "isolate", "schedules", "figures"),
    *("needs", "appliances", "asks", "wants", "ready", "leaves"),
)
_NEEDED = ("title", "called", "about", "ready", "leaves")


class Supply(NamedTuple):
    """What is cut off before the work: the words before its place, and where the plan says that."""

    name: str
    says: str
    at: str


class Schedule(NamedTuple):
    """A table: of rows of a kind (`each`), of some kinds of appliances, or of the pieces of the worktops.

    `columns` are fields, figures or words of the sheet, each with its heading. `together`: one table for the room,
    where whoever reads it sets nothing out on its walls.
    """

    title: str
    each: str
    appliances: tuple[str, ...]
    pieces: bool
    together: bool
    columns: Mapping[str, str]


class Want(NamedTuple):
    """Something the plan does not need and the work tells: where it is written, and the question."""

    at: str
    says: str


class Leave(NamedTuple):
    """What is handed over at the end, where that is so, and what says so."""

    says: str
    covers: str
    source: Citation


class Trade(NamedTuple):
    """A trade and its sheet.

    `about` is empty where everything is its business; `own` then says of what it reads the findings. `needed` are the
    kinds of row without which a plan has no work for it.
    """

    name: str
    title: str
    called: tuple[str, ...]
    tasks: tuple[str, ...]
    stages: tuple[str, ...]
    about: frozenset[str]
    own: frozenset[str]
    needed: tuple[str, ...]
    strong: tuple[str, ...]
    isolate: tuple[str, ...]
    schedules: tuple[Schedule, ...]
    figures: Mapping[str, tuple[str, ...]]
    needs: tuple[str, ...]
    appliances: tuple[str, ...]
    asks: tuple[str, ...]
    wants: tuple[Want, ...]
    ready: tuple[str, ...]
    leaves: tuple[Leave, ...]

    def concerns(self, kind: str) -> bool:
        """Whether findings about a kind of thing belong on its sheet."""
        return kind in (self.about or self.own)


class Jobsheets(NamedTuple):
    """The trades by name, in the order of the file, and the supplies that may have to be cut off."""

    trades: Mapping[str, Trade]
    supplies: Mapping[str, Supply]


def read_jobsheets(folder: Path, documents: Mapping[str, Document]) -> Jobsheets:
    """What is in a folder of rules. Raises Unreadable with every mistake of the file."""
    problems: list[Problem] = []
    page = read_file(folder / FILE, shown(folder, folder / FILE), problems)
    fields = page.fields("the sheets of the trades", ("isolate", "trades"), ("isolate", "trades")) if page else None
    supplies: dict[str, Supply] = {}
    trades: dict[str, Trade] = {}
    if fields is not None and {"isolate", "trades"} <= fields.keys():
        for name, written in fields["isolate"].items("isolate"):
            texts = _texts_by_key(written, f"`{name}`", ("says", "at"))
            supplies[name] = Supply(name, texts["says"], texts["at"])
        for name, written in fields["trades"].items("trades"):
            trade = _trade(name, written, documents, supplies)
            if trade is not None:
                trades[name] = trade
    if problems:
        raise Unreadable(problems)
    return Jobsheets(trades, supplies)


def _trade(name: str, entry: Entry, documents: Mapping[str, Document], supplies: Mapping[str, Supply]) -> Trade | None:
    fields = entry.fields(f"the trade `{name}`", _KEYS, _NEEDED)
    if fields is None or not set(_NEEDED) <= fields.keys():
        return None

    def words(key: str) -> tuple[str, ...]:
        """The list under a key; empty for `all` and where there is none."""
        if key not in fields or fields[key].written == ALL:
            return ()
        return tuple(text for member in fields[key].members(key) if (text := member.text(key)) is not None)

    def members(key: str) -> Iterator[Entry]:
        yield from fields[key].members(key) if key in fields else ()

    figures = fields["figures"].items("figures") if "figures" in fields else ()
    for supply in fields["isolate"].members("isolate") if "isolate" in fields else ():
        supply.choice("what is cut off", list(supplies))
    return Trade(
        name,
        fields["title"].text("title") or name,
        words("called"),
        words("tasks"),
        words("stages"),
        frozenset(words("about")),
        frozenset(words("own")),
        words("needed"),
        words("strong"),
        words("isolate"),
        tuple(_schedule(member) for member in members("schedules")),
        {kind: tuple(t for m in of.members(kind) if (t := m.text(kind))) for kind, of in figures},
        words("needs"),
        (ALL,) if "appliances" in fields and fields["appliances"].written == ALL else words("appliances"),
        words("asks"),
        tuple(Want(**_texts_by_key(member, "what it can tell", ("at", "says"))) for member in members("wants")),
        words("ready"),
        tuple(leave for member in members("leaves") if (leave := _leave(member, documents)) is not None),
    )


def _schedule(entry: Entry) -> Schedule:
    keys = ("title", "each", "appliances", "pieces", "together", "columns")
    fields = entry.fields("a schedule", keys, ("title", "columns")) or {}
    columns = fields["columns"].items("columns") if "columns" in fields else ()
    kinds = fields["appliances"].members("appliances") if "appliances" in fields else []
    return Schedule(
        (fields["title"].text("title") or "") if "title" in fields else "",
        (fields["each"].text("each") or "") if "each" in fields else "",
        tuple(text for member in kinds if (text := member.text("a kind of appliance"))),
        "pieces" in fields,
        "together" in fields,
        {name: written.text(name) or "" for name, written in columns},
    )


def _leave(entry: Entry, documents: Mapping[str, Document]) -> Leave | None:
    fields = entry.fields("what is handed over", ("says", "country", "source"), ("says", "source"))
    if fields is None or not {"says", "source"} <= fields.keys():
        return None
    says = fields["says"].text("says")
    source = read_citation(fields["source"], documents)
    covers = read_covers(fields["country"]) if "country" in fields else EVERYWHERE
    return Leave(says, covers, source) if says and source and covers else None


def _texts_by_key(entry: Entry, what: str, keys: tuple[str, ...]) -> dict[str, str]:
    fields = entry.fields(what, keys, keys) or {}
    return {key: (fields[key].text(key) or "") if key in fields else "" for key in keys}
