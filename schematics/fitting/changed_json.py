"""What changed counts come to, as plain JSON values."""

from __future__ import annotations

from typing import Any

from schematics.analysis.changed_counts import count_changes
from schematics.analysis.json_keys import EFFECT, SEVERITY_CHANGE
from schematics.analysis.measurements import finding_json
from schematics.analysis.side_effects import effects, severity_changes
from schematics.design.design import Design
from schematics.document.json_text import picked
from schematics.fitting.fit_keys import COUNT_CHANGE
from schematics.fitting.sizing import SizeFit


def changed_json(design: Design, before: SizeFit, after: SizeFit) -> dict[str, Any]:
    """The counts that differ, the lengths in cm and the checks that do, and all findings after."""
    return {
        "changes": [
            picked(each, COUNT_CHANGE)
            for each in count_changes(before.at_gauge.size, after.at_gauge.size, design)
        ],
        "effects": [picked(each, EFFECT) for each in effects(before.at_gauge, after.at_gauge)],
        "checks": [
            picked(each, SEVERITY_CHANGE) for each in severity_changes(before.findings, after.findings)
        ],
        "findings": [finding_json(each) for each in after.findings],
    }
