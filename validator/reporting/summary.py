"""What a report says of a plan as a whole, whatever its form: in how many numbers, agreed on what, met if what."""

from __future__ import annotations

from collections.abc import Iterator

from validator.judging.cautions import heaviest
from validator.judging.outcomes import Departure, Outcome
from validator.judging.ready import StageVerdict
from validator.measures.site import Site
from validator.plan.dimensions import MASS
from validator.reference.cautions import Caution
from validator.reporting.findings import supposition
from validator.reporting.lines import counted, day, day_of, sentence, some
from validator.reporting.points import Points
from validator.reporting.printing import Printer

STANDING_SENTENCE = "The plan was looked at, not the work; this is nobody's approval."
NO_COUNTRY = (
    "The plan names no country, so no national rules were applied: write `country: GB-ENG`, `US-OR` or another "
    "under `project`."
)


def in_numbers(points: Points) -> str:
    """How much is wrong, could be better, is not known and is agreed, in sentences."""
    stops = sum(point.rule.severity == "stop" for point in points.points)
    wrong = sum(point.rule.severity in ("stop", "put right") for point in points.points)
    better = len(points.points) - wrong
    said = []
    if wrong:
        said.append(sentence(counted(wrong, "point is wrong", "points are wrong") + _grave(stops, wrong)))
    if better:
        said.append(sentence(counted(better, "point could be better", "points could be better")))
    if points.errands:
        said.append(sentence(counted(len(points.errands), "thing is not known", "things are not known")))
    if points.agreed:
        said.append(sentence(counted(len(points.agreed), "departure is agreed", "departures are agreed")))
    return " ".join(said) or "Nothing is wrong, and nothing that was asked is unknown."


def _grave(stops: int, wrong: int) -> str:
    if not stops:
        return ""
    which = "and it" if wrong == 1 else "all of which" if stops == wrong else counted(stops, "of which", "of which")
    return f", {which} could hurt someone or break the law"


def in_the_way(verdict: StageVerdict, points: Points) -> tuple[list[int], list[int]]:
    """The numbers of what stands in the way of a stage, and of what is to find out besides."""
    blocking = points.numbers(verdict.blocking)
    return blocking, [number for number in points.numbers(verdict.open) if number not in blocking]


def agreed_on(departure: Departure) -> str:
    """`«reason»; householder, until 1 June 2026`."""
    until = f", until {day(day_of(departure.until))}" if departure.until is not None else ""
    return f"«{departure.reason}»; {departure.by}{until}"


def about(outcome: Outcome, printer: Printer) -> str:
    return f"{printer.text(outcome.rule.title)}, {outcome.subject.name}"


def suppositions(points: Points, printer: Printer) -> Iterator[str]:
    """`the dabs are 22: Embedment of the fixings, rail`: what is met only if something holds, each supposition once."""
    by_supposition: dict[tuple[str, str], list[str]] = {}
    for outcome in points.supposing:
        supposed = "; ".join(supposition(gap, printer) for gap in outcome.supposing)
        by_supposition.setdefault((supposed, outcome.rule.title), []).append(outcome.subject.name)
    for (supposed, title), names in by_supposition.items():
        yield f"{supposed}: {printer.text(title)}, {some(names)}"


def caution_said(caution: Caution, site: Site, printer: Printer) -> str:
    """What a caution says, with the heaviest of the things it weighs by name."""
    said = printer.text(caution.says)
    weighed = heaviest(site, caution)
    if weighed is None:
        return said
    name, mass = weighed
    return f"{said} The heaviest here is {name}, {printer.value(mass, MASS, unit=True)}."
