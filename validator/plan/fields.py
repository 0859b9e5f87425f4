"""The types of a plan's fields: pydantic reads them from the text a person wrote. (contract; see each docstring)"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, core_schema

from validator.plan import dimensions as dim
from validator.plan.dimensions import Dimension
from validator.plan.values import NothingStated, Quantity, ToFind


@dataclass(frozen=True, slots=True)
class QuantityOf:
    """Marks a field that holds a quantity of one dimension, or `to find out`; a bare number is a length in the plan's
    `lengths in` (from the validation context). `none` marks makers' figures, where `none` means read and nothing given."""

    dimension: Dimension
    none: bool = False

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        raise NotImplementedError


Length = Annotated[Quantity | ToFind, QuantityOf(dim.LENGTH)]
Area = Annotated[Quantity | ToFind, QuantityOf(dim.AREA)]
Duration = Annotated[Quantity | ToFind, QuantityOf(dim.DURATION)]
Current = Annotated[Quantity | ToFind, QuantityOf(dim.CURRENT)]
Power = Annotated[Quantity | ToFind, QuantityOf(dim.POWER)]
LineLoad = Annotated[Quantity | ToFind, QuantityOf(dim.LINE_LOAD)]
Slope = Annotated[Quantity | ToFind, QuantityOf(dim.SLOPE)]
WaterAdded = Annotated[Quantity | ToFind, QuantityOf(dim.WATER_ADDED)]
Moisture = Annotated[Quantity | ToFind, QuantityOf(dim.MOISTURE)]
Date = Annotated[Quantity | ToFind, QuantityOf(dim.DATE)]
MakersLength = Annotated[Quantity | ToFind | NothingStated, QuantityOf(dim.LENGTH, none=True)]
MakersWaterAdded = Annotated[Quantity | ToFind | NothingStated, QuantityOf(dim.WATER_ADDED, none=True)]
MakersDuration = Annotated[Quantity | ToFind | NothingStated, QuantityOf(dim.DURATION, none=True)]

Term = str | ToFind
"""A word of the trade (`plasterboard`, `gas hob`) or `to find out`; compared by `fold`."""


@dataclass(frozen=True, slots=True)
class Along:
    """A place along a wall: `1950 from west` (a named neighbouring wall), or `fronts of sink run`."""

    amount: Quantity | ToFind
    from_: str
    fronts_of: str = ""


@dataclass(frozen=True, slots=True)
class Height:
    """A height: `1060 from bare floor`, `150 above worktop`, `340 below ceiling`. Datum '' is the file's `heights from`."""

    amount: Quantity | ToFind
    relation: Literal["from", "above", "below"] = "from"
    datum: Literal["", "bare floor", "finished floor", "worktop", "ceiling"] = ""


@dataclass(frozen=True, slots=True)
class Size:
    """`598 w x 820 h x 550 d` in any order; a plate or a cut-out `146 x 86` is width by height (or depth)."""

    w: Quantity | None = None
    h: Quantity | None = None
    d: Quantity | None = None


@dataclass(frozen=True, slots=True)
class StatedFigure:
    """A maker's figure with where it is measured from: `700 from pan support`; `none`; to find out is unread."""

    amount: Quantity | ToFind | NothingStated
    from_: str = ""
