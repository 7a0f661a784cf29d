"""Which stitches of the row below a post stitch, a long stitch or one on the surface leaves unworked."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from schematics.checks.wording import listed
from schematics.crochet.charts.chart import Worked
from schematics.crochet.stitches import Post, Stitch
from schematics.crochet.terms import Terms

ON_SURFACE = "(on the surface)"
"""What a row says of a stitch of which it is not known anyway."""


def replaces_stitches(worked: Worked) -> bool:
    """Whether it is worked elsewhere and stands in place of stitches of the row below."""
    return worked.uses > 0 and (worked.stitch.post is not None or worked.rows_below > 1)


def surface_stitches(used: Collection[Worked]) -> frozenset[Stitch]:
    """The stitches that lie on the surface wherever they are worked."""
    return frozenset(each.stitch for each in used if each.surface) - {
        each.stitch for each in used if not each.surface
    }


def unworked_notes(used: Collection[Worked], terms: Terms) -> Iterator[str]:
    """A sentence for each relation of the stitches ``used`` to the rows below."""
    instead = [worked for worked in used if replaces_stitches(worked)]
    if instead:
        kinds = [
            *(["each post stitch"] if any(each.stitch.post for each in instead) else []),
            *(
                ["each long stitch (worked into a row further down)"]
                if any(not each.stitch.post for each in instead)
                else []
            ),
        ]
        words = " and ".join(kinds)
        one = all(each.uses == 1 for each in instead)
        place = "one stitch" if one else "as many stitches"
        below = "the row below" if one else "the row below as it goes round or into"
        yield (
            f"{words[0].upper()}{words[1:]} stands in place of {place} of {below}: leave the "
            f"{_stitches(instead)} {_unworked(instead)}."
        )
    if any(worked.surface for worked in used):
        yield (
            f"Work {_on_surface(used, terms)} on the surface of the fabric, between the stitches beside it: "
            "it uses no stitch of the row below, so leave none unworked for it, and the next row passes "
            "over it. It stands up as a raised strand; strands are counted in the direction of work."
        )
    if any(worked.rows_below > 1 for worked in used):
        yield (
            "The row below is the one worked last, 2 rows below is the one before it, and so on; there, take "
            "the stitch, post or strand in line with the next stitch."
        )


def _on_surface(used: Collection[Worked], terms: Terms) -> str:
    """``every FPdc and FPtr``; with them what rows mark one by one."""
    always = surface_stitches(used)
    names = sorted({terms.abbreviation(stitch) for stitch in always})
    marked = any(each.surface and each.stitch not in always for each in used)
    return " and ".join(
        filter(
            None,
            (f"every {listed(names)}" if names else "", f"each st marked {ON_SURFACE}" if marked else ""),
        )
    )


def _stitches(instead: Collection[Worked]) -> str:
    return "stitch" if all(each.uses == 1 for each in instead) else "stitches"


def _unworked(instead: Collection[Worked]) -> str:
    back = [each.stitch.post is Post.BACK for each in instead]
    if all(back):
        return "in front of it unworked"
    one = "that" if _stitches(instead) == "stitch" else "those"
    return "behind it unworked" + (f" (for a back post stitch, {one} in front of it)" if any(back) else "")


def unworked_clause(used: Collection[Worked]) -> str:
    """The end of a special stitch's definition, for all its uses; empty for most stitches."""
    instead = [worked for worked in used if replaces_stitches(worked)]
    surface = any(worked.surface for worked in used)
    if instead:
        but = ", but none where it lies on the surface" if surface else ""
        return f"; leave the {_stitches(instead)} {_unworked(instead)}{but}"
    if not surface:
        return ""
    strand = ", where the post may be a raised strand" if any(each.stitch.post for each in used) else ""
    return f"; it lies on the surface{strand}: leave no stitch unworked"
