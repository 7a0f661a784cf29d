"""What was made to measure, as plain JSON values."""

from __future__ import annotations

from typing import Any

from schematics.analysis.measurements import questions_json, wearer_json
from schematics.analysis.yarn.need import yarn_need
from schematics.analysis.yarn.stash import colour_verdicts
from schematics.analysis.yarn.yarn_tables import need_json, stash_json
from schematics.fitting.changed_json import changed_json
from schematics.fitting.growth_report import growth_json
from schematics.fitting.report_json import head_and_cautions, size_json
from schematics.fitting.to_measure.made_to_measure import MadeToMeasure, yarn_to_buy


def poncho_json(poncho: MadeToMeasure) -> dict[str, Any]:
    """All of it but its files, as `schematics.fitting.fit_keys.MAKE` explains it; lengths in cm."""
    wearer, design = poncho.result.wearer, poncho.design
    need, yarn = yarn_to_buy(poncho)
    at_hand = poncho.order.stash_g if poncho.stash is not None else {}
    verdicts = colour_verdicts(yarn_need(design, poncho.result.garment), at_hand) if at_hand else ()
    return {
        **head_and_cautions(design),
        "wearer": wearer_json(wearer),
        "questions": questions_json(wearer, design.unit),
        "size": poncho.start.name,
        "could_also_be": list(poncho.other_sizes),
        **changed_json(design, poncho.start, poncho.fit),
        **size_json(poncho.fit),
        "growth": growth_json(poncho.lasting, wearer, design.limits),
        "counts": [
            {"key": key, "count": count, "pattern_count": before} for key, count, before in poncho.counts
        ],
        "yarn": {"name": yarn.name, **need_json(need), **stash_json(verdicts, poncho.shorter)},
    }
