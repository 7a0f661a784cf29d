"""Which stitches of the row below a post stitch, a long stitch or one on the surface leaves unworked."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from schematics.crochet.charts.chart import Worked
from schematics.crochet.stitches import Post


def stands_in_place(worked: Worked) -> bool:
    """Whether it is worked elsewhere and stands in place of stitches of the row below."""
    return worked.uses > 0 and (worked.stitch.post is not None or worked.rows_below > 1)


def unworked_notes(used: Collection[Worked]) -> Iterator[str]:
    """A sentence for each way in which the stitches ``used`` stand to the row below."""
    instead = [worked for worked in used if stands_in_place(worked)]
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
            f"{_stitches(instead)} {_where(instead)} unworked."
        )
    if any(worked.surface for worked in used):
        yield (
            "A stitch on the surface lies on the fabric and uses no stitch of the row below: leave no stitch "
            "unworked. The next row passes over it."
        )


def _stitches(instead: Collection[Worked]) -> str:
    return "stitch" if all(each.uses == 1 for each in instead) else "stitches"


def _where(instead: Collection[Worked]) -> str:
    back = [each.stitch.post is Post.BACK for each in instead]
    if all(back):
        return "in front of it"
    return "behind it (in front of a back post stitch)" if any(back) else "behind it"


def unworked_clause(used: Collection[Worked]) -> str:
    """The end of a special stitch's definition, for all ways in which it is used; empty for most stitches."""
    instead = [worked for worked in used if stands_in_place(worked)]
    surface = any(worked.surface for worked in used)
    if instead:
        but = ", but none where it lies on the surface" if surface else ""
        return f"; leave the {_stitches(instead)} {_where(instead)} unworked{but}"
    if not surface:
        return ""
    strand = ", where the post may be a raised strand" if any(each.stitch.post for each in used) else ""
    return f"; it lies on the surface{strand}: leave no stitch unworked"
