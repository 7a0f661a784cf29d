"""Which stitches of the row below a post stitch, a long stitch or one on the surface leaves unworked."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from schematics.crochet.charts.chart import Worked
from schematics.crochet.stitches import Post


def in_place_of_one(worked: Worked) -> bool:
    """Whether it is worked elsewhere and stands in place of one stitch of the row below."""
    return worked.uses == 1 and (worked.stitch.post is not None or worked.rows_below > 1)


def unworked_notes(used: Collection[Worked]) -> Iterator[str]:
    """A sentence for each way in which the stitches ``used`` stand to the row below."""
    instead = [worked for worked in used if in_place_of_one(worked)]
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
        yield (
            f"{words[0].upper()}{words[1:]} stands in place of one stitch of the row below: leave the stitch "
            f"{_where(instead)} unworked."
        )
    if any(worked.surface for worked in used):
        yield (
            "A stitch on the surface lies on the fabric and uses no stitch of the row below: leave no stitch "
            "unworked. The next row passes over it."
        )


def _where(instead: Collection[Worked]) -> str:
    back = [each.stitch.post is Post.BACK for each in instead]
    if all(back):
        return "in front of it"
    return "behind it (in front of a back post stitch)" if any(back) else "behind it"


def unworked_clause(used: Collection[Worked]) -> str:
    """The end of a special stitch's definition, for all ways in which it is used; empty for most stitches."""
    instead = [worked for worked in used if in_place_of_one(worked)]
    surface = any(worked.surface for worked in used)
    if instead:
        but = ", but none where it lies on the surface" if surface else ""
        return f"; leave the stitch {_where(instead)} unworked{but}"
    if not surface:
        return ""
    strand = ", where the post may be a raised strand" if any(each.stitch.post for each in used) else ""
    return f"; it lies on the surface{strand}: leave no stitch unworked"
