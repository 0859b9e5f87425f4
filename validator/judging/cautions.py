"""Which standing cautions the work in a plan calls for."""

from __future__ import annotations

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
