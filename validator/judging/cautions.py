"""Which standing cautions the work in a plan calls for."""

from __future__ import annotations

from validator.measures.rows import NotKnown
from validator.measures.site import Site
from validator.reference.cautions import Caution
from validator.reference.countries import applies


def cautions(site: Site) -> list[Caution]:
    """The cautions for this plan, gravest first: by what is in it, by country, and by the year the house was built."""
    built = site.plan.project.built
    return [
        caution
        for caution in site.library.cautions
        if applies(caution.covers, site.country)
        and (caution.built_before is None or built is None or built < caution.built_before)
        and (not caution.kinds or any(site.rows(kind).rows for kind in caution.kinds))
    ]


def heaviest(site: Site, caution: Caution) -> tuple[str, float] | None:
    """The heaviest of the things a caution weighs: its name and mass at its most; None where no weight is known."""
    if len(caution.heaviest) != 2:
        return None
    kind, figure = caution.heaviest
    found: list[tuple[float, str]] = []
    for row in site.rows(kind).rows:
        try:
            found.append((max(float(getattr(corner, figure)) for corner in row.corners()), row.subject.name))
        except NotKnown:
            continue
    return (max(found)[1], max(found)[0]) if found else None
