"""Counts, checks and dimensioned schematics for crochet ponchos, in every size at once.

>>> import schematics
>>> design = schematics.read("specs/tidepool.yaml")
>>> schematics.evaluate(design)["6"].verdict.value
'good'

What ``__all__`` lists is for everyone; the modules behind it may change. A name is loaded when it is
first asked for, so that the command line starts at once.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from schematics.batch import BuildReport
    from schematics.checks.evaluation import Result
    from schematics.checks.finding import Finding, Severity
    from schematics.design.design import Design
    from schematics.drawing.sheets import Page
    from schematics.errors import SchematicsError
    from schematics.fitting.fitting import Fitting
    from schematics.fitting.rescue.rescue import Rescue
    from schematics.fitting.to_measure.made_to_measure import MadeToMeasure
    from schematics.fitting.to_measure.order import NotWearableError
    from schematics.grading.reasons import GradedLength, Miss
    from schematics.library.arguments import Measurements, UnknownNameError
    from schematics.library.functions import (
        Grading,
        Results,
        Sheets,
        build,
        draw,
        draw_templates,
        evaluate,
        fit,
        grade,
        read,
        write_pattern,
    )
    from schematics.library.to_measure import make_to_measure, rescue

__version__ = "0.1.0"

__all__ = [
    "BuildReport",
    "Design",
    "Finding",
    "Fitting",
    "GradedLength",
    "Grading",
    "MadeToMeasure",
    "Measurements",
    "Miss",
    "NotWearableError",
    "Page",
    "Rescue",
    "Result",
    "Results",
    "SchematicsError",
    "Severity",
    "Sheets",
    "UnknownNameError",
    "__version__",
    "build",
    "draw",
    "draw_templates",
    "evaluate",
    "fit",
    "grade",
    "make_to_measure",
    "read",
    "rescue",
    "write_pattern",
]

_ELSEWHERE = {
    "BuildReport": "schematics.batch",
    "Design": "schematics.design.design",
    "Finding": "schematics.checks.finding",
    "Fitting": "schematics.fitting.fitting",
    "GradedLength": "schematics.grading.reasons",
    "MadeToMeasure": "schematics.fitting.to_measure.made_to_measure",
    "Measurements": "schematics.library.arguments",
    "Miss": "schematics.grading.reasons",
    "NotWearableError": "schematics.fitting.to_measure.order",
    "Page": "schematics.drawing.sheets",
    "Rescue": "schematics.fitting.rescue.rescue",
    "Result": "schematics.checks.evaluation",
    "SchematicsError": "schematics.errors",
    "UnknownNameError": "schematics.library.arguments",
    "Severity": "schematics.checks.finding",
    "make_to_measure": "schematics.library.to_measure",
    "rescue": "schematics.library.to_measure",
}
"""Where public names are defined that are not of `schematics.library.functions`."""


if not TYPE_CHECKING:  # a type checker would take any name for one of ours

    def __getattr__(name: str) -> Any:
        if name not in __all__:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        value = getattr(import_module(_ELSEWHERE.get(name, "schematics.library.functions")), name)
        globals()[name] = value
        return value


def __dir__() -> list[str]:
    return list(__all__)
