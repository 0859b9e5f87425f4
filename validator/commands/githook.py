"""`dryfit githook`: the hook that git runs before each commit, put there and taken away."""

from __future__ import annotations

import argparse
import hashlib
import os
import shlex
import sys
import tempfile

from validator.commands.hook_settings import PLANS, REFUSALS, REFUSES, RULES, Settings, settings
from validator.commands.revisions import GitTrouble, Repository
from validator.commands.staged import staged
from validator.reporting.columns import tamed
from validator.reporting.lines import wrapped

DONE, NOT_DONE, TROUBLE = 0, 1, 2

LONGEST = 100_000
HOOK, EARLIER = "pre-commit", "pre-commit.before-dryfit"

HEAD = "#!/bin/sh\n# The hook of dryfit, as it was written: {digest}\n"
SCRIPT = """\
# It looks at the plans and rulebooks that are about to be committed. `dryfit githook remove` takes it away;
# `dryfit githook --help` says what it refuses.
python={python}
earlier="$(dirname "$0")/pre-commit.before-dryfit"
if [ -x "$earlier" ]; then
    "$earlier" "$@" || exit $?
fi
gone="Dryfit is no longer where it was ($python), so nothing was looked at.
Install it and run 'dryfit githook install' again, or 'git commit --no-verify'."
if [ ! -x "$python" ]; then
    echo "$gone" >&2
    exit 2
fi
exec "$python" -P -c '
import sys
gone = sys.argv.pop()
try:
    from validator.commands.main import run
except ImportError:
    print(gone, file=sys.stderr)
    sys.exit(2)
run()' githook run "$gone"
"""
"""What git runs. -P: no module is taken from the repository that is looked at."""


def run(chosen: argparse.Namespace) -> int:
    """Install, remove or run the hook of the repository around the current folder."""
    try:
        repository = Repository.around(os.curdir)
        match chosen.task:
            case "install":
                return _install(repository, chosen)
            case "remove":
                return _remove(repository)
            case _:
                return _look(repository, settings(repository, chosen.plan, chosen.rules, chosen.refuse, chosen.on))
    except GitTrouble as trouble:
        sys.stderr.write(f"{tamed(str(trouble))}\n")
        return TROUBLE


def _look(repository: Repository, wanted: Settings) -> int:
    """Look at what is staged; what it takes to judge is imported only once there is something to judge."""
    found = staged(repository, wanted.plans, wanted.own_rules)
    if found.unsettled:
        raise GitTrouble(f"A merge left two versions of {', '.join(found.unsettled)}: settle them and `git add` them.")
    for path in found.not_there:
        _say(f"`{path}`, which the settings name, is not among the files of this commit.")
    for name in found.taken_away:
        _say(f"{name}: taken away by this commit.")
    if found.plans or found.books:
        from validator.commands.commit_check import CommitCheck

        with tempfile.TemporaryDirectory(prefix="dryfit-") as folder:
            return CommitCheck(folder, found, wanted).run()
    if "GIT_INDEX_FILE" not in os.environ and not found.taken_away:  # as a hook it has nothing to say then
        _say("Nothing that is staged touches a plan or a rulebook.")
    return DONE


def _install(repository: Repository, chosen: argparse.Namespace) -> int:
    """Put the hook where git looks for it, then keep what was said of plans, rulebooks and refusals as settings."""
    wanted = settings(repository, chosen.plan, chosen.rules, chosen.refuse, chosen.on)
    for path in wanted.plans:
        if not os.path.exists(os.path.join(repository.top, path)):
            raise GitTrouble(f"There is no `{path}` in the repository at {repository.top}. Nothing was installed.")
    folder = _hooks_folder(repository)
    hook, earlier = os.path.join(folder, HOOK), os.path.join(folder, EARLIER)
    there = _content(hook)
    if there is not None and not _ours(there):
        if not chosen.beside:
            return _not_done(
                f"There is a hook already: {hook}. It was left alone, and nothing was installed. `dryfit githook "
                f"install --beside` keeps it as {EARLIER} and runs it first; or call `dryfit githook run` from it."
            )
        if os.path.lexists(earlier):
            return _not_done(f"There are both a hook and an earlier one already: {hook}, {earlier}. Clear one away.")
    try:
        os.makedirs(folder, exist_ok=True)
        if there is not None and not _ours(there):
            os.rename(hook, earlier)
        _write(hook, _hook())
    except OSError as error:
        raise GitTrouble(f"The hook cannot be written to {folder}: {error.strerror}.") from None
    for key, values in ((PLANS, chosen.plan and wanted.plans), (RULES, chosen.rules and wanted.rules)):
        if values:
            repository.set_settings(key, [_as_setting(value) for value in values])
    if chosen.refuse:
        repository.set_settings(REFUSES, [chosen.refuse])
    _say(
        f"Installed: {hook}. Each commit in this repository is looked at before it is made.",
        f"Plans: {', '.join(wanted.plans) or 'every one that a commit touches'}. "
        f"Rulebooks besides Dryfit's own: {', '.join(wanted.rules) or 'none'}.",
        f"Refused: {REFUSALS[wanted.refuses]}. `dryfit githook --help` says how to ask for more or less.",
    )
    return DONE


def _remove(repository: Repository) -> int:
    """Take the hook away, and put back the one that it ran first; settings stay."""
    folder = _hooks_folder(repository)
    hook, earlier = os.path.join(folder, HOOK), os.path.join(folder, EARLIER)
    there = _content(hook)
    if there is None:
        return _not_done(f"There is no hook to remove: {hook}.")
    if not _ours(there):
        return _not_done(f"The hook {hook} is not the one that Dryfit wrote, or was changed since. It was left alone.")
    try:
        if os.path.lexists(earlier):
            os.replace(earlier, hook)
            _say(f"Removed. The hook that was there before is back: {hook}.")
        else:
            os.unlink(hook)
            _say(f"Removed: {hook}.")
    except OSError as error:
        raise GitTrouble(f"The hook {hook} cannot be removed: {error.strerror}.") from None
    return DONE


def _hooks_folder(repository: Repository) -> str:
    """Where git looks for the hooks of this repository; refused where those of other repositories lie there too."""
    folder, common = (
        os.path.normpath(os.path.join(repository.top, os.fsdecode(repository.git("rev-parse", *words)).rstrip("\n")))
        for words in (("--git-path", "hooks"), ("--git-common-dir",))
    )
    homes = [os.path.realpath(home) for home in (common, repository.top)]
    if not any(os.path.commonpath([home, os.path.realpath(folder)]) == home for home in homes):
        own = shlex.quote(os.path.join(common, "hooks"))
        raise GitTrouble(
            f"The setting core.hooksPath has git look for hooks in {folder}, outside of this repository: what is "
            "put there runs for other repositories too. Nothing was changed. Call `dryfit githook run` from the hook "
            f"there, or give this repository hooks of its own: `git config core.hooksPath {own}`."
        )
    return folder


def _content(hook: str) -> str | None:
    """What stands in a hook; None where there is none, '' for what cannot be read."""
    if not os.path.lexists(hook):
        return None
    try:
        with open(hook, encoding="utf-8", errors="surrogateescape") as opened:
            return opened.read(LONGEST)
    except OSError:
        return ""


def _hook() -> str:
    """The whole hook for this Python, with a digest by which it is known again."""
    script = SCRIPT.format(python=shlex.quote(sys.executable))
    return HEAD.format(digest=_digest(script)) + script


def _ours(hook: str) -> bool:
    """Whether a hook is one that dryfit wrote, now or in another version, and nobody has changed it since."""
    shebang, head, script = (*hook.split("\n", 2), "", "")[:3]
    return f"{shebang}\n{head}\n" == HEAD.format(digest=_digest(script))


def _digest(script: str) -> str:
    return hashlib.sha256(script.encode("utf-8", "surrogateescape")).hexdigest()


def _write(hook: str, script: str) -> None:
    """Write the hook beside its place, and move it there."""
    handle, beside = tempfile.mkstemp(dir=os.path.dirname(hook), prefix=f".{HOOK}.")
    try:
        with open(handle, "w", encoding="utf-8", errors="surrogateescape", newline="\n") as opened:
            opened.write(script)
        os.chmod(beside, 0o755)
        os.replace(beside, hook)
    except OSError:
        os.unlink(beside)
        raise


def _as_setting(path: str) -> str:
    return f"./{path}" if path.startswith("-") else path or "."


def _say(*texts: str) -> None:
    lines = [line for text in texts for line in wrapped(tamed(text))]
    sys.stdout.write("\n".join(lines) + "\n")


def _not_done(why: str) -> int:
    sys.stderr.write("\n".join(wrapped(tamed(why))) + "\n")
    return NOT_DONE
