"""`dryfit schema`: the JSON Schema of a plan or a rulebook, for editors."""

from __future__ import annotations

import argparse
import json
import sys

from validator.commands.inspecting import library, say_unreadable
from validator.plan.problems import Unreadable

DONE, UNREADABLE = 0, 2


def run(chosen: argparse.Namespace) -> int:
    """Print the schema; it is the same whenever it is asked for."""
    try:
        shelf = library()
    except Unreadable as unreadable:
        say_unreadable(unreadable, "rulebook")
        return UNREADABLE
    if chosen.rules:
        from validator.reporting.rule_schema import book_schema

        schema = book_schema(shelf)
    else:
        from validator.reporting.plan_schema import plan_schema

        schema = plan_schema(shelf)
    sys.stdout.write(json.dumps(schema, indent=2, ensure_ascii=False) + "\n")
    return DONE
