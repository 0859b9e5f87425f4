"""What someone finds out for each open value of a starter plan, in the order in which the plan asks.

Made up, for two kitchens that are right in every figure.
"""

from __future__ import annotations

import re

OPEN = re.compile(r"to find out(?: by [a-z]+)?")
NO_OPENINGS = "openings: none\n"

MILLIMETRES = (
    "1968",
    "2027-03-01",
    "skim 3, undercoat plaster 11, brick 215",
    "cement screed 65",
    "[3514, 3511, 3512]",
    "2803",
    "3515",
    "2801",
    "[2402, 2399, 2401]",
    "no",
    "70 % by hygrometer",
    "0",
    "4 low",
    "2 low",
    "none",
    "none",
    "none",
    "720",
    "135 to 180",
    "720",
    "{down: 35, in: 40}",
    "20",
    "80",
    "38",
    "146 x 86",
    "150 above worktop",
    "86 x 86",
    "400 from bare floor",
    "650 from pan supports",
    "45",
    "650 from hob surface",
    "820",
    "600",
    "none",
    "10",
    "10 m",
    "none",
    "none",
    "laminate",
    "8",
    "2",
    "after units",
    "10",
    "150 at high spot",
    "800",
    "600",
    "800",
    "600",
    "600",
    "60",
    "500 above worktop",
    "600",
    "500",
    "induction hob",
    "590",
    "7.2 kW",
    "1650",
    "{bore: 150, length: 900, bends: 1, flexible: 300, to: outside wall}",
    "250 m3/h",
    "595 w x 595 h x 550 d",
    "598 w x 815 h x 550 d",
    "40 mm to stack 2000 at 20 mm/m",
    "780 x 480",
    "40 mm to stack 1400 at 20 mm/m",
    "32 A",
    "30 mA",
    "2.5 mm2",
    "clipped direct or in plaster",
    "0",
    "32 A",
    "6 mm2",
    "clipped direct or in plaster",
    "0",
    "2",
    "frame fixing 8 x 100",
    "8 x 110",
    "new gypsum plaster",
    "0.6 % by pin meter",
    "30 % water",
    "10 % water",
    "neat",
    "2 days",
    "4 weeks",
)

INCHES = (
    "1968",
    "2027-03-01",
    "drywall 1/2, stud 3-1/2, drywall 1/2",
    "plywood 3/4",
    "[155-3/8, 155-1/4, 155-1/4]",
    "110",
    "155-1/2",
    "110",
    "no",
    "9 % by pin meter",
    "none",
    "none",
    "none",
    "34-1/2",
    "30",
    "{down: 1-1/2, in: 3}",
    "3/4",
    "4",
    "1-1/2",
    "2-3/4 x 4-1/2",
    "8 above worktop",
    "yes",
    "2-3/4 x 4-1/2",
    "16 from bare floor",
    "yes",
    "30 from pan supports",
    "1-1/2",
    "24 from hob surface",
    "none",
    "3/8",
    "30 ft",
    "none",
    "none",
    "laminate",
    "3/8",
    "1/8",
    "after cabinets",
    "3/8",
    "30",
    "24",
    "36",
    "36",
    "24",
    "2",
    "18 above worktop",
    "24",
    "36",
    "induction cooktop",
    "30",
    "66",
    "6 in through the roof",
    "240 cfm",
    "23-3/4 w x 33-3/8 h x 24 d",
    "1-1/2 in to vent 3 ft at 1/4 in/ft",
    "1-1/2 in to vent 3 ft at 1/4 in/ft",
    "3/4",
    "no. 10 x 3",
    "1/8 x 3",
    "new plaster",
    "9 % by pin meter",
    "10 % water",
    "neat",
    "neat",
    "2 days",
    "3 days",
)


def open_values(text: str) -> list[tuple[int, int]]:
    """Where the open values of a plan stand in its text; remarks that mention one are none."""
    found = []
    for match in OPEN.finditer(text):
        line = text[text.rfind("\n", 0, match.start()) + 1 : match.start()]
        if "#" not in line:
            found.append(match.span())
    return found


def answered(text: str, answers: tuple[str, ...], leave_open: int | None = None) -> str:
    """The text with every open value answered, or all but one."""
    spans = open_values(text)
    for number, (start, end) in reversed(list(enumerate(spans))):
        if number != leave_open:
            text = text[:start] + answers[number] + text[end:]
    return text
