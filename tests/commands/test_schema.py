"""`dryfit schema`: what an editor needs to know of plans and of rulebooks."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from tests.commands.conftest import Here
from tests.commands.running import DEMO, ON, dryfit, environment_with

BOTH = pytest.mark.parametrize("words", [(), ("--rules",)], ids=["plan", "rules"])


@BOTH
def test_it_prints_one_schema_and_nothing_else(here: Here, words: tuple[str, ...]) -> None:
    ran = here("schema", *words)
    assert (ran.status, ran.err) == (0, "")
    assert json.loads(ran.out)["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_a_plan_and_a_rulebook_have_schemas_of_their_own(here: Here) -> None:
    plan, rules = json.loads(here("schema").out), json.loads(here("schema", "--rules").out)
    assert (plan["$id"], rules["$id"]) == ("urn:dryfit:plan:1", "urn:dryfit:rulebook:1")
    assert list(rules["properties"]) == ["book", "rules"]


@BOTH
def test_the_same_bytes_come_out_however_names_are_hashed(words: tuple[str, ...]) -> None:
    one, other = (dryfit("schema", *words, environment={"PYTHONHASHSEED": seed}).out for seed in ("1", "2"))
    assert one.startswith("{")
    assert one == other


@pytest.mark.parametrize(
    "words", [("check", str(DEMO / "tern-cottage"), "--on", ON), ("schema",)], ids=["check", "schema"]
)
def test_nothing_that_judges_by_schemas_is_loaded_and_to_check_nothing_that_makes_them(words: tuple[str, ...]) -> None:
    asked = f"from validator.commands.main import main; main({list(words)}); import sys; print(*sys.modules)"
    ran = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, env=environment_with({}), check=True
    )
    loaded = set(ran.stdout.splitlines()[-1].split())
    assert "validator.commands.main" in loaded
    assert "jsonschema" not in loaded
    makes = {"validator.reporting.plan_schema", "validator.reporting.rule_schema"}
    assert makes & loaded == (makes if words[0] == "schema" else set())
