"""The marked runs for the arm bands, and the ribbing of both kinds of band."""

from __future__ import annotations

from collections.abc import Callable

from schematics.crochet.fabric import Counted
from schematics.document.document import Figure, Section, Table, count_figure, listed_section
from schematics.garment.garment import ArmRun, ArmsOn, Edge, Garment
from schematics.pattern.book import Book
from schematics.pattern.sections.pick_ups import pick_ups


def markers_section(book: Book) -> Section:
    """Where the arm runs begin and end, both ends counted in."""
    arm = book.results[0].garment.arm
    edge = arm.edge
    what, unit = _counted(edge)

    def figure(key: str, name: str, value: Callable[[Garment], int], unit: str = "") -> Figure:
        return count_figure(f"markers.{key}", name, unit, book.each(value))

    figures = (
        figure("right.first", "wearer's right, first marker", lambda made: made.arm.first),
        figure("right.last", "wearer's right, last marker", lambda made: made.arm.last),
        figure("left.first", "wearer's left, first marker", lambda made: made.arm.left[0]),
        figure("left.last", "wearer's left, last marker", lambda made: made.arm.left[1]),
        figure("count", f"{what} in each run, both markers counted in", lambda made: made.arm.count, unit),
        figure("edge", f"{what} of the whole edge", lambda made: made.arm.edge.count, unit),
    )
    return listed_section(
        key="markers",
        heading="Markers for the arm bands",
        sentences=(_from_where(arm),),
        tables=(
            Table(
                caption=f"Marked {what} of the {edge.name}",
                header=("marker", what),
                rows=tuple((figure.name, figure) for figure in figures),
            ),
        ),
        figures=figures,
    )


def _counted(edge: Edge) -> tuple[str, str]:
    if edge.counted is Counted.STITCHES:
        return "stitches", edge.counted.value
    return "row ends", edge.counted.value


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
    figures = (*_neck(book), *_arm(book))
    picked_up, counted = pick_ups(book), book.results[0].garment.neck_start.counted
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
            "Arm bands: join yarn at the first marker of each run; the last row is joined to the first where "
            "both markers of the run meet: a ring.",
            *([_PICKED_UP] if picked_up else []),
        ),
        tables=(
            Table(
                caption="Neck band and arm bands",
                header=("figure", "stitches or rows"),
                rows=tuple((figure.name, figure) for figure in figures),
            ),
            *(table for table, _ in picked_up),
        ),
        figures=(*figures, *(figure for _, each in picked_up for figure in each)),
    )


_PICKED_UP = (
    "Along row ends the edge stitches are picked up first. The schedule says how many stitches each row end "
    "takes, in turn; where there are fewer stitches than row ends, how many row ends each stitch takes: all "
    "but one of them are passed over."
)


def _neck(book: Book) -> tuple[Figure, ...]:
    def figure(key: str, name: str, unit: str, value: Callable[[Garment], int]) -> Figure:
        return count_figure(f"neck_band.{key}", f"neck band: {name}", unit, book.each(value))

    panel_top = [result.size.panel_stitches for result in book.results]
    edges = book.each(lambda garment: garment.neck.edge_count)
    body = [edge - top for edge, top in zip(edges, panel_top, strict=True)]
    return (
        figure("edge", "edge stitches", "sts", lambda garment: garment.neck.edge_count),
        count_figure("neck_band.edge_body", "neck band: edge stitches of the body", "sts", body),
        count_figure("neck_band.edge_panel", "neck band: edge stitches of the panel's top", "sts", panel_top),
        figure("ribbing_rows", "ribbing rows", "rows", lambda garment: garment.neck.band_rows),
        figure("depth", "stitches in a ribbing row", "sts", lambda garment: _depth(garment, "neck band")),
        figure("centre_back", "stitch to join yarn in", "", lambda garment: garment.neck_start.stitch),
    )


def _arm(book: Book) -> tuple[Figure, ...]:
    def figure(key: str, name: str, unit: str, value: Callable[[Garment], int]) -> Figure:
        return count_figure(f"arm_band.{key}", f"arm bands, each: {name}", unit, book.each(value))

    return (
        figure("edge", "edge stitches", "sts", lambda garment: garment.arm.ring.edge_count),
        figure("ribbing_rows", "ribbing rows", "rows", lambda garment: garment.arm.ring.band_rows),
        figure("depth", "stitches in a ribbing row", "sts", lambda garment: _depth(garment, "arm band")),
    )


def _depth(garment: Garment, band: str) -> int:
    return garment.piece(band).foundation_stitches
