"""The checked books, kept from one run to the next, so that they are read and checked only when they have changed.

A file for each country and choice of books, in a folder of the user's own: plain JSON behind a line with two digests.
It is believed only where it belongs to the user, is whole, was made of these very books by this very program, and every
part of it is of the right form; anything else is made again.
"""

from __future__ import annotations

import contextlib
import hashlib
import json
import os
import stat
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Any

from validator.judging.books import Books, read_rulebooks
from validator.judging.expressions import Expression
from validator.judging.rules import Rule
from validator.judging.stored_forms import BOOKS, LIBRARY, Damaged
from validator.measures.catalogue import MEASURES
from validator.measures.rows import YES_NO, Row
from validator.measures.site import row_class
from validator.plan.dimensions import Dimension
from validator.reference.folder import digest
from validator.reference.library import Library, read_library

LARGEST = 8_000_000
"""The most bytes that are read of a stored file."""

MOST = 16
"""How many files are kept; those longest untouched go first."""

LONG = 20
SHARED = "list"
"""A list of so many words is written once; where it stands, its number does."""

OF_A_REMEDY = frozenset({"have", "need", "short"})
PARTS_OF_THE_PROGRAM = ("plan", "reference", "measures", "judging")


def read_or_recall(
    folder: Path, country: str, given: Sequence[str | Path], caches: Path | None
) -> tuple[Library, Books]:
    """The library and the books for a country, from `caches` where they are kept there, else read and kept there.

    Raises Unreadable with every mistake in the files. `caches` may be missing or read-only; None is for none.
    """
    if caches is None:
        return _read(folder, country, given)
    key = _key(folder, country, given)
    file = caches / f"books-{_digest(os.path.abspath(folder), country, *map(str, given))[:16]}.json"
    kept = recall(file, key)
    if kept is not None:
        return kept
    library, books = _read(folder, country, given)
    if _key(folder, country, given) == key:  # nobody has changed a file while it was read
        keep(file, key, library, books)
    return library, books


def recall(file: Path, key: str) -> tuple[Library, Books] | None:
    """What is kept in a file under a key; None where there is nothing, or anything that cannot be believed."""
    try:
        head, _, body = _own_content(file).partition(b"\n")
        if head != _head(key, body):
            return None
        lists, _, rest = body.partition(b"\n")
        match json.loads(rest, object_hook=_shared(json.loads(lists))):
            case [stored_library, stored_books]:
                library: Library = LIBRARY.read(stored_library)
                books: Books = BOOKS.read(stored_books)
                for rule in books.rules:
                    _look_at(rule, library)
                return library, books
    except (OSError, ValueError, RecursionError):
        pass
    return None


def keep(file: Path, key: str, library: Library, books: Books) -> None:
    """Keep them under a key, written beside the file and put in its place in one step; quietly not where that fails."""
    import tempfile

    lists: dict[tuple[str, ...], int] = {}
    data = _sharing([LIBRARY.write(library), BOOKS.write(books)], lists)
    lines = (json.dumps(part, ensure_ascii=False, allow_nan=False) for part in ([*lists], data))
    body = "\n".join(lines).encode("utf-8", "surrogatepass")
    with contextlib.suppress(OSError):
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        handle, beside = tempfile.mkstemp(".part", file.stem, file.parent)
        try:
            with open(handle, "wb") as opened:
                opened.write(_head(key, body) + b"\n" + body)
            os.replace(beside, file)
        except OSError:
            os.unlink(beside)
            raise
        _clear_away(file.parent)


def _sharing(data: Any, lists: dict[tuple[str, ...], int]) -> Any:
    """The same data with each long list of words written once: the terms of the trade stand in every rule about one."""
    if isinstance(data, dict):
        return {name: _sharing(value, lists) for name, value in data.items()}
    if not isinstance(data, list | tuple):
        return data
    if len(data) >= LONG and all(type(word) is str for word in data):
        return {SHARED: lists.setdefault(tuple(data), len(lists))}
    return [_sharing(value, lists) for value in data]


def _shared(lists: Any) -> Callable[[dict[str, Any]], Any]:
    """Puts the long lists back while stored data is read; ValueError for one that is not there."""

    def put_back(found: dict[str, Any]) -> Any:
        number = found.get(SHARED)
        if len(found) != 1 or type(number) is not int:
            return found
        if not isinstance(lists, list) or not 0 <= number < len(lists):
            raise Damaged(SHARED)
        return lists[number]

    return put_back


def _read(folder: Path, country: str, given: Sequence[str | Path]) -> tuple[Library, Books]:
    library = read_library(folder)
    return library, read_rulebooks(folder, library, country, given)


def _key(folder: Path, country: str, given: Sequence[str | Path]) -> str:
    return _digest(digest(folder, given), country, *map(str, given), *_program())


def _program() -> Iterator[str]:
    """What tells this program from one that would read the same books otherwise: where its files are, their sizes and
    when they were written."""
    home = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
    yield home
    for part in PARTS_OF_THE_PROGRAM:
        for folder, _, names in sorted(os.walk(os.path.join(home, part))):
            for name in sorted(name for name in names if name.endswith(".py")):
                found = os.stat(os.path.join(folder, name))
                yield f"{folder}/{name} {found.st_size} {found.st_mtime_ns}"


def _digest(*texts: str) -> str:
    return hashlib.sha256("\0".join(texts).encode("utf-8", "surrogatepass")).hexdigest()


def _head(key: str, body: bytes) -> bytes:
    return f"{key} {hashlib.sha256(body).hexdigest()}".encode()


def _own_content(file: Path) -> bytes:
    """The bytes of an ordinary file that belongs to the user and that nobody else can write; Damaged for any other.

    No link is followed, and nothing is waited for.
    """
    flags = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    with open(os.open(file, flags), "rb") as opened:
        found = os.fstat(opened.fileno())
        if not stat.S_ISREG(found.st_mode) or found.st_size > LARGEST:
            raise Damaged("no ordinary file")
        if os.name == "posix" and (found.st_uid != os.geteuid() or found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)):
            raise Damaged("somebody else's file")
        return opened.read()


def _clear_away(caches: Path) -> None:
    files = sorted(caches.glob("books-*"), key=lambda file: file.stat().st_mtime, reverse=True)
    for file in files[MOST:]:
        file.unlink()


def _look_at(rule: Rule, library: Library) -> None:
    """Damaged or BadExpression where a rule reads what a row of its kind does not declare, or tables there are not."""
    if rule.each not in MEASURES:
        raise Damaged(rule.each)
    row = row_class(rule.each)
    types = {name: field.type for name, field in row.fields.items() if not field.many}
    types |= {name: figure.dimension for name, figure in row.figures.items()}
    of_figure = types.get(rule.figure)
    dimension = of_figure if isinstance(of_figure, Dimension) else None
    named = {*rule.stated, *(name for limit in rule.limits if limit.row for name in limit.row.by.values())}
    if rule.figure:
        named.add(rule.figure)
    if not named <= types.keys() or rule.dimension != dimension:
        raise Damaged(rule.name)
    for condition in (rule.when, rule.holds):
        if condition is not None:
            _fits(condition, row, condition.type == YES_NO)
    for limit in rule.limits:
        if limit.expression is not None:
            _fits(limit.expression, row, limit.expression.type == dimension)
        if limit.row is not None and limit.row.table not in library.tables:
            raise Damaged(limit.row.table)
    for piece in rule.remedy.pieces:
        if isinstance(piece, Expression):
            _fits(piece, row, True, OF_A_REMEDY)


def _fits(expression: Expression, row: type[Row], fits: bool, others: frozenset[str] = frozenset()) -> None:
    if not fits or not all(name in row.fields or name in row.figures or name in others for name in expression.reads):
        raise Damaged(expression.text)
    expression.built_for(row)
