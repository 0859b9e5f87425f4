"""What is cut and bought, for machines: lengths in millimetres with both ends of their range, null where open."""

from __future__ import annotations

from datetime import date
from typing import Any

from validator.measures.rows import Given, Known
from validator.measures.site import Site
from validator.measures.worktops.quantities import Count, Quantities
from validator.plan.pointers import as_key
from validator.reporting.printing import Printer
from validator.reporting.quantities_text import how_found

FORM = 1


def as_data(site: Site, found: Quantities, on: date) -> dict[str, Any]:
    """The list as plain data."""
    plan, printer = site.plan, Printer(site)
    return {
        "dryfit quantities": FORM,
        "on": on.isoformat(),
        "plan": {"title": plan.project.title, "files": list(plan.files), "digest": plan.digest},
        "worktops": [
            {
                "piece": top.piece.name,
                "worktop": top.piece.worktop,
                "material": top.piece.top.material if isinstance(top.piece.top.material, str) else None,
                "length": _length(top.length),
                "depth": _length(top.piece.depth),
                "thickness": _length(top.piece.thickness),
                "joints": [{"is": joint.form, "from left end": _length(joint.from_left)} for joint in top.joints],
                "meets another in a corner": top.corner,
                "upstand": _length(top.upstand),
                "cut-outs": [
                    {
                        "for": cut_out.name,
                        "across": _length(cut_out.across),
                        "front to back": _length(cut_out.front_to_back),
                        "middle from left end": _length(cut_out.from_left),
                        "from front": _length(cut_out.from_front),
                    }
                    for cut_out in top.cut_outs
                ],
            }
            for top in found.tops
        ],
        "saw cut": _length(found.saw_cut),
        "boards": [
            {
                "of": stock.what,
                "length": board.stock,
                "cuts": [{"for": cut.name, "length": cut.length} for cut in board.cuts],
                "left over": board.offcut,
            }
            for stock in found.stock
            for board in stock.boards
        ],
        "plinths": [
            {
                "before": plinth.name,
                "length": _length(plinth.length),
                "height at high spot": _length(plinth.least_height),
                "height at low spot": _length(plinth.most_height),
            }
            for plinth in found.plinths
        ],
        "strips": [
            {
                "is": strip.family,
                "name": strip.name,
                "run": strip.run,
                "width": _length(strip.width),
                "height": _length(strip.height),
                "depth": _length(strip.depth),
                "cut to fit": strip.to_fit,
            }
            for strip in found.strips
        ],
        "units": [_count(count) for count in found.units],
        "appliances": [_count(count) for count in found.appliances],
        "what holds them": [_count(count) for count in found.bought],
        "open": [
            {
                "what": printer.text(missing.label),
                "how": how_found(missing, site, printer),
                "key": as_key(missing.pointer),
                "at": missing.pointer,
                "ask": missing.by,
            }
            for missing in found.open
        ],
    }


def _length(value: Given | None) -> dict[str, float] | None:
    if not isinstance(value, Known):
        return None
    return dict(zip(("low", "high"), value.ends, strict=True))


def _count(count: Count) -> dict[str, Any]:
    return {"what": count.what, "width": _length(count.size), "number": count.number, "names": list(count.names)}
