"""Sums of money and limits of deposits against worked examples and the text of the law."""

from __future__ import annotations

import pytest

from tests.measures.plans import row, rows
from validator.judging.books import read_rulebooks
from validator.reference.folder import rules_folder
from validator.reference.library import read_library


def test_works_reserve_and_tax_of_an_elemental_cost_plan() -> None:
    """Five groups of 14,100 net, 12.5 % contingency, 20 % VAT on both: 1,762.50, 3,172.50 and 19,035.00.

    Layout of an elemental cost plan (RICS NRM 1, secondary); the sum itself is arithmetic done by hand.
    """
    text = """
people: {strip out firm: {quote: 900}, plasterer: {quote: 2100}, services: {quote: 2900}}
deliveries: {units: {price: 7600}}
appliances: none
money: {fees: 600, contingency: 12.5 %, vat: 20 %}
"""
    found = row(text, "budget")
    assert (found.works, found.reserve, found.tax_added, found.total) == pytest.approx((14100, 1762.5, 3172.5, 19035))


@pytest.mark.parametrize(("price", "cap"), [(800, 80), (5000, 500), (8000, 800), (15000, 1000), (50000, 1000)])
def test_a_down_payment_in_california_is_a_tenth_or_a_thousand_dollars(price: int, cap: int) -> None:
    """California Business and Professions Code 7159 and 7159.5 (secondary): 10 %, at most 1,000 dollars."""
    library = read_library(rules_folder())
    books = read_rulebooks(rules_folder(), library, "US-CA")
    (rule,) = [rule for rule in books.rules if rule.name == "deposit-small"]
    project = "project: {title: Heron Wharf, country: US-CA, currency: USD}"
    (trade,) = rows(f"people: {{joiner: {{quote: {price}, deposit: 1}}}}", "price of a trade", project)
    share, table = rule.limits
    assert share.expression is not None
    assert table.row is not None
    found = library.table(table.row.table, "US-CA")
    assert found is not None
    most = found.find(table.row.gives, {"basis": trade.basis})
    assert most is not None
    assert min(float(share.expression.evaluate(trade, rule.names)), float(most.value)) == pytest.approx(cap)
