"""The whole command in a process of its own, as a hook or an editor starts it, and what it is compared with."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
BASELINE = "from pydantic import BaseModel; import ruamel.yaml"
"""The two libraries a plan cannot be read without: what a run costs that does nothing."""

COMMAND = "from validator.commands.main import run; run()"
WORDS = ("check", "plans_demo/tern-cottage", "--on", "2026-06-01")


def environment(home: Path) -> dict[str, str]:
    """As installed: compiled modules are kept, and so are checked books; both in a folder of the test's own."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    return {
        **kept,
        "PYTHONPATH": str(ROOT),
        "PYTHONPYCACHEPREFIX": str(home / "compiled"),
        "XDG_CACHE_HOME": str(home / "caches"),
        "PYTHONUTF8": "1",
    }


def run(code: str, home: Path, *words: str, options: tuple[str, ...] = ()) -> subprocess.CompletedProcess[str]:
    """Run Python code with words on its command line, in the folder of the checkout."""
    return subprocess.run(
        [sys.executable, *options, "-c", code, *words],
        env=environment(home),
        cwd=ROOT,
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
