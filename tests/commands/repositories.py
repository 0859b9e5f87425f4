"""Git repositories of plans, made for a test; no setting of whoever runs it counts in them."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

import pytest

from tests.commands.running import PUMP_HOUSE

STEEP = """\
requirements:
  steep waste: {each: waste, figure: slope, at_least: 20 mm/m, severity: stop, title: Waste as steep as we want it}
"""

GOOD = PUMP_HOUSE + STEEP
"""A plan that is ready; its waste falls 25 mm in a metre."""

STOPPED = GOOD.replace("25 mm/m", "19 mm/m")
"""One STOP: the household wants 20 mm in a metre, the books 18."""

FLAT = GOOD.replace("25 mm/m", "30 mm/m").replace("1500 at", "6500 at")
"""One point to put right and no STOP: a waste longer than it may be."""


@dataclass(frozen=True)
class Repository:
    """A repository, and git in it."""

    top: Path

    def git(self, *words: str, feed: bytes = b"", environment: Mapping[str, str] | None = None) -> str:
        """What git prints; an error of the test where it fails."""
        ran = self.try_git(*words, feed=feed, environment=environment)
        assert ran.returncode == 0, ran.stderr.decode()
        return os.fsdecode(ran.stdout).removesuffix("\n")

    def try_git(
        self, *words: str, feed: bytes = b"", environment: Mapping[str, str] | None = None
    ) -> subprocess.CompletedProcess[bytes]:
        return subprocess.run(
            ["git", *words], cwd=self.top, input=feed, capture_output=True, env={**os.environ, **(environment or {})}
        )

    def write(self, name: str, text: str | bytes) -> Path:
        file = self.top / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(text if isinstance(text, bytes) else text.encode())
        return file

    def stage(self, name: str, text: str | bytes) -> Path:
        """A file written and staged."""
        file = self.write(name, text)
        self.git("add", "--", name)
        return file

    def commit(self, **files: str) -> str:
        """The files (`plan` is plan.yaml) staged, and everything staged committed without any hook; its name."""
        for name, text in files.items():
            self.stage(f"{name}.yaml", text)
        self.git("commit", "--quiet", "--no-verify", "--allow-empty", "-m", "a change")
        return self.git("rev-parse", "HEAD")


def make(top: Path, monkeypatch: pytest.MonkeyPatch) -> Repository:
    """An empty repository in an empty folder."""
    for name, value in {
        "GIT_CONFIG_GLOBAL": os.devnull,
        "GIT_CONFIG_NOSYSTEM": "1",
        "GIT_AUTHOR_NAME": "Somebody",
        "GIT_AUTHOR_EMAIL": "somebody@example.org",
        "GIT_COMMITTER_NAME": "Somebody",
        "GIT_COMMITTER_EMAIL": "somebody@example.org",
        "PYTHONPATH": str(Path(__file__).resolve().parents[2]),
    }.items():
        monkeypatch.setenv(name, value)
    for name in [name for name in os.environ if name in ("GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE")]:
        monkeypatch.delenv(name)
    repository = Repository(top)
    repository.git("init", "--quiet", "--initial-branch=main")
    return repository
