"""How yarn is counted: margin, thread in the seams, tails, and the colour of each part."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

USUAL_MARGIN = 0.10
"""Yarn bought beyond what is counted, or the give or take if that is more: 10 to 20 % (common
practice, no source)."""

USUAL_SEAM_THREAD = 3.5
"""Length of thread in a slip-stitch join over the length of the join (common practice, no source)."""

USUAL_TAIL_CM = 15.0
"""What is left hanging at each end, to be woven in: 15 cm or 6 in (common practice, no source)."""

MAIN_COLOUR = "main colour"
"""Colour of the parts that have none named, where others do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnUse:
    """What a spec may say of the yarn's use.

    ``seam_thread`` is the designer's own measurement, None where the usual factor is to be taken.
    ``colours`` are names by the part's key in a spec, such as ``centre_panel``.
    """

    margin: float = USUAL_MARGIN
    seam_thread: float | None = None
    tail_cm: float = USUAL_TAIL_CM
    colours: Mapping[str, str] = field(default_factory=dict)

    @property
    def margin_words(self) -> str:
        """The margin as printed: ``10 %``."""
        return f"{100 * self.margin:g} %"

    @property
    def seam_factor(self) -> float:
        """Thread over seam: the designer's own measurement, or the usual factor."""
        return USUAL_SEAM_THREAD if self.seam_thread is None else self.seam_thread

    def colour(self, part: str) -> str:
        """The colour of a part by its key in a spec; empty where the design names no colours."""
        return self.colours.get(part, MAIN_COLOUR if self.colours else "")
