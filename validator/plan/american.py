"""American words of the trade for the keys and words a plan may use; inside there is one name for each thing."""

from __future__ import annotations

KEYS = {
    "anchor": "plug",
    "bid": "quote",
    "blocking": "noggins",
    "breaker": "device",
    "cooktop": "hob",
    "countertops": "worktops",
    "cutout": "cut out",
    "drain": "waste",
    "fasteners": "fixings",
    "flooring": "floors",
    "gfci": "rcd",
    "license": "register",
    "main shutoff": "stopcock",
    "panel": "consumer unit",
    "receptacles": "points",
    "sales tax": "vat",
    "spaces": "ways",
    "spaces free": "ways free",
    "toe kick": "plinth",
}
"""Keys of sections and elements, folded: theirs → ours."""

THEIRS = {ours: theirs for theirs, ours in KEYS.items()}
"""The same, ours → theirs."""

WORDS = {
    "after cabinets": "after units",
    "all outlets": "all sockets",
    "all receptacles": "all sockets",
    "base cabinets": "base units",
    "before cabinets": "before units",
    "ceramic cooktop": "ceramic hob",
    "clothes dryer": "tumble dryer",
    "cooktop": "hob",
    "countertop": "worktop",
    "countertops": "worktops",
    "dryer": "tumble dryer",
    "electric range": "electric cooker",
    "faucet": "tap",
    "garbage disposal": "waste disposer",
    "gas cooktop": "gas hob",
    "gas range": "gas cooker",
    "induction cooktop": "induction hob",
    "miter": "mitre",
    "range": "cooker",
    "range hood": "hood",
    "refrigerator": "fridge",
    "refrigerator freezer": "fridge freezer",
    "seam": "butt",
    "tall cabinets": "tall units",
    "wall cabinets": "wall units",
    "washer": "washing machine",
}
"""Words that may stand as a value, folded: theirs → ours."""
