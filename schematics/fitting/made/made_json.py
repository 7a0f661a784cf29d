"""What was made to measure, as plain JSON values."""

from __future__ import annotations

from typing import Any

from schematics.analysis.measurements import questions_json, wearer_json
from schematics.analysis.yarn.need import yarn_need
from schematics.analysis.yarn.stash import colour_verdicts
from schematics.analysis.yarn.yarn_tables import need_json, stash_json
from schematics.fitting.changed_json import changed_json
from schematics.fitting.growth_report import growth_json
from schematics.fitting.made.made_to_measure import MadeToMeasure, yarn_to_buy
from schematics.fitting.report_json import head_and_cautions, size_json


def made_json(made: MadeToMeasure) -> dict[str, Any]:
    """All of it but its files, as `schematics.fitting.fit_keys.MAKE` explains it; lengths in cm."""
    wearer, design = made.result.wearer, made.design
    need, yarn = yarn_to_buy(made)
    at_hand = made.order.stash_g if made.stash is not None else {}
    verdicts = colour_verdicts(yarn_need(design, made.result.garment), at_hand) if at_hand else ()
    return {
        **head_and_cautions(design),
        "wearer": wearer_json(wearer),
        "questions": questions_json(wearer, design.unit),
        "size": made.start.name,
        "could_also_be": list(made.other_sizes),
        **changed_json(design, made.start, made.fit),
        **size_json(made.fit),
        "growth": growth_json(made.lasting, wearer, design.limits),
        "counts": [
            {"key": key, "count": count, "pattern_count": before} for key, count, before in made.counts
        ],
        "yarn": {"name": yarn.name, **need_json(need), **stash_json(verdicts, made.shorter)},
    }
