"""Replacing a file: the old one or the new one at every moment, whatever happens."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.commands.running import environment_with
from validator.commands.replacing import CannotReplace, put, replace

OLD, NEW = b"a: 1\n", b"a: 2\n"
ROOT = os.geteuid() == 0

KEEP_REPLACING = """
import sys
from validator.commands.replacing import replace
path, sizes = sys.argv[1], (200_000, 300_000)
texts = [bytes([97 + each]) * size for each, size in enumerate(sizes)]
print("begun", flush=True)
while True:
    for old, new in ((texts[0], texts[1]), (texts[1], texts[0])):
        replace(path, old, new)
"""


@pytest.fixture
def file(folder: Path) -> Path:
    path = folder / "plan.yaml"
    path.write_bytes(OLD)
    return path


def refused(path: Path, old: bytes = OLD) -> str:
    """Why a file is not replaced; it is as it was, and nothing is left beside it."""
    before = path.read_bytes()
    with pytest.raises(CannotReplace) as caught:
        replace(str(path), old, NEW)
    assert path.read_bytes() == before
    assert os.listdir(path.parent) == [path.name]
    return str(caught.value)


def test_the_new_content_stands_in_the_file_and_nothing_beside_it(file: Path) -> None:
    replace(str(file), OLD, NEW)
    assert file.read_bytes() == NEW
    assert os.listdir(file.parent) == ["plan.yaml"]


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664, 0o755])
def test_who_may_read_and_write_it_stays(file: Path, mode: int) -> None:
    file.chmod(mode)
    replace(str(file), OLD, NEW)
    assert file.stat().st_mode & 0o777 == mode


@pytest.mark.skipif(not ROOT, reason="only root may give a file away")
def test_the_owner_stays(file: Path) -> None:
    os.chown(file, 1234, 1235)
    replace(str(file), OLD, NEW)
    assert (file.stat().st_uid, file.stat().st_gid) == (1234, 1235)


def test_the_time_of_the_change_is_that_of_the_change(file: Path) -> None:
    os.utime(file, (0, 0))
    replace(str(file), OLD, NEW)
    assert time.time() - file.stat().st_mtime < 60


def test_a_link_goes_on_pointing_at_the_file_that_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "kept").mkdir()
    target, link = tmp_path / "kept" / "plan.yaml", tmp_path / "plan.yaml"
    target.write_bytes(OLD)
    link.symlink_to(Path("kept", "plan.yaml"))
    replace(str(link), OLD, NEW)
    assert link.is_symlink()
    assert target.read_bytes() == NEW
    assert os.listdir(target.parent) == ["plan.yaml"]


@pytest.mark.parametrize("meanwhile", [b"a: 3\n", b"a: 1\nb: 2\n", b""])
def test_a_file_that_somebody_else_has_changed_is_left_alone(file: Path, meanwhile: bytes) -> None:
    file.write_bytes(meanwhile)
    assert refused(file) == "somebody else has changed the file meanwhile"


def test_a_change_just_before_the_move_is_seen_as_well(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "fsync", lambda handle: file.write_bytes(b"a: 3\n"))
    with pytest.raises(CannotReplace, match="somebody else"):
        replace(str(file), OLD, NEW)
    assert file.read_bytes() == b"a: 3\n"


def test_a_file_that_nobody_may_write_is_left_alone(file: Path) -> None:
    file.chmod(0o444)
    assert refused(file) == "the file may not be written"


@pytest.mark.skipif(ROOT, reason="root may write into any folder")
def test_a_folder_in_which_nothing_may_be_written_is_told(file: Path) -> None:
    file.parent.chmod(0o555)
    try:
        assert "the file cannot be written" in refused(file)
    finally:
        file.parent.chmod(0o755)


@pytest.mark.parametrize("step", ["mkstemp", "fsync", "replace"])
def test_a_disk_without_room_leaves_the_old_file_and_nothing_else(
    file: Path, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, os.strerror(28))

    owner = "tempfile" if step == "mkstemp" else "os"
    monkeypatch.setattr(f"validator.commands.replacing.{owner}.{step}", full)
    assert refused(file) == "the file cannot be written: No space left on device"


@pytest.mark.parametrize("there", [b"", OLD])
def test_a_page_is_put_in_its_place_whether_there_was_one_or_not(tmp_path: Path, there: bytes) -> None:
    folder = tmp_path / "pages"
    folder.mkdir()
    page = folder / "page.html"
    if there:
        page.write_bytes(there)
    put(str(page), NEW)
    assert page.read_bytes() == NEW
    assert os.listdir(folder) == ["page.html"]


def test_a_page_that_the_disk_has_no_room_for_leaves_the_old_one(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, os.strerror(28))

    monkeypatch.setattr("validator.commands.replacing.os.fsync", full)
    with pytest.raises(OSError, match="No space left"):
        put(str(file), NEW)
    assert file.read_bytes() == OLD
    assert os.listdir(file.parent) == [file.name]


def test_a_pipe_is_written_into_and_stays_one(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reading = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    put(str(pipe), NEW)
    assert os.read(reading, 1 << 16) == NEW
    assert pipe.is_fifo()
    os.close(reading)


@pytest.mark.skipif(not ROOT, reason="only root may mount a small disk")
def test_a_disk_that_is_really_full_leaves_the_old_file(tmp_path: Path) -> None:
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)], capture_output=True)
    if mounted.returncode:
        pytest.skip("nothing may be mounted here")
    try:
        file = disk / "plan.yaml"
        file.write_bytes(OLD)
        with pytest.raises(CannotReplace, match="No space left on device"):
            replace(str(file), OLD, b"x" * 100_000)
        assert file.read_bytes() == OLD
        assert os.listdir(disk) == ["plan.yaml"]
    finally:
        subprocess.run(["umount", str(disk)], check=True)


def test_kill_9_at_any_moment_leaves_the_old_or_the_new_file_whole(file: Path) -> None:
    whole = (b"a" * 200_000, b"b" * 300_000)
    for wait in (0.0, 0.001, 0.003, 0.007, 0.011, 0.016, 0.022, 0.03):
        file.write_bytes(whole[0])
        process = subprocess.Popen(
            [sys.executable, "-c", KEEP_REPLACING, str(file)], stdout=subprocess.PIPE, env=environment_with({})
        )
        assert process.stdout is not None
        process.stdout.readline()
        time.sleep(wait)
        process.send_signal(signal.SIGKILL)
        process.wait()
        process.stdout.close()
        assert file.read_bytes() in whole
        left = [name for name in os.listdir(file.parent) if name != "plan.yaml"]
        assert all(name.startswith(".") and not name.endswith(".yaml") for name in left)
