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
    "unit in a run": Measure("runs.setting_out:UnitPlace", "runs.setting_out:unit_places"),
    "run against its wall": Measure("runs.setting_out:RunAgainstWall", "runs.setting_out:runs_against_walls"),
    "end of a run at a wall": Measure("runs.wall_ends:WallEnd", "runs.wall_ends:wall_ends"),
    "thing beside its neighbours": Measure("runs.neighbours:BesideNeighbours", "runs.neighbours:beside_neighbours"),
    "appliance in a housing": Measure("runs.housings:InHousing", "runs.housings:in_housings"),
    "machine in an opening": Measure("runs.housings:InOpening", "runs.housings:in_openings"),
    "depth of a worktop": Measure("runs.depths:WorktopDepth", "runs.depths:worktop_depths"),
    "depth of a hung unit": Measure("runs.depths:HungDepth", "runs.depths:hung_depths"),
    "corner of two runs": Measure("runs.run_corners:CornerOfRuns", "runs.run_corners:corners_of_runs"),
    "front beside a corner": Measure("runs.run_corners:FrontAtCorner", "runs.run_corners:fronts_at_corners"),
    "point on a wall": Measure("runs.setting_out:PointPlace", "services.point_places:point_places"),
    "floor build-up": Measure("heights.heights:FloorBuildUp", "heights.heights:floor_build_ups"),
    "unit on legs": Measure("heights.heights:UnitOnLegs", "heights.heights:units_on_legs"),
    "worktop on a run": Measure("heights.heights:WorktopOnRun", "heights.heights:worktops_on_runs"),
    "plinth of a run": Measure("heights.plinths:PlinthOfRun", "heights.plinths:plinths_of_runs"),
    "tall unit": Measure("heights.tall_units:TallUnit", "heights.tall_units:tall_units"),
    "hung unit beside a tall unit": Measure("heights.tall_units:HungBesideTall", "heights.tall_units:hung_beside_tall"),
    "unit under the ceiling": Measure(
        "heights.hung_heights:UnitUnderCeiling", "heights.hung_heights:units_under_ceiling"
    ),
    "point over an upstand": Measure("worktops.upstands:PointOverUpstand", "worktops.upstands:points_over_upstands"),
    "splashback at a hob": Measure("worktops.upstands:SplashbackAtHob", "worktops.upstands:splashbacks_at_hobs"),
    "hung unit over a worktop": Measure(
        "heights.hung_heights:HungOverWorktop", "heights.hung_heights:hung_over_worktops"
    ),
    "appliance under a worktop": Measure(
        "heights.heights:ApplianceUnderWorktop", "heights.heights:appliances_under_worktops"
    ),
    "worktop for a cook": Measure("heights.household:WorktopForCook", "heights.household:worktops_for_cooks"),
    "worktop for somebody seated": Measure(
        "heights.household:WorktopForSeated", "heights.household:worktops_for_seated"
    ),
    "shelves to reach": Measure("heights.household:ShelvesToReach", "heights.household:shelves_to_reach"),
    "oven for somebody seated": Measure("heights.household:OvenForSeated", "heights.household:ovens_for_seated"),
    "hob under hood": Measure("appliances.hoods:HobUnderHood", "appliances.hoods:hobs_under_hoods"),
    "unit over a hob": Measure("appliances.over_hobs:UnitOverHob", "appliances.over_hobs:units_over_hobs"),
    "worktop beside a sink": Measure("appliances.sinks:WorktopBesideSink", "appliances.sinks:worktops_beside_sinks"),
    "dishwasher by a sink": Measure("appliances.sinks:DishwasherBySink", "appliances.sinks:dishwashers_by_sinks"),
    "place to set down": Measure("appliances.set_downs:PlaceToSetDown", "appliances.set_downs:places_to_set_down"),
    "work triangle": Measure("appliances.work_triangles:WorkTriangle", "appliances.work_triangles:work_triangles"),
    "splashback behind a hob": Measure(
        "appliances.splashbacks:BehindHob", "appliances.splashbacks:splashbacks_behind_hobs"
    ),
    "unit beside a hob": Measure("appliances.beside_hobs:UnitBesideHob", "appliances.beside_hobs:units_beside_hobs"),
    "hob by a doorway": Measure(
        "appliances.hobs_at_openings:HobByDoorway", "appliances.hobs_at_openings:hobs_by_doorways"
    ),
    "room of a hob": Measure("appliances.hobs_at_openings:RoomOfHob", "appliances.hobs_at_openings:rooms_of_hobs"),
    "hob by a window": Measure(
        "appliances.hobs_at_openings:HobByWindow", "appliances.hobs_at_openings:hobs_by_windows"
    ),
    "side of a hob": Measure("appliances.landings:HobSide", "appliances.landings:sides_of_hobs"),
    "worktop beside a hob": Measure("appliances.landings:WorktopBesideHob", "appliances.landings:worktops_beside_hobs"),
    "point near a sink": Measure("services.points:PointNearSink", "services.points:points_near_sinks"),
    "point near a hob": Measure("services.points:PointNearHob", "services.points:points_near_hobs"),
    "drill point": Measure("drilling.drill_points:DrillPoint", "drilling.drill_points:drill_points"),
    "trial hole in a wall": Measure("drilling.wall_records:TrialHole", "drilling.wall_records:trial_holes"),
    "record of a wall": Measure("drilling.wall_records:RecordOfWall", "drilling.wall_records:records_of_walls"),
    "sweep with a detector": Measure("drilling.wall_records:SweepOfWall", "drilling.wall_records:sweeps_of_walls"),
    "stud or noggin found": Measure("drilling.wall_records:FoundAndDrawn", "drilling.wall_records:found_and_drawn"),
    "hole near a failed one": Measure(
        "drilling.holes_at_records:HoleAtFailed", "drilling.holes_at_records:holes_at_failed"
    ),
    "hole near what a detector showed": Measure(
        "drilling.holes_at_records:HoleAtDetected", "drilling.holes_at_records:holes_at_detected"
    ),
    "hole seen from the other face": Measure("drilling.holes_beyond:HoleBeyond", "drilling.holes_beyond:holes_beyond"),
    "hole near a route": Measure("drilling.routes:HoleNearRoute", "drilling.routes:holes_near_routes"),
    "route in a wall": Measure("drilling.routes:RecordedRoute", "drilling.routes:routes_in_walls"),
    "route in a stud": Measure("drilling.routes:RouteInStud", "drilling.routes:routes_in_studs"),
    "hole in a joist": Measure("drilling.joists:HoleInJoist", "drilling.joists:holes_in_joists"),
    "notch in a joist": Measure("drilling.joists:NotchInJoist", "drilling.joists:notches_in_joists"),
    "chase in a wall": Measure("drilling.joists:ChaseInWall", "drilling.joists:chases_in_walls"),
    "fixing in a wall": Measure("fixings.fixings:FixingInWall", "fixings.fixings:fixings_in_walls"),
    "fixing near an edge": Measure("fixings.fixing_edges:FixingAtEdge", "fixings.fixing_edges:fixings_near_edges"),
    "fixings side by side": Measure(
        "fixings.fixing_edges:FixingsSideBySide", "fixings.fixing_edges:fixings_side_by_side"
    ),
    "screw of the joinery": Measure("joinery.screws:ScrewOfJoinery", "joinery.screws:screws_of_joinery"),
    "screw in a worktop": Measure("joinery.screws:ScrewInWorktop", "joinery.screws:screws_in_worktops"),
    "screwed joint of a run": Measure("joinery.unit_joints:ScrewedJoint", "joinery.unit_joints:screwed_joints"),
    "door bored for hinges": Measure("joinery.unit_parts:BoredDoor", "joinery.unit_parts:doors_bored_for_hinges"),
    "back of a unit": Measure("joinery.unit_parts:BackOfUnit", "joinery.unit_parts:backs_of_units"),
    "glued thing": Measure("joinery.adhesives:GluedThing", "joinery.adhesives:glued_things"),
    "edge of a floating floor": Measure("room.floors:FloorEdge", "room.floors:floor_edges"),
    "floating floor": Measure("room.floors:FloorField", "room.floors:floor_fields"),
    "base under a floor": Measure("room.floors:BaseUnderFloor", "room.floors:bases_under_floors"),
    "coat": Measure("job.coats:Coat", "job.coats:coats"),
    "surface to paint": Measure("job.coats:SurfaceToPaint", "job.coats:surfaces_to_paint"),
    "drop of a waste": Measure("services.wastes:Drop", "services.wastes:drops"),
    "waste": Measure("services.wastes:Waste", "services.wastes:wastes"),
    "appliance on water": Measure("services.water:OnWater", "services.water:appliances_on_water"),
    "stopcock": Measure("services.water:Stopcock", "services.water:stopcocks"),
    "drain hose of a machine": Measure("services.water:DrainHose", "services.water:drain_hoses"),
    "fused point": Measure("services.fuses:FusedPoint", "services.fuses:fused_points"),
    "cooking appliance's demand": Measure("services.circuits:CookingDemand", "services.circuits:cooking_demands"),
    "appliance on a circuit": Measure("services.loads:OnCircuit", "services.loads:appliances_on_circuits"),
    "circuit": Measure("services.circuits:Circuit", "services.circuits:circuits"),
    "task after a wait": Measure("job.programme:TaskAfterWait", "job.programme:tasks_after_waits"),
    "task of a fixed day": Measure("job.order:TaskOnItsDay", "job.order:tasks_on_their_days"),
    "gas work": Measure("job.programme:GasWork", "job.programme:gas_works"),
    "suspect material": Measure("room.survey:SuspectMaterial", "room.survey:suspect_materials"),
    "consumer unit": Measure("room.survey:NewCircuits", "room.survey:consumer_units"),
    "budget": Measure("job.budget:Budget", "job.budget:budgets"),
    "price of a trade": Measure("job.budget:Price", "job.budget:prices"),
    "delivery": Measure("job.deliveries:Delivery", "job.deliveries:deliveries"),
    "thing ordered": Measure("job.orders:ThingOrdered", "job.orders:things_ordered"),
    "paper": Measure("job.deliveries:Paper", "job.deliveries:papers"),
    "place to stand": Measure("room.slopes:PlaceToStand", "room.slopes:places_to_stand"),
    "thing at an opening": Measure("room.openings:ThingAtOpening", "room.openings:things_at_openings"),
    "window over a worktop": Measure("room.openings:WindowOverWorktop", "room.openings:windows_over_worktops"),
    "thing to carry in": Measure("room.carrying_in:ThingToCarryIn", "room.carrying_in:things_to_carry_in"),
    "hung unit on studs": Measure("fixings.studs:UnitOnStuds", "fixings.studs:units_on_studs"),
    "hanger in a noggin": Measure("fixings.studs:HangerInNoggin", "fixings.studs:hangers_in_noggins"),
    "aisle": Measure("plane.room_to_move:Aisle", "plane.room_to_move:aisles"),
    "seats at a worktop": Measure("plane.room_to_move:SeatsAtWorktop", "plane.room_to_move:seats_at_worktops"),
    "open door in an aisle": Measure("plane.open_in_aisles:OpenInAisle", "plane.open_in_aisles:open_in_aisles"),
    "place before a hob": Measure("plane.open_in_aisles:PlaceBeforeHob", "plane.open_in_aisles:places_before_hobs"),
    "room to turn in": Measure("plane.turning:RoomToTurn", "plane.turning:rooms_to_turn_in"),
    "gas pipe": Measure("services.gas:GasValve", "services.gas:gas_valves"),
    "length of a worktop": Measure("worktops.lengths:WorktopLength", "worktops.lengths:lengths_of_worktops"),
    "overhang of a worktop": Measure("worktops.overhangs:Overhang", "worktops.overhangs:overhangs"),
    "worktop to carry in": Measure("worktops.masses:WorktopToCarry", "worktops.masses:worktops_to_carry"),
    "worktop over an opening": Measure("worktops.spans:WorktopOverOpening", "worktops.spans:worktops_over_openings"),
    "extract of a kitchen": Measure("services.air:Extract", "services.air:extracts"),
    "fumes of cooking": Measure("services.air:Fumes", "services.air:fumes_of_cooking"),
    "duct to outside": Measure("services.air:DuctOutside", "services.air:ducts_to_outside"),
    "standing unit": Measure("runs.standing:StandingUnit", "runs.standing:standing_units"),
    "units side by side": Measure("runs.standing:UnitsSideBySide", "runs.standing:units_side_by_side"),
    "island": Measure("runs.standing:Island", "runs.standing:islands"),
    "free-standing cooker": Measure("runs.standing:FreestandingCooker", "runs.standing:freestanding_cookers"),
    "hung unit on its fixings": Measure(
        "fixings.hung_on_fixings:HungOnFixings", "fixings.holding:hung_units_on_fixings"
    ),
    "hood on its fixings": Measure("fixings.hung_on_fixings:HoodOnFixings", "fixings.holding:hoods_on_fixings"),
    "hanging rail": Measure("fixings.hung_on_fixings:HangingRail", "fixings.holding:hanging_rails"),
    "load of a hung unit": Measure("runs.storage_loads:HungUnitLoad", "runs.storage_loads:hung_unit_loads"),
    "stone worktop": Measure("worktops.stone:StoneWorktop", "worktops.stone:stone_worktops"),
    "door of a unit": Measure("plane.clear_to_open:DoorOfUnit", "plane.clear_to_open:doors_of_units"),
    "drawers of a unit": Measure("plane.clear_to_open:Drawers", "plane.clear_to_open:drawers_of_units"),
    "door of a machine": Measure("plane.clear_to_open:DoorOfMachine", "plane.clear_to_open:doors_of_machines"),
    "door of the room": Measure("plane.clear_to_open:DoorOfRoom", "plane.clear_to_open:doors_of_room"),
    "window that opens inwards": Measure("plane.clear_to_open:InwardWindow", "plane.clear_to_open:inward_windows"),
    "hinge side of a door": Measure("plane.clear_to_open:HingeSide", "plane.clear_to_open:hinge_sides"),
    "hob by a door of the room": Measure("plane.hobs_by_doors:HobByDoor", "plane.hobs_by_doors:hobs_by_doors"),
    "template of a worktop": Measure("job.templates:Template", "job.templates:templates"),
    "thing needed at a template": Measure("job.templates:NeededAtTemplate", "job.templates:things_needed_at_templates"),
    "worktop at its wall": Measure("worktops.movement:WorktopAtWall", "worktops.movement:worktops_at_walls"),
    "sealant joint of a worktop": Measure("worktops.movement:SealantJoint", "worktops.movement:sealant_joints"),
    "worktop as fitted": Measure("worktops.care:WorktopAsFitted", "worktops.care:worktops_as_fitted"),
    "worktop over a machine": Measure("worktops.care:WorktopOverMachine", "worktops.care:worktops_over_machines"),
    "cut-out in a worktop": Measure("worktops.cut_outs:CutOut", "worktops.cut_outs:cut_outs"),
    "joint of a worktop": Measure("worktops.joints:WorktopJoint", "worktops.joints:worktop_joints"),
    "corner of a room": Measure("room.corners:CornerOfRoom", "room.corners:corners_of_rooms"),
    "room": Measure("room.room_outlines:RoomOutline", "room.room_outlines:rooms_found"),
    "diagonal of a room": Measure("room.room_outlines:DiagonalOfRoom", "room.room_outlines:diagonals_of_rooms"),
    "wall held plumb": Measure("room.as_found:WallPlumb", "room.as_found:walls_held_plumb"),
    "wall under a straight edge": Measure(
        "room.as_found:UnderStraightEdge", "room.as_found:walls_under_straight_edges"
    ),
    "wall measured more than once": Measure("room.as_found:WallReadings", "room.as_found:walls_measured_again"),
    "floor as found": Measure("room.as_found:FloorLevel", "room.as_found:floors_as_found"),
    "floor under a straight edge": Measure(
        "room.as_found:FloorUnderStraightEdge", "room.as_found:floors_under_straight_edges"
    ),
    "ceiling measured more than once": Measure("room.as_found:CeilingLevel", "room.as_found:ceilings_measured_again"),
    "unit at a boxing": Measure("room.boxings:UnitAtBoxing", "room.boxings:units_at_boxings"),
    "unit at a low wall": Measure("room.boxings:UnitAtLowWall", "room.boxings:units_at_low_walls"),
    "departure": Measure("departures:Departure", ""),
}
