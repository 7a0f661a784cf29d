"""The counts of a folded body and its arm openings, each held against those it depends on."""

from __future__ import annotations

from collections.abc import Mapping

from pydantic import Field, ValidationInfo, field_validator

from schematics.garment.constructions.base import CountInWords, Counts


class FoldedBody(Counts):
    """Counts of a folded body, worked from the back hem over the shoulders to the front hem."""

    width: int = Field(ge=3, description="stitches across, from side to side")
    front_rows: int = Field(ge=2, description="rows from the shoulder fold to the front hem")
    back_rows: int = Field(ge=1, description="rows from the back hem to the shoulder fold")
    neck: int = Field(ge=1, description="stitches across the neck hole")
    neck_front_rows: int = Field(ge=1, description="rows the neck hole reaches down the front")
    neck_back_rows: int = Field(ge=0, description="rows the neck hole reaches down the back")
    slot: int = Field(
        ge=1, description="stitches left out down the centre front for the panel, as wide as it is"
    )
    side_seam: bool = Field(
        default=True, description="whether the sides are seamed below the arm openings or stay open"
    )

    @property
    def in_words(self) -> Mapping[str, CountInWords]:
        """The hem, which is as wide as the body."""
        return {"hem": CountInWords(key="body.width", now=self.width)}

    @field_validator("neck")
    @classmethod
    def _leaves_shoulders(cls, neck: int, info: ValidationInfo) -> int:
        width = info.data.get("width")
        if width is not None and neck >= width:
            raise ValueError(f"a neck of {neck} stitches leaves no shoulders in a width of {width}")
        if width is not None and (width - neck) % 2:
            raise ValueError(
                f"a neck of {neck} stitches leaves {width - neck} of {width}, which make no two equal "
                f"shoulders: make it {neck - 1} or {neck + 1}"
            )
        return neck

    @field_validator("neck_front_rows", "neck_back_rows")
    @classmethod
    def _leaves_rows(cls, rows: int, info: ValidationInfo) -> int:
        side = "front" if info.field_name == "neck_front_rows" else "back"
        drop = info.data.get(f"{side}_rows")
        if drop is not None and rows >= drop:
            raise ValueError(
                f"the neck hole reaches {rows} rows down the {side}, which has only {drop}: nothing is left "
                "below it"
            )
        return rows

    @field_validator("slot")
    @classmethod
    def _fits_the_neck(cls, slot: int, info: ValidationInfo) -> int:
        neck = info.data.get("neck")
        if neck is not None and slot > neck:
            raise ValueError(f"a slot of {slot} stitches is wider than the neck hole ({neck}) it starts from")
        if neck is not None and (neck - slot) % 2:
            raise ValueError(
                f"a slot of {slot} stitches is not in the middle of the neck ({neck}): make both even or "
                "both odd"
            )
        return slot

    @property
    def front_edge_rows(self) -> int:
        """Rows of each front edge, from the neck hole to the front hem."""
        return self.front_rows - self.neck_front_rows

    @property
    def neck_side_rows(self) -> int:
        """Rows along one side of the neck hole."""
        return self.neck_front_rows + self.neck_back_rows


class FoldedArms(Counts):
    """Arm openings in the side edges, their middle on the shoulder fold."""

    rows: int = Field(ge=2, description="row ends in one arm opening, half of them on the front")

    @field_validator("rows")
    @classmethod
    def _halve(cls, rows: int) -> int:
        if rows % 2:
            raise ValueError(
                f"an opening of {rows} rows cannot have its middle on the shoulder fold: make it {rows - 1} "
                f"or {rows + 1}"
            )
        return rows
