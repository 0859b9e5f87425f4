"""What the survey finds: suspect materials, and ways for new circuits."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find

OLD = "project: {title: Heron Wharf, country: GB-ENG, lengths in: mm, built: 1931}"


def test_a_survey_that_says_nothing_of_asbestos_leaves_it_to_find_out() -> None:
    found = rows("survey: {lead paint: none}", "suspect material", OLD)
    assert [(each.substance, to_find(each, "result")) for each in found] == [("asbestos", {"/survey/asbestos"})]


def test_none_there_leaves_no_row() -> None:
    assert rows("survey: {asbestos: none, lead paint: none}", "suspect material", OLD) == []


def test_each_suspect_material_is_a_row_with_its_result() -> None:
    text = "survey: {asbestos: {tiles: none by laboratory on 2027-02-01, flue: present}, lead paint: none}"
    assert {each.subject.name: each.result for each in rows(text, "suspect material", OLD)} == {
        "tiles": "none",
        "flue": "present",
    }


def test_a_material_still_to_be_tested_says_who_can_tell() -> None:
    (found,) = rows("survey: {asbestos: {tiles: to find out by laboratory}, lead paint: none}", "suspect material", OLD)
    assert found.why_not_known("result")[0].by == "laboratory"


def test_new_circuits_take_their_ways_from_those_that_are_free() -> None:
    text = "survey: {consumer unit: {ways free: 3}}\ncircuits: {ring: {ways: 0}, oven: {ways: 1}, heater: {ways: 1}}"
    assert row(text, "consumer unit").ways_left == 1


def test_a_circuit_that_does_not_say_its_ways_may_be_new() -> None:
    text = "survey: {consumer unit: {ways free: 3}}\ncircuits: {ring: {ways: 0}, oven: {device: 16 A}}"
    assert to_find(row(text, "consumer unit"), "ways_left") == {"/circuits/oven/ways"}


def test_a_plan_that_looked_at_no_consumer_unit_and_plans_no_circuit_has_no_row() -> None:
    assert rows("circuits: {ring: {device: 32 A}}", "consumer unit") == []


def test_the_room_in_front_of_a_consumer_unit_is_as_measured() -> None:
    assert row("survey: {consumer unit: {clear in front: 900}}", "consumer unit").clear == 900


@pytest.mark.parametrize("text", ["survey: {consumer unit: {in: hall}}", "circuits: {oven: {ways: 1}}"])
def test_room_in_front_of_a_consumer_unit_that_nobody_measured_is_to_find_out(text: str) -> None:
    assert to_find(row(text, "consumer unit"), "clear") == {"/survey/consumer unit/clear in front"}
