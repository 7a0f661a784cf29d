"""Calling ``schematics new`` in tests, and what it is given."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

SWATCH = "19 sts 14 rows over 20 cm, 46 g"


def loaded(path: Path) -> dict[str, Any]:
    document: dict[str, Any] = yaml.safe_load(path.read_text("utf-8"))
    return document


ALL_FLAGS = {
    "title": "Lake: the second",
    "designer": "Tern Hollow: patterns",
    "level": "Easy",
    "unit": "in",
    "construction": "mitred",
    "lines": "3",
    "yarn": "bulky wool",
    "hook": "us l/11",
    "stitch": "hdc",
    "swatch": "19.5 sts x 14 rows over 8 x 6 1/2 in, 46g",
    "stretch": "18 %, 0.07",
    "panel-stitch": "raised ripple stitch",
    "panel-swatch": "22 stitches and 14 rows over 20 cm by 15 cm",
    "panel-stretch": "12% 5%",
    "panel-hook": "7.5",
    "multiple": "4 + 2",
    "row-repeat": "2+4+1",
    "rib-stitch": "single crochet in the back loop",
    "rib-swatch": "20 sts 22 rows over 8",
    "rib-stretch": "10 % 40 %",
    "rib-hook": "7 mm",
    "seam": "Slip stitch, edge to edge, right sides up",
    "sizes": "M, 6, child/2",
    "below-waist": "-1/2",
    "fullness": "Full",
    "increases": "Exact",
    "neck-ease": "-1 cm",
    "panel-width": "4 3/4",
    "neck-band": "2",
    "arm-bands": "7 cm",
}
