"""What everything comes to, and what trades ask beforehand."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows, to_find

WORKS = """
people: {joiner: {quote: 1500}, plumber: {estimate: 500}}
deliveries: {units: {price: 2400}}
appliances: {oven: {price: 600}}
"""


NOBODY = "people: none\n"
NONE = "deliveries: none\nappliances: none\n"


def test_everything_with_a_price_counts_once() -> None:
    assert row(WORKS + "money: {sundries: 200, contingency: 10 %, vat: included}", "budget").works == 5200


def test_tax_is_added_to_the_works_and_to_the_reserve() -> None:
    found = row(WORKS + "money: {contingency: 10 %, vat: 20 %}", "budget")
    assert found.total == pytest.approx(5000 * 1.10 * 1.20)


def test_a_trade_that_does_a_part_without_a_price_leaves_the_sum_open() -> None:
    text = "people: {joiner: {quote: 900}, tiler: {trade: tiling}}\nwork: {order: usual, tile: {by: tiler}}\n" + NONE
    found = row(text + "money: {contingency: 10 %}", "budget")
    assert to_find(found, "works") == {"/people/tiler/quote"}


def test_a_householder_works_for_nothing() -> None:
    text = (
        "people: {householder: {register: none}, joiner: {quote: 900}}\nwork: {order: usual, tile: {by: householder}}\n"
    )
    assert row(text + NONE + "money: {vat: none}", "budget").works == 900


def test_a_delivery_of_appliances_that_have_prices_needs_none_of_its_own() -> None:
    text = NOBODY + "deliveries: {appliances: {due: 2027-04-01}}\nappliances: {oven: {price: 600}}\nmoney: {vat: none}"
    assert row(text, "budget").works == 600


def test_an_appliance_without_a_price_leaves_the_sum_open_though_others_have_theirs() -> None:
    text = (
        NOBODY + "deliveries: {appliances: {due: 2027-04-01}}\nappliances: {oven: {price: 600}, hob: {is: gas hob}}\n"
    )
    assert to_find(row(text + "money: {vat: none}", "budget"), "works") == {"/appliances/hob/price"}


@pytest.mark.parametrize("delivery", ["hob", "appliances"])
def test_an_appliance_costs_what_its_delivery_does(delivery: str) -> None:
    text = (
        NOBODY
        + f"deliveries: {{{delivery}: {{price: 450}}}}\nappliances: {{hob: {{is: gas hob}}}}\nmoney: {{vat: none}}"
    )
    assert row(text, "budget").works == 450


@pytest.mark.parametrize("delivery", ["oven", "appliances"])
def test_a_price_with_a_delivery_and_with_all_that_it_brings_is_not_counted_twice(delivery: str) -> None:
    both = f"deliveries: {{{delivery}: {{price: 450}}}}\nappliances: {{oven: {{price: 450}}}}\n"
    text = NOBODY + both + "money: {vat: none}"
    assert to_find(row(text, "budget"), "works") == {f"/deliveries/{delivery}/price"}


@pytest.mark.parametrize(
    ("delivery", "appliances", "works"),
    [
        ("appliances: {price: 450}", "oven: {price: 600}, hob: {is: gas hob}", 1050),
        ("oven: {price: 0}", "oven: {price: 600}", 600),
    ],
)
def test_a_delivery_that_brings_more_or_costs_nothing_is_counted(delivery: str, appliances: str, works: float) -> None:
    text = f"{NOBODY}deliveries: {{{delivery}}}\nappliances: {{{appliances}}}\nmoney: {{vat: none}}"
    assert row(text, "budget").works == works


def test_an_appliance_delivered_by_itself_without_a_price_leaves_the_sum_open() -> None:
    text = NOBODY + "deliveries: {hob: {due: 2027-04-01}}\nappliances: {hob: {is: gas hob}}\nmoney: {vat: none}"
    assert to_find(row(text, "budget"), "works") == {"/appliances/hob/price"}


def test_what_a_plan_says_nothing_of_is_not_free() -> None:
    found = row("money: {limit: 1500, contingency: 10 %, vat: none}", "budget")
    assert to_find(found, "works") == {"/people", "/deliveries", "/appliances"}


def test_a_task_that_nobody_is_said_to_do_leaves_the_sum_open() -> None:
    text = "people: {joiner: {quote: 900}}\nwork: {order: usual, plaster: {takes: 1 day}}\n" + NONE
    assert to_find(row(text + "money: {vat: none}", "budget"), "works") == {"/work/plaster/by"}


def test_a_plan_without_money_is_not_judged_on_what_it_costs() -> None:
    assert rows(WORKS, "budget") == []


def test_what_is_to_be_paid_beforehand_is_not_taken_for_nothing() -> None:
    assert to_find(row("people: {joiner: {quote: 900}}", "price of a trade"), "deposit") == {"/people/joiner/deposit"}


def test_a_deposit_without_a_price_is_a_share_of_one_to_find_out() -> None:
    found = row("people: {joiner: {deposit: 90}}", "price of a trade")
    assert to_find(found, "share") == to_find(found, "basis") == {"/people/joiner/quote"}


def test_somebody_without_price_and_deposit_has_nothing_to_judge() -> None:
    assert rows("people: {joiner: {trade: joinery}}", "price of a trade") == []


def test_a_deposit_is_a_share_of_the_price() -> None:
    assert row("people: {joiner: {quote: 900, deposit: 90}}", "price of a trade").share == pytest.approx(0.1)
