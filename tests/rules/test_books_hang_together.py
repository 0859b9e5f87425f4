"""The lists behind the books: questions, cautions, documents and groups name only what is there, and all of it."""

from __future__ import annotations

from typing import get_args

from tests.rules.trials import all_rules, library
from validator.measures.catalogue import MEASURES
from validator.measures.site import row_class
from validator.plan.names import fold
from validator.plan.sections.services import Circuit
from validator.reference.folder import rules_folder
from validator.reference.jobsheets import read_jobsheets

MADE_BY_JUDGING = "departure"


def test_every_field_has_a_question_and_every_question_a_field() -> None:
    """Rows of departures are made of what is judged, so that nothing of them is ever to find out."""
    fields = {f"{kind}.{field}" for kind in MEASURES if kind != MADE_BY_JUDGING for field in row_class(kind).fields}
    assert set(library().questions) == fields


def test_cautions_are_for_kinds_of_rows_that_there_are() -> None:
    assert {kind for caution in library().cautions for kind in caution.kinds} <= set(MEASURES)


def test_a_caution_weighs_things_by_a_figure_that_there_is() -> None:
    weighed = [caution.heaviest for caution in library().cautions if caution.heaviest]
    assert weighed
    assert all(figure in row_class(kind).figures for kind, figure in weighed)


def test_every_document_is_cited() -> None:
    cited = {rule.source.document for rule in all_rules().values()}
    cited |= {table.source.document for tables in library().tables.values() for table in tables}
    cited |= {caution.source.document for caution in library().cautions}
    trades = read_jobsheets(rules_folder(), library().documents).trades.values()
    cited |= {leave.source.document for trade in trades for leave in trade.leaves}
    assert set(library().documents) - cited == set()


def test_bases_are_all_that_can_carry() -> None:
    groups = library().groups
    masonry = groups["solid_bases"] | groups["hollow_bases"] | groups["light_bases"] | groups["aerated_bases"]
    assert groups["masonry_bases"] == masonry
    assert groups["bases"] == masonry | groups["timber_bases"] | groups["metal_studs"] | groups["backing_boards"]


def test_nothing_both_carries_and_covers() -> None:
    assert library().groups["bases"] & library().groups["coverings"] == set()


def test_every_floor_floats_or_is_fixed() -> None:
    groups = library().groups
    assert groups["floating_floors"] & groups["fixed_floors"] == set()
    products = ("laminate_floors", "wood_floors", "rigid_vinyl_floors", "click_vinyl_floors", "resilient_floors")
    for product in (*products, "textile_floors"):
        assert groups[product] <= groups["floating_floors"] | groups["fixed_floors"]


def test_every_masonry_base_has_an_embedment() -> None:
    table = library().table("nominal-embedment", "GB")
    assert table is not None
    assert set(table.words("base")) == library().groups["masonry_bases"]


def test_every_way_a_cable_lies_in_insulation_is_one_that_a_plan_can_say() -> None:
    """Of the ways a plan knows, one lies clear of insulation: the table's figure for all others allows for it."""
    ways = {fold(way) for part in get_args(Circuit.model_fields["laid"].annotation) for way in _words(part)}
    assert ways - library().groups["ways_in_insulation"] == {"clipped direct or in plaster"}
    assert library().groups["ways_in_insulation"] <= ways


def _words(part: object) -> list[str]:
    return [word for word in get_args(part) if isinstance(word, str)] + [w for p in get_args(part) for w in _words(p)]
