"""The command `dryfit`: reads the words of the command line and hands over to one module a command.

Clock, terminal and streams are met here and in the commands, nowhere else. Exit status: 0 ready, 1 not ready,
2 unreadable.
"""

from __future__ import annotations

import contextlib
import gc
import importlib
import os
import sys
from collections.abc import Sequence

from validator.commands.words import parser

UNREADABLE = 2
INTERRUPTED = 130


def run() -> None:
    """The entry point of the command.

    A run is over before there is garbage worth looking for, and at its end the system takes back at once what Python
    would take down piece by piece: the two together are a tenth of a short run.
    """
    gc.disable()
    status = main(sys.argv[1:])
    for stream in (sys.stdout, sys.stderr):
        with contextlib.suppress(OSError):
            stream.flush()
    os._exit(status)


def main(words: Sequence[str]) -> int:
    """Run one command; returns the exit status. Whatever goes wrong is said in words, never as a traceback."""
    _open_what_is_closed()
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")
    try:
        chosen = parser(words).parse_args(words)
        command = importlib.import_module(f"validator.commands.{chosen.command}")
        status: int = command.run(chosen)
        sys.stdout.flush()
    except BrokenPipeError:
        _write_no_more()
        return UNREADABLE
    except OSError as error:
        if error.filename is not None:
            return _fault(error)
        _write_no_more()
        print(f"What there is to say cannot be written: {error.strerror}.", file=sys.stderr)
        return UNREADABLE
    except KeyboardInterrupt:
        return INTERRUPTED
    except Exception as fault:
        return _fault(fault)
    return status


def _open_what_is_closed() -> None:
    """Streams that were closed before we began: nothing is read from them, and what is written goes nowhere."""
    sys.stdin = sys.stdin or os.fdopen(os.open(os.devnull, os.O_RDONLY))
    sys.stdout = sys.stdout or os.fdopen(os.open(os.devnull, os.O_WRONLY), "w")
    sys.stderr = sys.stderr or os.fdopen(os.open(os.devnull, os.O_WRONLY), "w")


def _write_no_more() -> None:
    """Standard output takes nothing any more; without this Python would try once more as it ends, and complain."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _fault(fault: Exception) -> int:
    """A fault of the program itself: said loudly, with where it happened, and never taken for a pass."""
    import traceback

    last = traceback.extract_tb(fault.__traceback__)[-1]
    where = f"{os.path.basename(last.filename)}, line {last.lineno}"
    said = "".join(letter if letter.isprintable() else " " for letter in str(fault))
    print(
        f"Dryfit itself has failed, so nothing was judged: {type(fault).__name__}: {said}\n"
        f"This is a fault of the program ({where}), not of the plan. Please report it with the plan.",
        file=sys.stderr,
    )
    return UNREADABLE
