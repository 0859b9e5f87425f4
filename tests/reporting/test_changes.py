"""Two judgements of a plan compared by rule and thing: what is the same point, and what became of it."""

from __future__ import annotations

from datetime import date

from tests.reporting.plans import PLANS, WASTE
from validator.commands.inspecting import Inspector
from validator.judging.apply import Judgement
from validator.judging.outcomes import Outcome
from validator.plan.files import documents_of
from validator.plan.merging import merge
from validator.reporting.changes import Pair, compare, figures, new_stops

DAY = date(2027, 3, 1)
INSPECTOR = Inspector([], DAY)

FALL = "waste-fall"
STEEP = """\
requirements:
  steep waste: {each: waste, figure: slope, at_least: 15 mm/m, severity: %s, title: Steep}
"""


def judged(text: str) -> Judgement:
    return INSPECTOR.inspect(merge(documents_of([("plan.yaml", text.encode())])))


def wastes(**slopes: str) -> str:
    """A plan of sinks by name, each with the fall of its waste; below 18 mm/m it is not met."""
    lines = "".join(
        f"  {name}: {{is: sink, waste: 40 mm to stack 1500 at {slope}}}\n" for name, slope in slopes.items()
    )
    return WASTE.replace("  sink: {waste: 40 mm to stack 2600 at 12 mm/m}\n", lines)


def things(pairs: tuple[Pair, ...]) -> list[tuple[str, str]]:
    """Rule and name of each pair, as they are now, else as they were."""
    found = [pair.now or pair.before for pair in pairs]
    return [(outcome.rule.name, outcome.subject.name) for outcome in found if outcome is not None]


def names(outcomes: list[Outcome]) -> list[str]:
    return [outcome.subject.name for outcome in outcomes]


def test_the_same_plan_has_no_changes() -> None:
    plan = wastes(left="12 mm/m", right="20 mm/m")
    changes = compare(judged(plan), judged(plan))
    assert changes.nothing
    assert changes.unchanged_points == 1


def test_with_nothing_before_every_point_and_every_errand_is_brought() -> None:
    now = judged(wastes(left="12 mm/m").replace("floors: none\n", ""))
    changes = compare(None, now)
    assert things(changes.brought) == [(FALL, "left")]
    assert "/floors" in [errand.at for errand in changes.asked]
    assert (changes.unchanged_points, changes.unchanged_errands) == (0, 0)


def test_a_point_at_another_thing_is_brought_while_the_first_is_as_it_was() -> None:
    changes = compare(judged(wastes(left="12 mm/m", right="20 mm/m")), judged(wastes(left="12 mm/m", right="13 mm/m")))
    assert things(changes.brought) == [(FALL, "right")]
    assert (changes.moved, changes.cured, changes.unchanged_points) == ((), (), 1)


def test_the_order_of_things_in_the_file_counts_for_nothing() -> None:
    changes = compare(judged(wastes(left="12 mm/m", right="20 mm/m")), judged(wastes(right="20 mm/m", left="12 mm/m")))
    assert changes.nothing


def test_one_cured_and_another_brought_are_not_one_that_moved() -> None:
    changes = compare(judged(wastes(left="12 mm/m", right="20 mm/m")), judged(wastes(left="20 mm/m", right="13 mm/m")))
    assert things(changes.brought) == [(FALL, "right")]
    assert things(changes.cured) == [(FALL, "left")]
    assert changes.moved == ()


def test_a_point_that_moved_has_both_figures() -> None:
    changes = compare(judged(wastes(left="12 mm/m")), judged(wastes(left="14 mm/m")))
    assert things(changes.moved) == [(FALL, "left")]
    pair = changes.moved[0]
    assert (figures(pair.before), figures(pair.now)) == ((0.012, 0.018), (0.014, 0.018))


def test_units_of_a_run_that_is_called_otherwise_are_the_same_units() -> None:
    text = (PLANS["weavers-row"] / "plan.yaml").read_text("utf-8")
    before, now = judged(text), judged(text.replace("window wall units", "hung units"))
    hangers = [name for _, name in things(compare(None, before).brought) if name.startswith("W1")]
    assert hangers
    assert not [name for _, name in things(compare(before, now).brought) if name in hangers]


def test_names_compare_as_the_plan_compares_them() -> None:
    before, now = wastes(by_the_door="12 mm/m"), wastes(**{"by the door": "12 mm/m"})
    assert compare(judged(before), judged(now)).nothing


def test_a_rule_that_has_become_graver_is_brought_again() -> None:
    before, now = (judged(wastes(left="12 mm/m") + STEEP % severity) for severity in ("improve", "stop"))
    assert things(compare(before, now).brought) == [("steep waste", "left")]
    assert compare(now, before).brought == ()


def test_a_rule_that_the_household_takes_back_takes_its_point_with_it() -> None:
    before, now = judged(wastes(left="12 mm/m") + STEEP % "stop"), judged(wastes(left="12 mm/m"))
    changes = compare(before, now)
    assert things(changes.cured) == [("steep waste", "left")]
    assert changes.cured[0].now is None


def test_a_departure_that_is_agreed_cures_its_point() -> None:
    agreed = "agreed:\n  waste-fall: {at: left, reason: joists, by: householder}\n"
    changes = compare(judged(wastes(left="12 mm/m")), judged(wastes(left="12 mm/m") + agreed))
    assert [pair.now.result.value for pair in changes.cured if pair.now is not None] == ["agreed"]


def test_an_errand_that_comes_to_hold_up_a_stop_is_asked_anew() -> None:
    unknown = wastes(left="to find out by plumber")
    changes = compare(judged(unknown), judged(unknown + STEEP % "stop"))
    assert [errand.stops for errand in changes.asked] == [True]
    assert changes.answered == ()


def test_an_errand_that_is_answered_is_no_longer_asked() -> None:
    changes = compare(judged(wastes(left="to find out by plumber")), judged(wastes(left="20 mm/m")))
    assert [errand.missing.by for errand in changes.answered] == ["plumber"]
    assert not changes.blocks()


def test_only_what_is_brought_blocks() -> None:
    bad, good = judged(wastes(left="12 mm/m")), judged(wastes(left="20 mm/m"))
    assert compare(good, bad).blocks()
    assert not compare(bad, bad).blocks()
    assert not compare(bad, good).blocks()
    assert not compare(good, bad).blocks("stop")


def test_a_country_taken_out_blocks() -> None:
    before = judged(wastes(left="20 mm/m"))
    now = judged(wastes(left="20 mm/m").replace("country: GB-ENG, ", ""))
    assert compare(before, now).blocks()
    assert not compare(now, now).blocks()


class TestNewStops:
    def test_a_stop_is_new_where_it_was_met(self) -> None:
        before, now = (judged(wastes(left=slope) + STEEP % "stop") for slope in ("20 mm/m", "12 mm/m"))
        assert names(new_stops(before, now)) == ["left"]

    def test_a_stop_is_new_where_it_was_not_known(self) -> None:
        before, now = (judged(wastes(left=slope) + STEEP % "stop") for slope in ("to find out", "12 mm/m"))
        assert names(new_stops(before, now)) == ["left"]

    def test_a_stop_is_new_where_it_was_milder(self) -> None:
        before, now = (judged(wastes(left="12 mm/m") + STEEP % severity) for severity in ("put right", "stop"))
        assert names(new_stops(before, now)) == ["left"]

    def test_a_stop_that_got_worse_is_not_new(self) -> None:
        before, now = (judged(wastes(left=slope) + STEEP % "stop") for slope in ("12 mm/m", "11 mm/m"))
        assert new_stops(before, now) == []

    def test_a_stop_not_known_is_none_that_is_not_met(self) -> None:
        before, now = (judged(wastes(left=slope) + STEEP % "stop") for slope in ("20 mm/m", "to find out"))
        assert new_stops(before, now) == []

    def test_what_was_before_may_be_judged_by_those_rules_alone(self) -> None:
        now = judged(wastes(left="12 mm/m", right="12 mm/m") + STEEP % "stop")
        text = wastes(left="12 mm/m", right="20 mm/m") + STEEP % "stop"
        files = merge(documents_of([("plan.yaml", text.encode())]))
        before = INSPECTOR.inspect(files, lambda rule: rule.name == "steep waste")
        assert {outcome.rule.name for outcome in before.outcomes} == {"steep waste"}
        assert names(new_stops(before, now)) == ["right"]
