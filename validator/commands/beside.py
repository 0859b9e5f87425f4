"""Work done in a second process while this one goes on, where the system can split one into two."""

from __future__ import annotations

import os
from collections.abc import Callable

DONE = b"\n"
"""Ends what a second process sends: without it the process came to its end before its work did."""


def beside(work: Callable[[], str]) -> Callable[[], str]:
    """Begin work that gives a text in a process of its own; what is returned waits for that text.

    Where there can be no second process, or it ends without a result, the work is done here, with whatever error that
    raises.
    """
    try:
        reading, writing = os.pipe()
        child = os.fork()
    except (OSError, AttributeError):
        return work
    if not child:
        os.close(reading)
        _send(work, writing)
    os.close(writing)

    def wait() -> str:
        with os.fdopen(reading, "rb") as pipe:
            sent = pipe.read()
        os.waitpid(child, 0)
        return sent.removesuffix(DONE).decode() if sent.endswith(DONE) else work()

    return wait


def _send(work: Callable[[], str], writing: int) -> None:
    """In the second process: do the work, send what it gives, and end without tidying up what is not its own."""
    try:
        with os.fdopen(writing, "wb") as pipe:
            pipe.write(work().encode() + DONE)
    finally:
        os._exit(0)
