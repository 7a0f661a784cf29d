"""The marked runs for the arm bands, and the ribbing of both kinds of band."""

from __future__ import annotations

from collections.abc import Callable

from schematics.crochet.fabric import Counted
from schematics.document.document import Figure, Section, count_figure, listed_section
from schematics.garment.garment import ArmRun, ArmsOn, Garment, Ring
from schematics.pattern.book import Book, figure_table
from schematics.pattern.sections.pick_ups import pick_ups


def markers_section(book: Book) -> Section:
    """The section that says where the arm runs begin and end, both ends counted in."""
    arm = book.garments[0].arm
    unit = arm.edge.counted.value
    what = "stitches" if arm.edge.counted is Counted.STITCHES else "row ends"
    in_run, in_edge = f"{what} in each run, both markers counted in", f"{what} of the whole edge"
    figures = (
        book.count("markers.right.first", "wearer's right, first marker", "", lambda size: size.arm.first),
        book.count("markers.right.last", "wearer's right, last marker", "", lambda size: size.arm.last),
        book.count("markers.left.first", "wearer's left, first marker", "", lambda size: size.arm.left[0]),
        book.count("markers.left.last", "wearer's left, last marker", "", lambda size: size.arm.left[1]),
        book.count("markers.count", in_run, unit, lambda size: size.arm.count),
        book.count("markers.edge", in_edge, unit, lambda size: size.arm.edge.count),
    )
    return listed_section(
        key="markers",
        heading=MARKERS,
        sentences=(_from_where(arm),),
        tables=(figure_table(f"Marked {what} of the {arm.edge.name}", ("marker", what), figures),),
        figures=figures,
    )


MARKERS, RIBBING = "Markers for the arm bands", "Neck band and arm bands"


def _from_where(arm: ArmRun) -> str:
    edge = arm.edge
    what = "stitch" if edge.counted is Counted.STITCHES else "row end"
    if arm.on is ArmsOn.HEM:
        return (
            f"Numbers are those of the {what}es along the {edge.name} from the wearer's right front edge "
            "to the left one, the first is 1, and both markers belong to the run."
        )
    return (
        f"Numbers are those of the {what}s along each {edge.name} edge from the front hem, the first is 1, "
        "and both markers belong to the run."
    )


def ribbing_section(book: Book) -> Section:
    """Stitches and rows of both bands, the edge they are worked onto, and where each ring closes."""
    figures = (*_neck(book), *_ring(book, "arm_band", "arm bands, each", lambda size: size.arm.ring))
    picked_up, counted = list(pick_ups(book)), book.garments[0].neck_start.counted
    return listed_section(
        key="ribbing",
        heading="Ribbing",
        sentences=(
            book.terms.text(
                "Ribbing is worked sideways onto the edge, one ribbing row to each edge stitch: two rows, "
                "out and back, are slip-stitched to two edge stitches (common practice)."
            ),
            "Neck band: join yarn at the centre back, in the stitch told below, counted "
            f"{counted}, the first is 1; the last row is joined to the first there: a ring.",
            f"Arm bands: join yarn at the {_start(book)}, with the right side facing; the last row is joined "
            "to the first where both markers of the run meet: a ring.",
            *([_PICKED_UP] if picked_up else []),
        ),
        tables=(
            figure_table(RIBBING, ("figure", "stitches or rows"), figures),
            *(table for table, _ in picked_up),
        ),
        figures=(*figures, *(figure for _, each in picked_up for figure in each)),
    )


def _start(book: Book) -> str:
    arm = book.garments[0].arm
    if arm.on is ArmsOn.HEM:
        return "last marker of each run"
    return "last marker of the run on the wearer's right, at the first of that on the left"


_PICKED_UP = (
    "Along row ends the edge stitches are picked up first. The schedule says how many stitches each row end "
    "takes, in turn; where there are fewer stitches than row ends, how many row ends each stitch takes: all "
    "but one of them are passed over."
)


def _neck(book: Book) -> tuple[Figure, ...]:
    edge, *ribbing = _ring(book, "neck_band", "neck band", lambda size: size.neck)
    panel_top = [size.piece("centre panel").edge("top").count for size in book.garments]
    body = [size.neck.edge_count - top for size, top in zip(book.garments, panel_top, strict=True)]
    start = "neck band: stitch to join yarn in"
    return (
        edge,
        count_figure("neck_band.edge_body", "neck band: edge stitches of the body", "sts", body),
        count_figure("neck_band.edge_panel", "neck band: edge stitches of the panel's top", "sts", panel_top),
        *ribbing,
        book.count("neck_band.centre_back", start, "", lambda size: size.neck_start.stitch),
    )


def _ring(book: Book, key: str, name: str, ring: Callable[[Garment], Ring]) -> tuple[Figure, ...]:
    """The edge a band is worked onto, and the rows and stitches of its ribbing."""
    piece, depth = key.replace("_", " "), "stitches in a ribbing row"
    return (
        book.count(f"{key}.edge", f"{name}: edge stitches", "sts", lambda size: ring(size).edge_count),
        book.count(f"{key}.ribbing_rows", f"{name}: ribbing rows", "rows", lambda size: ring(size).band_rows),
        book.count(
            f"{key}.depth", f"{name}: {depth}", "sts", lambda size: size.piece(piece).foundation_stitches
        ),
    )
