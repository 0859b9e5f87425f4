"""What a survey finds: materials that may hold asbestos or lead, and the ways that are free for new circuits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from validator.measures import reading
from validator.measures.arithmetic import total
from validator.measures.rows import Given, Missing, Row, Rows, Subject, Words, figure, given
from validator.plan.dimensions import LENGTH, NUMBER
from validator.plan.pointers import join

if TYPE_CHECKING:
    from validator.measures.site import Site
    from validator.plan.sections.survey import ConsumerUnit, Survey, Suspect

RESULTS = ("none", "present", "assumed", "left covered", "removed", "lead-safe work")
SUSPECTS = (("asbestos", "asbestos"), ("lead paint", "lead_paint"))


class SuspectMaterial(Row, kind="suspect material"):
    """A material that may hold asbestos or lead, and what is known of it.

    A survey that says nothing of one of the two leaves a row that is not known; `none` leaves no row.
    """

    substance: str = given(Words(("asbestos", "lead paint")), "what it may hold")
    result: str = given(Words(RESULTS), "what its test found")
    built: float = given(NUMBER, "year the house was built")


class NewCircuits(Row, kind="consumer unit"):
    """The consumer unit, with the ways that the new circuits of the plan take, and the room to work at it."""

    clear: float = given(LENGTH, "clear in front of it")
    ways_free: float = given(NUMBER, "ways free")
    taken: tuple[float, ...] = given(NUMBER, "ways that new circuits take", many=True)

    @figure(NUMBER, "ways left over")
    def ways_left(self) -> float:
        return self.ways_free - total(self.taken)


def suspect_materials(site: Site) -> Rows:
    """A row for each suspect material of the survey, and one for each sort of which the survey says nothing."""
    rows = Rows()
    for substance, field in SUSPECTS:
        found: dict[str, Suspect] | None = getattr(site.plan.survey, field, None)
        if found is None:
            missing = Missing(join("/survey", substance), f"{substance}: tested, or none there")
            rows.rows.append(_suspect(site, substance, Subject(substance, join("/survey", substance)), missing))
        for where, tested in (found or {}).items():
            result = reading.word(tested.result, tested.pointer_to("result"), f"{substance} in {where}")
            rows.rows.append(_suspect(site, substance, Subject(where, tested.pointer, substance), result))
    return rows


def _suspect(site: Site, substance: str, subject: Subject, result: Given) -> Row:
    built = site.plan.project.built
    pointer = "/project/built"
    year = Missing(pointer, "year the house was built") if built is None else reading.exactly(built, pointer, "built")
    return SuspectMaterial(
        subject, substance=reading.exactly(substance, subject.pointer, "substance"), result=result, built=year
    )


def consumer_units(site: Site) -> Rows:
    """One row, where the survey has looked at the consumer unit, or a circuit says that it takes ways in it."""
    plan = site.plan
    unit = plan.survey.consumer_unit if plan.survey is not None else None
    if unit is None and not any(circuit.ways is not None for circuit in plan.circuits.values()):
        return Rows()
    label = "ways free in the consumer unit"
    pointer = "/survey/consumer unit/ways free" if unit is None else unit.pointer_to("ways_free")
    ways = [reading.read(circuit, "ways", f"ways of {name}") for name, circuit in plan.circuits.items()]
    return Rows(
        [
            NewCircuits(
                Subject("new circuits", pointer, _where(plan.survey)),
                clear=_clear_in_front(unit),
                ways_free=Missing(pointer, label) if unit is None else reading.read(unit, "ways_free", "ways free"),
                taken=Missing("/circuits", "circuits") if plan.circuits.left_out else reading.parts(ways),
            )
        ]
    )


def _clear_in_front(unit: ConsumerUnit | None) -> Given:
    label = "clear in front of the consumer unit"
    if unit is None:
        return Missing("/survey/consumer unit/clear in front", label)
    return reading.read(unit, "clear_in_front", label)


def _where(survey: Survey | None) -> str:
    unit = survey.consumer_unit if survey is not None else None
    return unit.in_ or "" if unit is not None else ""
