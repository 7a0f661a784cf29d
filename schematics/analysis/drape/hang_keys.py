"""What every key of the JSON of `schematics hang` means, as in `schematics.analysis.json_keys`."""

from __future__ import annotations

from collections.abc import Mapping

from schematics.analysis.json_keys import CAUTIONS, FINDING, HEAD, Keys, under

HANG_LENGTH = {
    "key": "a length of the hang: its name for programs",
    "name": "its name for people",
    "plane_cm": "by the plane model",
    "cloth_cm": "on cloth of usual stiffness and friction, as the next two null where it is not hung on "
    "cloth",
    "cloth_low_cm": "the least on cloth over stiffness and friction",
    "cloth_high_cm": "the most",
}
HANG = {
    **HEAD,
    "bending_guessed[]": "fabrics whose bending length was not measured",
    **CAUTIONS,
    "sizes[].name": "the size's name",
    "sizes[].verdict": "worst severity among its findings here",
    "sizes[].label": "whom the size is for",
    "sizes[].without_cloth": "why it is not hung on cloth, or null",
    **under("sizes[].lengths[]", HANG_LENGTH),
    **under("sizes[].findings[]", FINDING),
    "sizes[].findings[].decides": "which model decides, being the more cautious: 'plane model' or 'cloth'",
    "sizes[].findings[].figures.*": (
        "its length by each model, and 'room_cm', what is left up to the limit by the one that decides; "
        "negative where nothing is"
    ),
}

KEYS: Mapping[str, Keys] = {"hang": HANG}
"""Those of each design in ``designs[]``."""
