"""How far a maker's swatch gives, as she says it behind her gauge: ``20 % across, 8 % along, 3 pulls``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from schematics.crochet.fabric import MOST_PULLS, MOST_STRETCH, Fabric
from schematics.errors import UsageError
from schematics.reading.problems import show_value
from schematics.reading.spellings import NUMBER_PATTERN, plain_number

STRETCH_EXAMPLE = "'20 % across, 8 % along, 3 pulls'"
_PERCENT = rf"(?:{NUMBER_PATTERN})\s*%"
_STARTS = re.compile(rf",?\s*(?<![\d.,/]){_PERCENT}", re.ASCII)
STRETCH_PATTERN = (
    rf"\s*,?\s*({NUMBER_PATTERN})\s*%\s*(across|along)\s*(?:,|and\b)?\s*({NUMBER_PATTERN})\s*%\s*(across|along)"
    r"\s*(?:,|and\b)?\s*(?:([0-9]{1,3})\s*pulls?)?\s*"
)
_STRETCH = re.compile(STRETCH_PATTERN, re.ASCII | re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnStretch:
    """The fractions a swatch gives along its rows and from row to row, as the mean of so many pulls."""

    across: float
    along: float
    pulls: int

    def of(self, fabric: Fabric) -> Fabric:
        """The fabric that gives so much."""
        return replace(
            fabric,
            stretch_across=self.across,
            stretch_along=self.along,
            stretch_pulls=self.pulls,
            stretch_guessed=False,
        )


def without_stretch(text: str) -> tuple[str, OwnStretch | None]:
    """What comes before the stretch in a text, and the stretch; None where it has none.

    Raises:
        UsageError: it says one that cannot be read, or none that a fabric could have.
    """
    start = _STARTS.search(text)
    if start is None:
        return text, None
    match = _STRETCH.fullmatch(text, start.start())
    if match is None or match[2].lower() == match[4].lower():
        raise UsageError(f"--gauge: expected a stretch such as {STRETCH_EXAMPLE}, got {show_value(text)}")
    try:
        first, second = plain_number(match[1]) / 100, plain_number(match[3]) / 100
    except ValueError as error:
        raise UsageError(f"--gauge: {error}, in {text!r}") from None
    across, along = (first, second) if match[2].lower() == "across" else (second, first)
    pulls = 1 if match[5] is None else int(match[5])
    if max(across, along) > MOST_STRETCH or not 1 <= pulls <= MOST_PULLS:
        most = f"{100 * MOST_STRETCH:.0f} %"
        raise UsageError(f"--gauge: a swatch gives 0 to {most}, in 1 to {MOST_PULLS} pulls; got {text!r}")
    return text[: start.start()], OwnStretch(across=across, along=along, pulls=pulls)
