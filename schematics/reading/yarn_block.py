"""The block of a spec that says how yarn is counted."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from schematics.crochet.yarn_use import USUAL_MARGIN, USUAL_TAIL_CM, YarnUse
from schematics.reading.spec_block import SpecBlock
from schematics.reading.values import Fraction, LengthValue, TextValue

_Colour = Annotated[str, TextValue(40)]


class ColoursBlock(SpecBlock):
    """The colour of each part; those left out are in the main colour."""

    body: _Colour | None = Field(default=None, description="colour of the body, and of its seams")
    centre_panel: _Colour | None = Field(default=None, description="colour of the centre panel")
    neck_band: _Colour | None = Field(default=None, description="colour of the neck band")
    arm_bands: _Colour | None = Field(default=None, description="colour of the arm bands")


class YarnUseBlock(SpecBlock):
    """How yarn is counted."""

    margin: Annotated[float, Fraction(0, 1)] = Field(
        default=USUAL_MARGIN,
        description="yarn to buy beyond what is counted, as 0.1 or '10 %'; the give or take if that is more",
    )
    seam_thread: Annotated[float, Field(ge=1, le=20, allow_inf_nan=False)] | None = Field(
        default=None,
        description="thread in a seam over the seam's length, measured by undoing one; usually 3.5",
    )
    tail: Annotated[float, LengthValue(1, 100)] = Field(
        default=USUAL_TAIL_CM, description="what is left hanging at each end"
    )
    colours: ColoursBlock | None = Field(default=None, description="colours, where parts differ")

    def use(self) -> YarnUse:
        """The use of yarn that the program reckons with."""
        colours = self.colours.model_dump(exclude_none=True) if self.colours else {}
        return YarnUse(margin=self.margin, seam_thread=self.seam_thread, tail_cm=self.tail, colours=colours)
