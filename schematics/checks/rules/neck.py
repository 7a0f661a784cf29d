"""The neck: does the head go through, is the band tight, does it slip off the shoulders."""

from __future__ import annotations

from schematics.checks.rules.rule import ONE_PERSON, About, Rule, high, spare, typical
from schematics.checks.rules.sentence import (
    Sentence,
    compared,
    for_any,
    length,
    origin,
    percent,
    to_mind,
    to_stop,
)
from schematics.design.limits import COMMON, Limits
from schematics.wearer.body import Body
from schematics.wearer.expr import Fact, less
from schematics.wearer.growth import REFERENCES

PASS, TIGHT, SLIP = "NECK-PASS", "NECK-TIGHT", "NECK-SLIP"

_REST = Fact("neck.rest_cm")


def passes_head(_: Limits) -> Rule:
    """The head goes through."""
    head, full = high(Body.HEAD_GIRTH), Fact("neck.full_cm")
    edge, band = Fact("neck.edge_full_cm"), Fact("neck.band_full_cm")
    return Rule(
        code=PASS,
        place="neck",
        stop=less(full, head),
        figures=spare(head, full),
        reported={"head_cm": head, "edge_full_cm": edge, "band_full_cm": band, "opens_cm": full},
        sentence=Sentence(
            subject="whether the head goes through the neck",
            clauses=(
                (
                    to_stop(
                        "The head ({head}, {of_head}) does not go through: the neck opens to {opens}, "
                        "{gap} too little"
                    ),
                    for_any("The head ({head}, {of_head}) goes through the neck, which opens to {opens}"),
                ),
                (
                    for_any("; the band is tighter than the edge.", when=less(band, edge)),
                    for_any("; the edge is tighter than the band.", when=less(edge, band)),
                    for_any("; edge and band open alike."),
                ),
            ),
            printed=(compared("head opens gap", head, full), origin("of_head", head)),
            amiss=(for_any("the head does not go through the neck"),),
        ),
        about=About(
            title="The head goes through the neck",
            meaning=(
                "A poncho goes on over the head. The neck opens as far as the tighter of two things: the "
                "neck edge it is worked on and the neck band, each at full stretch. Judged against the high "
                "end of the size's heads, because every child of the size has to get through; the growth "
                "references run larger than the trade's chart, so heads come from the age table where there "
                f"is one. {ONE_PERSON}"
            ),
            cure=(
                "Work more stitches at the neck, or a wider panel; if the band is the tighter, work it in a "
                "stretchier rib or looser gauge. A fastened slit is another way, but no cords for children."
            ),
            origin=(
                "Plain geometry; no allowance is added. Head girths from the growth references "
                f"({REFERENCES}) or the size's own measurement."
            ),
            spare="neck stretched over head",
            kept="the head goes through the neck, stretched",
            remedy="a neck that opens {miss} wider: more stretch or stitches",
        ),
    )


def clears_neck(limits: Limits) -> Rule:
    """The neck is not tight."""
    neck = high(Body.NECK_GIRTH)
    needs = neck + limits.neck_clearance_cm
    return Rule(
        code=TIGHT,
        place="neck",
        stop=less(_REST, needs),
        figures=spare(neck, _REST),
        reported={"rest_cm": _REST, "neck_cm": neck, "needs_cm": needs},
        sentence=Sentence(
            subject="whether the neck is tight",
            clauses=(
                (
                    to_stop(
                        "At rest the neck opening ({rest}) is tight on the neck ({neck}, {of_neck}): it "
                        "needs {needs}, {more} more."
                    ),
                    for_any(
                        "At rest the neck opening ({opening}) clears the neck ({inside}, {of_neck}) by {gap}."
                    ),
                ),
            ),
            printed=(
                compared("rest needs more", _REST, needs),
                length("neck", neck),
                compared("opening inside gap", _REST, neck),
                origin("of_neck", neck),
            ),
            amiss=(for_any("the neck is tight"),),
        ),
        about=About(
            title="The neck is not tight at rest",
            meaning=(
                "Worn and unstretched, the opening must stand clear of the neck all round. A tight band "
                "presses on a child's throat. Judged against the high end of the size's necks. "
                f"{ONE_PERSON}"
            ),
            cure="Work more stitches at the neck, or the band in a looser gauge.",
            origin=COMMON,
            limits=("neck_clearance_cm",),
            spare="neck at rest over neck",
            kept="the neck at rest is not tight",
            remedy="a neck {miss} longer, or less clearance",
        ),
    )


def stays_on(limits: Limits) -> Rule:
    """The neck does not slip off the shoulders."""
    shoulders, flat, limit = typical(Body.SHOULDER_BREADTH), _REST / 2, limits.neck_slip_fraction
    share = flat / shoulders
    return Rule(
        code=SLIP,
        place="neck",
        mind_past=flat - shoulders * limit,
        figures={"body_cm": shoulders, "garment_cm": flat, "ease_cm": shoulders - flat},
        reported={"flat_cm": flat, "shoulder_cm": shoulders, "width_fraction": share},
        sentence=Sentence(
            subject="whether the neck slips off the shoulders",
            clauses=(
                (
                    for_any(
                        "Laid flat at rest the neck opening is {flat} wide, {share} of the shoulder "
                        "breadth ({shoulders}, {of_shoulders}), "
                    ),
                ),
                (to_mind("more than {limit}: it slips off."), for_any("and stays on.")),
            ),
            printed=(
                compared("flat shoulders gap", flat, shoulders),
                percent("share", share, limit),
                percent("limit", limit),
                origin("of_shoulders", shoulders),
            ),
            amiss=(for_any("the neck slips off the shoulders"),),
        ),
        about=About(
            title="The neck does not slip off the shoulders",
            meaning=(
                "An opening nearly as wide as the shoulders slides down one arm. Half the opening's girth "
                "at rest is held against the typical shoulder breadth of the size: it disappoints, it does "
                "not stop the size."
            ),
            cure="Work fewer stitches at the neck, or a firmer neck band, as far as the head still goes "
            "through.",
            origin=COMMON,
            limits=("neck_slip_fraction",),
            spare="shoulders over neck",
        ),
    )
