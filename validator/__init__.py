"""Dryfit: works a kitchen fit-out plan through and judges it by rules that name their source.

`from validator import check` judges plans from Python.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from validator.commands.many import Checked, check

__all__ = ["Checked", "check"]


def __getattr__(name: str) -> Any:
    """Nothing is imported before it is asked for, so that the command starts quickly."""
    if name in __all__:
        from validator.commands import many

        return getattr(many, name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
