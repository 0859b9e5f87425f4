"""Plans and books written into an empty folder in which the command is run."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.commands.running import Ran
from validator.commands.main import main

Write = Callable[[str, str | bytes], Path]
Here = Callable[..., Ran]


@pytest.fixture(scope="session")
def caches(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder for what may be thrown away, so that the books are read once and not for each test."""
    return tmp_path_factory.mktemp("caches")


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, caches: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An empty current folder."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(caches))
    current = tmp_path / "work"
    current.mkdir()
    monkeypatch.chdir(current)
    return current


@pytest.fixture
def write(folder: Path) -> Write:
    """Writes a file into the current folder."""

    def written(name: str, content: str | bytes) -> Path:
        file = folder / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(content if isinstance(content, bytes) else content.encode())
        return file

    return written


@pytest.fixture
def here(capsys: pytest.CaptureFixture[str]) -> Here:
    """Runs the command in this process, which is faster than one of its own."""

    def run(*words: str | Path) -> Ran:
        try:
            status = main([str(word) for word in words])
        except SystemExit as left:
            status = left.code if isinstance(left.code, int) else 1
        out, err = capsys.readouterr()
        return Ran(status, out, err)

    return run
