"""JSON Pointers (RFC 6901), by which findings name things; one place turns them into lines."""

from __future__ import annotations

from validator.plan.names import fold


def escape(segment: str) -> str:
    return segment.replace("~", "~0").replace("/", "~1")


def unescape(segment: str) -> str:
    return segment.replace("~1", "/").replace("~0", "~")


def join(pointer: str, *segments: str | int) -> str:
    """The pointer below `pointer`: `join('/runs', 'sink run', 0)` is `/runs/sink run/0`."""
    return pointer + "".join("/" + escape(str(segment)) for segment in segments)


def split(pointer: str) -> list[str]:
    """The segments of a pointer; the empty pointer is the whole plan."""
    if not pointer:
        return []
    if not pointer.startswith("/"):
        raise ValueError(f"a pointer starts with a slash: {pointer!r}")
    return [unescape(segment) for segment in pointer[1:].split("/")]


def as_key(pointer: str) -> str:
    """The pointer as people read it, `runs / sink run / order`."""
    return " / ".join(split(pointer))


def parent(pointer: str) -> str:
    return pointer.rpartition("/")[0]


def folded(pointer: str) -> str:
    """The pointer in the form in which places are kept: every segment compared as names are."""
    return "".join("/" + escape(fold(segment)) for segment in split(pointer))
