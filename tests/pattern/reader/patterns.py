"""Patterns to be read: of the demos, and of random designs, with the counts of their specs."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import yaml

import schematics
from schematics.checks.evaluation import evaluate
from schematics.crochet.terms import Terms
from schematics.design.design import Design
from schematics.document.writers import file_content
from schematics.pattern.written import written_pattern
from tests.pattern.designs import design_of, dressed_spec
from tests.shipped import demo_names, shipped_text

SPECS = Path(__file__).parents[3] / "specs"
WORKED = [name for name in demo_names("driftwood", "saltmarsh", "tidepool") if name != "first-draft"]
"""Demos of which every row is worked: those that are published. A test has the mark ``seeds``."""
_FEW = {"kelp": ("2", "L")}
Spec = dict[str, Any]


@dataclass(frozen=True)
class Written:
    """A pattern as Markdown, and its spec with the counts of each size as YAML holds it."""

    markdown: str
    spec: Spec

    @property
    def sizes(self) -> Mapping[str, Spec]:
        """By their names."""
        sizes: Mapping[str, Spec] = self.spec["sizes"]
        return sizes


@dataclass(frozen=True)
class _Panel:
    """A chart that keeps its width: over ``of`` times any number of stitches, and ``plus``."""

    of: int
    plus: int
    chart: Mapping[str, list[str]]


_PANELS = (
    _Panel(
        4, 2, {"setup": ["hdc across"], "repeat": ["hdc, (2 FPdc, 2 hdc) across, hdc", "hdc across"]}
    ),
    _Panel(
        6, 2,
        {
            "setup": ["sc across", "sc across"],
            "repeat": [
                "sc, (sc, (2 FPtr round posts 3 and 4, 2 FPtr round posts 1 and 2 behind), sc) across, sc",
                "sc across",
                "sc, (2 sc, (dc in st 2, dc in st 1 behind), 2 sc) across, sc",
            ],
            "closing": ["sc across"],
        },
    ),
    _Panel(6, 2, {"repeat": ["sc, (sc, sk 2, 5 dc in next st, sk 2) across, sc", "dc across"]}),
    _Panel(
        2, 2,
        {"setup": ["hdc across"],
         "repeat": ["hdc, (ch, sk, hdc) across, hdc", "hdc, (hdc, hdc in ch-1 sp) across, hdc"]},
    ),
    _Panel(
        2, 8,
        {
            "setup": ["sl st blo across"] * 4,
            "repeat": [
                "sl st blo across, (sl st blo, (surface tr flo 3 rows below, sl st blo) x 2, sl st blo) x 2, "
                "sl st blo across",
                "sl st blo across",
            ],
        },
    ),
    _Panel(6, 0, {"setup": ["dc across"], "repeat": ["(dc2tog, 2 dc in next st, FPdc, BPdc, dc) across"]}),
)  # fmt: skip


def markdown_of(design: Design, terms: Terms) -> str:
    """The written pattern of all its sizes."""
    return file_content(written_pattern(design, evaluate(design), terms), "md").decode()


@cache
def graded(name: str) -> schematics.Grading:
    """A demo, its counts found where the spec leaves them out: those of few sizes."""
    if name not in _FEW:
        return schematics.grade(SPECS / f"{name}.yaml")
    with TemporaryDirectory() as folder:
        path = Path(folder) / f"{name}.yaml"
        path.write_text(shipped_text(name, *_FEW[name]), "utf-8")
        return schematics.grade(path)


@cache
def demo(name: str, terms: Terms) -> Written:
    """A demo, graded where the spec leaves counts out."""
    grading = graded(name)
    return Written(markdown_of(grading.design, terms), yaml.safe_load(grading.spec))


def random_pattern(number: int) -> Written:
    """The design of that number; every fifth is in UK terms."""
    spec = workable_spec(number)
    terms = Terms.US if number % 5 else Terms.UK
    return Written(markdown_of(design_of(spec, number), terms), spec)


def workable_spec(number: int) -> Spec:
    """A random spec whose bands can be closed to rings; most have a panel with a chart."""
    spec, dice = dressed_spec(number), random.Random(f"pattern {number}")
    panel = dice.choice((None, *_PANELS))
    fabric = spec["fabrics"][spec["parts"]["centre_panel"]]
    fabric.pop("multiple"), fabric.pop("row_repeat")
    if panel:
        sections = ("setup", "closing")
        own = {
            "stitch": "stitches of a chart",
            "swatch": fabric["swatch"],
            "turning_chains": fabric["turning_chains"],
            "multiple": {"of": panel.of, "plus": panel.plus},
            "row_repeat": {"rows": len(panel.chart["repeat"])}
            | {each: len(panel.chart[each]) for each in sections if each in panel.chart},
            "chart": dict(panel.chart),
        }
        spec["fabrics"] |= {"charted": own}
        spec["parts"] |= {"centre_panel": "charted"}
    if dice.random() < 0.3:
        _rib_by_chart(spec)
    for size in spec["sizes"].values():
        _fitted(size["panel"], panel)
        body = size["body"]
        if "hem" in body:
            body |= {"neck": body["neck"] + body["neck"] % 2, "hem": body["hem"] + body["neck"] % 2}
    return spec


def _rib_by_chart(spec: Spec) -> None:
    """Bands from a chart of two rows."""
    own = {
        "stitch": "ridges",
        "swatch": spec["fabrics"][spec["parts"]["neck_band"]]["swatch"],
        "turning_chains": 1,
        "multiple": {"of": 2},
        "row_repeat": {"rows": 2},
        "chart": {"repeat": ["hdc blo across", "(hdc blo, sl st blo) across"]},
    }
    spec["fabrics"] |= {"ridges": own}
    spec["parts"] |= {"neck_band": "ridges", "arm_bands": "ridges"}
    for size in spec["sizes"].values():
        for band in (size["neck_band"], size["arm_bands"]):
            band["stitches"] += band["stitches"] % 2


def _fitted(counts: dict[str, int], panel: _Panel | None) -> None:
    """The panel with an even number of stitches, and as many rows as its chart can have."""
    if panel is None:
        counts["stitches"] += counts["stitches"] % 2
        return
    even = panel.of if panel.of % 2 == 0 else 2 * panel.of
    counts["stitches"] = even * max(1, (counts["stitches"] - panel.plus) // even) + panel.plus
    high = len(panel.chart["repeat"])
    others = sum(len(rows) for rows in panel.chart.values()) - high
    counts["rows"] = others + high * max(1, (counts["rows"] - others) // high)
