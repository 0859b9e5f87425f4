"""The gas pipe: where its valve is, and gas appliances of which the pipe is not in the plan."""

from __future__ import annotations

import pytest

from tests.measures.plans import left_out, row, rows

KIND = "gas pipe"
RUNS = "kinds: {base: {height: 720}}\nruns: {a: {against: north, order: {B1: base 600, oven: 600}}}\n"


@pytest.mark.parametrize(("valve", "where"), [("B1", "in a unit"), ("oven", "behind an appliance")])
def test_a_gas_valve_is_where_its_unit_is(valve: str, where: str) -> None:
    assert row(RUNS + f"gas: {{valve: {valve}}}", KIND).valve == where


@pytest.mark.parametrize("appliance", ["hob: {is: gas hob}", "gas cooker: {in: oven}"])
def test_what_burns_gas_without_a_pipe_in_the_plan_asks_for_the_pipe(appliance: str) -> None:
    assert left_out(RUNS + f"appliances: {{{appliance}}}", KIND) == ["/gas"]


def test_where_nothing_burns_gas_there_is_no_pipe_to_ask_for() -> None:
    text = RUNS + "appliances: {hob: {is: induction hob}}"
    assert (rows(text, KIND), left_out(text, KIND)) == ([], [])
