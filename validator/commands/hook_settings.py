"""What the hook looks at and what it refuses: as asked on the command line, else as git keeps it for the repository."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from validator.commands.revisions import GitTrouble, Repository
from validator.plan.names import fold, nearest

PLANS, RULES, REFUSES = "dryfit.plan", "dryfit.rules", "dryfit.refuses"

REFUSALS = {
    "unreadable": "plans and rulebooks that cannot be read",
    "new-stops": "plans and rulebooks that cannot be read, and each STOP that the last commit did not have",
    "not-ready": "plans and rulebooks that cannot be read, and every plan that is not ready",
}
USUAL = "new-stops"


@dataclass(frozen=True, slots=True)
class Settings:
    """Paths of plans and rulebooks from the top of the repository (of rulebooks outside of it, absolute), what is
    refused, and the day to judge on.
    """

    plans: tuple[str, ...]
    rules: tuple[str, ...]
    refuses: str
    on: date | None

    @property
    def own_rules(self) -> tuple[str, ...]:
        """The rulebooks in the repository, which are read as they are staged."""
        return tuple(path for path in self.rules if not os.path.isabs(path))

    @property
    def other_rules(self) -> tuple[str, ...]:
        return tuple(path for path in self.rules if os.path.isabs(path))


def settings(
    repository: Repository, plans: Sequence[str], rules: Sequence[str], refuse: str | None, on: date | None
) -> Settings:
    """What was asked for, by paths from the current folder, else what git keeps, by paths from the top.

    Raises GitTrouble for what cannot be meant.
    """

    kept = repository.settings("dryfit")

    def paths(key: str) -> list[str]:
        return [os.path.join(repository.top, os.path.expanduser(path)) for path in kept.get(key, ())]

    return Settings(
        tuple(dict.fromkeys(map(repository.within, plans or paths(PLANS)))),
        tuple(dict.fromkeys(_rulebook(repository, path) for path in rules or paths(RULES))),
        _refuses(refuse or kept.get(REFUSES, [USUAL])[-1]),
        on,
    )


def _rulebook(repository: Repository, path: str) -> str:
    try:
        return repository.within(path)
    except GitTrouble:
        if os.path.exists(path):
            return os.path.abspath(path)
        raise GitTrouble(f"There is no rulebook {path}.") from None


def _refuses(said: str) -> str:
    found = next((word for word in REFUSALS if fold(word) == fold(said)), None)
    if found is None:
        meant = nearest(said, REFUSALS)
        perhaps = f" Perhaps «{meant}» was meant." if meant else ""
        raise GitTrouble(f"`{said}` is nothing that {REFUSES} can be. Expected: {', '.join(REFUSALS)}.{perhaps}")
    return found
