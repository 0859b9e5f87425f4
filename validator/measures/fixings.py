"""Fixings in walls: how deep they sit in what carries, layer by layer."""

from __future__ import annotations

from validator.measures.arithmetic import total
from validator.measures.rows import TERM, Row, Words, figure, given
from validator.plan.dimensions import LENGTH


class FixingInWall(Row, kind="fixing in a wall"):
    """A plug or screw through a fixture and the layers that carry nothing, into the layer that does. One row a wall."""

    kind_of: str = given(Words(("frame fixing", "plug and screw", "wood screw")), "kind of fixing")
    length: float = given(LENGTH, "long")
    through: float = given(LENGTH, "rail")
    coverings: tuple[float, ...] = given(LENGTH, "layers that carry nothing", many=True)
    base: str = given(TERM, "what carries it")
    base_thickness: float = given(LENGTH, "thickness of what carries it")
    plug_diameter: float = given(LENGTH, "diameter of the plug")
    hole_depth: float = given(LENGTH, "depth of the hole")
    maker_embedment: float = given(LENGTH, "embedment its maker asks for")
    carries: str = given(Words(("wall units", "tall units", "other")), "what hangs on it")

    @figure(LENGTH, "embedment", start="face of what carries it", end="tip of the fixing")
    def embedment(self) -> float:
        return self.length - self.through - total(self.coverings)

    @figure(LENGTH, "hole past the tip", start="tip of the fixing", end="end of the hole")
    def hole_past_tip(self) -> float:
        return self.hole_depth + self.through - self.length

    @figure(LENGTH, "left behind the hole", start="end of the hole", end="far face of what carries it")
    def left_behind(self) -> float:
        return total(self.coverings) + self.base_thickness - self.hole_depth
