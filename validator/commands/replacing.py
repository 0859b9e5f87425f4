"""A file replaced as a whole: whoever reads it, at whatever moment, finds the old one or the new one, never half."""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile


class CannotReplace(Exception):
    """The file is as it was; the text says why, in words."""


def replace(path: str, old: bytes, new: bytes) -> None:
    """Write `new` beside the file at `path` and move it into its place; a link goes on pointing at the same file.

    Raises CannotReplace where the file no longer holds `old`, may not be written, or the disk has no room.
    """
    target = os.path.realpath(path)
    try:
        if not os.stat(target).st_mode & 0o222 or not os.access(target, os.W_OK):
            raise CannotReplace("the file may not be written")
        _check_unchanged(target, old)
        _replace(target, old, new)
    except OSError as error:
        raise CannotReplace(f"the file cannot be written: {error.strerror}") from None


def put(path: str, content: bytes) -> None:
    """Write a file beside its place and put it there when it is whole; what is there is replaced, a pipe written into.

    Raises OSError.
    """
    target = os.path.realpath(path)
    if os.path.exists(target) and not os.path.isfile(target):
        with open(target, "wb") as pipe:
            pipe.write(content)
        return
    folder, name = os.path.split(target)
    handle, beside = tempfile.mkstemp(dir=folder, prefix=f".{name[:100]}.", suffix=".new")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        mask = os.umask(0)
        os.umask(mask)
        os.chmod(beside, 0o666 & ~mask)
        os.replace(beside, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(beside)
        raise


def _check_unchanged(target: str, old: bytes) -> None:
    with open(target, "rb") as file:
        if file.read(len(old) + 1) != old:
            raise CannotReplace("somebody else has changed the file meanwhile")


def _replace(target: str, old: bytes, new: bytes) -> None:
    folder = os.path.dirname(target)
    handle, beside = tempfile.mkstemp(dir=folder, prefix=f".{os.path.basename(target)[:100]}.", suffix=".new")
    try:
        with os.fdopen(handle, "wb") as file:
            shutil.copystat(target, beside)
            _keep_owner(target, beside)
            file.write(new)
            file.flush()
            os.fsync(file.fileno())
        os.utime(beside)
        _check_unchanged(target, old)
        os.replace(beside, target)
    except BaseException:
        with contextlib.suppress(OSError):
            os.unlink(beside)
        raise
    _keep_folder(folder)


def _keep_owner(target: str, beside: str) -> None:
    """Give the new file the owner and group of the old one, as far as whoever runs this may."""
    status = os.stat(target)
    with contextlib.suppress(OSError):
        os.chown(beside, status.st_uid, status.st_gid)
        os.chmod(beside, status.st_mode & 0o7777)


def _keep_folder(folder: str) -> None:
    """Have the disk keep the folder's new entry; some file systems cannot be asked to."""
    with contextlib.suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)
