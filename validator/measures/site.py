"""A plan with the books that apply to it and the day it is judged on: what every measure starts from."""

from __future__ import annotations

import importlib
from collections.abc import Callable
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING, Any

from validator.measures.catalogue import MEASURES
from validator.measures.rows import Row, Rows
from validator.plan.plan import Plan
from validator.reference.library import Library

if TYPE_CHECKING:
    from validator.measures.drilling.drill_points import Strips
    from validator.measures.drilling.holes import Holes
    from validator.measures.drilling.records import Records
    from validator.measures.drilling.routes import Routes
    from validator.measures.fixings.fixings import FixingsFound
    from validator.measures.fixings.ways_through_walls import MakeUps
    from validator.measures.heights.levels import Levels
    from validator.measures.plane.clear_to_open import Opening
    from validator.measures.plane.clear_ways import ClearWays
    from validator.measures.plane.footprints import Plane
    from validator.measures.runs.run_places import SettingOut
    from validator.measures.services.point_places import PointPlaces
    from validator.measures.worktops.cut_outs import Placed
    from validator.measures.worktops.pieces import Piece
    from validator.measures.worktops.tops import Tops
    from validator.reference.measuring import Ways


class Site:
    """A plan under inspection. Rows of a kind are worked out once, when they are first asked for.

    `ways` reads how open values are found out, once somebody asks.
    """

    def __init__(self, plan: Plan, library: Library, on: date, ways: Callable[[], Ways] | None = None) -> None:
        self.plan = plan
        self.library = library
        self.on = on
        self._ways = ways
        self._rows: dict[str, Rows] = {}

    @cached_property
    def ways(self) -> Ways | None:
        """How an open value of the plan is found out, by its place; None where nobody said how to read it."""
        return self._ways() if self._ways is not None else None

    @property
    def country(self) -> str:
        """The plan's country, or '' where it does not say."""
        return self.plan.project.country or ""

    @cached_property
    def setting_out(self) -> SettingOut:
        """Where everything in the runs stands along its wall."""
        from validator.measures.runs.run_places import set_out

        return set_out(self.plan)

    @cached_property
    def levels(self) -> Levels:
        """How high everything comes, from the bare floor at its high spot."""
        from validator.measures.heights.levels import Levels

        return Levels(self.plan, self.setting_out)

    @cached_property
    def make_ups(self) -> MakeUps:
        """What the walls are made of, part by part."""
        from validator.measures.fixings.ways_through_walls import MakeUps

        return MakeUps(self)

    @cached_property
    def records(self) -> Records:
        """What was found in the walls while they could be looked into."""
        from validator.measures.drilling.records import Records

        return Records(self)

    @cached_property
    def fixings(self) -> FixingsFound:
        """What every fixing goes through and into, and which fixings hold each thing."""
        from validator.measures.fixings.fixings import FixingsFound

        return FixingsFound(self)

    @cached_property
    def plane(self) -> Plane:
        """The rooms from above with what stands and hangs in them."""
        from validator.measures.plane.footprints import plane_of

        return plane_of(self)

    @cached_property
    def opening(self) -> Opening:
        """What opens in the room, and how clear of everything else."""
        from validator.measures.plane.clear_to_open import Opening

        return Opening(self)

    @cached_property
    def clear_ways(self) -> ClearWays:
        """How far the ways before the runs are clear."""
        from validator.measures.plane.clear_ways import ClearWays

        return ClearWays(self)

    @cached_property
    def holes(self) -> Holes:
        """Every hole that is to be drilled into a wall."""
        from validator.measures.drilling.holes import Holes

        return Holes(self)

    @cached_property
    def routes(self) -> Routes:
        """The cables and pipes recorded in the walls."""
        from validator.measures.drilling.routes import Routes

        return Routes(self)

    @cached_property
    def strips(self) -> Strips:
        """The strips of every wall in which cables may run."""
        from validator.measures.drilling.drill_points import Strips

        return Strips(self)

    @cached_property
    def points(self) -> PointPlaces:
        """Where every electrical point is along its wall."""
        from validator.measures.services.point_places import PointPlaces

        return PointPlaces(self)

    @cached_property
    def worktop_pieces(self) -> dict[str, list[Piece]]:
        """The pieces of each worktop along its run."""
        from validator.measures.worktops.pieces import pieces_of

        return pieces_of(self)

    @cached_property
    def tops(self) -> Tops:
        """How far the worktops go beside everything that stands along the walls."""
        from validator.measures.worktops.tops import Tops

        return Tops(self)

    @cached_property
    def cut_outs(self) -> dict[str, list[Placed]]:
        """The hobs and sinks in each piece of a worktop, by the name of the piece."""
        from validator.measures.worktops.cut_outs import cut_outs_of

        return cut_outs_of(self)

    def rows(self, kind: str) -> Rows:
        """The rows of one kind; KeyError for a kind the catalogue does not list."""
        found = self._rows.get(kind)
        if found is None:
            measure: Callable[[Site], Rows] = _named(MEASURES[kind].measure)
            found = self._rows[kind] = measure(self)
        return found


def row_class(kind: str) -> type[Row]:
    """The class that declares the fields and figures of a kind of row."""
    found: type[Row] = _named(MEASURES[kind].row)
    return found


def _named(path: str) -> Any:
    module, _, name = path.partition(":")
    return getattr(importlib.import_module(f"validator.measures.{module}"), name)
