"""Every kind of row, with the class that declares it and the measure that finds it; modules load when asked for."""

from __future__ import annotations

from typing import NamedTuple


class Measure(NamedTuple):
    """Where a kind of row is declared and found, as `module:name` below `validator.measures`.

    Departures are found by judging, once everything else is judged.
    """

    row: str
    measure: str


MEASURES: dict[str, Measure] = {
    "unit in a run": Measure("setting_out:UnitPlace", "setting_out:unit_places"),
    "run against its wall": Measure("setting_out:RunAgainstWall", "setting_out:runs_against_walls"),
    "end of a run at a wall": Measure("wall_ends:WallEnd", "wall_ends:wall_ends"),
    "thing beside its neighbours": Measure("neighbours:BesideNeighbours", "neighbours:beside_neighbours"),
    "appliance in a housing": Measure("housings:InHousing", "housings:in_housings"),
    "machine in an opening": Measure("housings:InOpening", "housings:in_openings"),
    "depth of a worktop": Measure("depths:WorktopDepth", "depths:worktop_depths"),
    "depth of a hung unit": Measure("depths:HungDepth", "depths:hung_depths"),
    "point on a wall": Measure("setting_out:PointPlace", "point_places:point_places"),
    "floor build-up": Measure("heights:FloorBuildUp", "heights:floor_build_ups"),
    "unit on legs": Measure("heights:UnitOnLegs", "heights:units_on_legs"),
    "worktop on a run": Measure("heights:WorktopOnRun", "heights:worktops_on_runs"),
    "plinth of a run": Measure("plinths:PlinthOfRun", "plinths:plinths_of_runs"),
    "tall unit": Measure("tall_units:TallUnit", "tall_units:tall_units"),
    "hung unit beside a tall unit": Measure("tall_units:HungBesideTall", "tall_units:hung_beside_tall"),
    "unit under the ceiling": Measure("hung_heights:UnitUnderCeiling", "hung_heights:units_under_ceiling"),
    "hung unit over a worktop": Measure("hung_heights:HungOverWorktop", "hung_heights:hung_over_worktops"),
    "appliance under a worktop": Measure("heights:ApplianceUnderWorktop", "heights:appliances_under_worktops"),
    "hob under hood": Measure("hoods:HobUnderHood", "hoods:hobs_under_hoods"),
    "unit over a hob": Measure("over_hobs:UnitOverHob", "over_hobs:units_over_hobs"),
    "unit beside a hob": Measure("beside_hobs:UnitBesideHob", "beside_hobs:units_beside_hobs"),
    "hob by a doorway": Measure("hobs_at_openings:HobByDoorway", "hobs_at_openings:hobs_by_doorways"),
    "hob by a window": Measure("hobs_at_openings:HobByWindow", "hobs_at_openings:hobs_by_windows"),
    "side of a hob": Measure("landings:HobSide", "landings:sides_of_hobs"),
    "worktop beside a hob": Measure("landings:WorktopBesideHob", "landings:worktops_beside_hobs"),
    "point near a sink": Measure("points:PointNearSink", "points:points_near_sinks"),
    "point near a hob": Measure("points:PointNearHob", "points:points_near_hobs"),
    "drill point": Measure("drill_points:DrillPoint", "drill_points:drill_points"),
    "fixing in a wall": Measure("fixings:FixingInWall", "fixings:fixings_in_walls"),
    "edge of a floating floor": Measure("floors:FloorEdge", "floors:floor_edges"),
    "floating floor": Measure("floors:FloorField", "floors:floor_fields"),
    "base under a floor": Measure("floors:BaseUnderFloor", "floors:bases_under_floors"),
    "coat": Measure("coats:Coat", "coats:coats"),
    "surface to paint": Measure("coats:SurfaceToPaint", "coats:surfaces_to_paint"),
    "drop of a waste": Measure("wastes:Drop", "wastes:drops"),
    "waste": Measure("wastes:Waste", "wastes:wastes"),
    "cooking appliance's demand": Measure("circuits:CookingDemand", "circuits:cooking_demands"),
    "circuit": Measure("circuits:Circuit", "circuits:circuits"),
    "task after a wait": Measure("programme:TaskAfterWait", "programme:tasks_after_waits"),
    "gas work": Measure("programme:GasWork", "programme:gas_works"),
    "suspect material": Measure("survey:SuspectMaterial", "survey:suspect_materials"),
    "consumer unit": Measure("survey:NewCircuits", "survey:consumer_units"),
    "budget": Measure("budget:Budget", "budget:budgets"),
    "price of a trade": Measure("budget:Price", "budget:prices"),
    "delivery": Measure("deliveries:Delivery", "deliveries:deliveries"),
    "paper": Measure("deliveries:Paper", "deliveries:papers"),
    "place to stand": Measure("slopes:PlaceToStand", "slopes:places_to_stand"),
    "thing at an opening": Measure("openings:ThingAtOpening", "openings:things_at_openings"),
    "window over a worktop": Measure("openings:WindowOverWorktop", "openings:windows_over_worktops"),
    "thing to carry in": Measure("openings:ThingToCarryIn", "openings:things_to_carry_in"),
    "hung unit on studs": Measure("studs:UnitOnStuds", "studs:units_on_studs"),
    "hanger in a noggin": Measure("studs:HangerInNoggin", "studs:hangers_in_noggins"),
    "aisle": Measure("room_to_move:Aisle", "room_to_move:aisles"),
    "gas pipe": Measure("room_to_move:GasValve", "room_to_move:gas_valves"),
    "length of a worktop": Measure("worktop_pieces:WorktopPiece", "worktop_pieces:lengths_of_worktops"),
    "extract of a kitchen": Measure("air:Extract", "air:extracts"),
    "duct to outside": Measure("air:DuctOutside", "air:ducts_to_outside"),
    "standing unit": Measure("standing:StandingUnit", "standing:standing_units"),
    "units side by side": Measure("standing:UnitsSideBySide", "standing:units_side_by_side"),
    "island": Measure("standing:Island", "standing:islands"),
    "free-standing cooker": Measure("standing:FreestandingCooker", "standing:freestanding_cookers"),
    "load of a hung unit": Measure("storage_loads:HungUnitLoad", "storage_loads:hung_unit_loads"),
    "stone worktop": Measure("stone:StoneWorktop", "stone:stone_worktops"),
    "door of a unit": Measure("clear_to_open:DoorOfUnit", "clear_to_open:doors_of_units"),
    "drawers of a unit": Measure("clear_to_open:Drawers", "clear_to_open:drawers_of_units"),
    "door of a machine": Measure("clear_to_open:DoorOfMachine", "clear_to_open:doors_of_machines"),
    "door of the room": Measure("clear_to_open:DoorOfRoom", "clear_to_open:doors_of_room"),
    "window that opens inwards": Measure("clear_to_open:InwardWindow", "clear_to_open:inward_windows"),
    "hinge side of a door": Measure("clear_to_open:HingeSide", "clear_to_open:hinge_sides"),
    "hob by a door of the room": Measure("clear_to_open:HobByDoor", "clear_to_open:hobs_by_doors"),
    "template of a worktop": Measure("templates:Template", "templates:templates"),
    "thing needed at a template": Measure("templates:NeededAtTemplate", "templates:things_needed_at_templates"),
    "worktop at its wall": Measure("worktop_movement:WorktopAtWall", "worktop_movement:worktops_at_walls"),
    "sealant joint of a worktop": Measure("worktop_movement:SealantJoint", "worktop_movement:sealant_joints"),
    "worktop as fitted": Measure("worktop_care:WorktopAsFitted", "worktop_care:worktops_as_fitted"),
    "worktop over a machine": Measure("worktop_care:WorktopOverMachine", "worktop_care:worktops_over_machines"),
    "cut-out in a worktop": Measure("cut_outs:CutOut", "cut_outs:cut_outs"),
    "joint of a worktop": Measure("worktop_joints:WorktopJoint", "worktop_joints:worktop_joints"),
    "departure": Measure("departures:Departure", ""),
}
