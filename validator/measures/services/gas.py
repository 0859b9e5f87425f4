"""The gas pipe, and where its valve can be reached."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.appliances.appliance_places import fuel_of
from validator.measures.rows import Given, Known, LeftOut, Missing, Row, Rows, Subject, Words, given

if TYPE_CHECKING:
    from validator.measures.site import Site


class GasValve(Row, kind="gas pipe"):
    """The pipe to a gas appliance, and where its valve can be reached."""

    valve: str = given(Words(("in a unit", "behind an appliance", "elsewhere")), "where its valve is")


def gas_valves(site: Site) -> Rows:
    """One row where the plan has a gas pipe; where it only has what burns gas, nobody knows of the pipe to it."""
    gas = site.plan.gas
    if gas is None:
        missing = Missing("/gas", "gas pipe and its valve")
        return Rows(left_out=[LeftOut(GasValve.kind, missing)] if _burns_gas(site) else [])
    pointer = gas.pointer_to("valve")
    where: Given = Missing(pointer, "unit in which the gas valve can be reached")
    if gas.valve is not None:
        found = site.setting_out.find(gas.valve)
        family = found.item.family if found is not None else ""
        words = {"unit": "in a unit", "opening": "behind an appliance"}
        where = reading.exactly(words.get(family, "elsewhere"), pointer, "where the gas valve is")
    return Rows([GasValve(Subject("gas pipe", gas.pointer), valve=where)])


def _burns_gas(site: Site) -> bool:
    fuels = [fuel_of(name, appliance) for name, appliance in site.plan.appliances.items()]
    return any(isinstance(fuel, Known) and fuel.value == "gas" for fuel in fuels)
