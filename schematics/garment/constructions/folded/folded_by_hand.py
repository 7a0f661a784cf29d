"""A folded body by hand: a rectangle less neck hole and slot; paths bend at the corners of the hole."""

from __future__ import annotations

from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.folded.folded_formulas import paths_of, shoulder_of


def shape(sheet: HandSheet) -> None:
    """The front's width, the body's area, what lies beside the neck, and the drops."""
    width, slot = sheet["body.width"], sheet["body.slot"]
    hole = sheet["body.neck_width"] * (sheet["body.neck_front"] + sheet["body.neck_back"])
    if sheet.formulas.widths_cm is not None:
        sheet.add(sheet.formulas.widths_cm[0])
    sheet.area(
        "area.body",
        "area of the body",
        width * (sheet["body.front"] + sheet["body.back"]) - hole - slot * sheet["body.front_edge"],
        "the whole rectangle less neck hole and slot",
    )
    sheet.add(shoulder_of(sheet.steps))
    sheet.add(sheet.formulas.drop)
    sheet.add(sheet.formulas.longest_drop)


def paths(sheet: HandSheet) -> None:
    """From the middle of the opening to nape, centre back and panel."""
    for path in paths_of(sheet.steps):
        sheet.add(path)
