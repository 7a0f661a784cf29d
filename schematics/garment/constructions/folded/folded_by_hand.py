"""A folded body by hand: a rectangle less neck hole and slot; paths bend at the corners of the hole."""

from __future__ import annotations

from schematics.garment.constructions.by_hand import HandSheet
from schematics.garment.constructions.folded.folded_formulas import paths_of, shoulder_of


def shape(sheet: HandSheet) -> None:
    """The front's width, the body's area, what lies beside the neck, and the drops."""
    width, slot = sheet["body.width"], sheet["body.slot"]
    hole = sheet["body.neck_width"] * (sheet["body.neck_front"] + sheet["body.neck_back"])
    sheet.length(
        "front_width", "front width", width - slot + sheet["panel.width"], "the panel in place of the slot"
    )
    sheet.area(
        "area.body",
        "area of the body",
        width * (sheet["body.front"] + sheet["body.back"]) - hole - slot * sheet["body.front_edge"],
        "the whole rectangle less neck hole and slot",
    )
    sheet.add(shoulder_of(sheet.steps))
    sheet.add(sheet.formulas.drop)
    sheet.add(sheet.formulas.longest_drop)


def girth(sheet: HandSheet) -> None:
    """Back, both fronts and panel, the same from top to hem."""
    around = 2 * sheet["body.width"] - sheet["body.slot"] + sheet["panel.width"]
    top = sheet.length("girth.top", "round the body", around, "back, and front with the panel in the slot")
    sheet.length("girth.hem", "round the hem", top, "as everywhere")


def paths(sheet: HandSheet) -> None:
    """From the middle of the opening to nape, centre back and panel."""
    for path in paths_of(sheet.steps):
        sheet.add(path)
