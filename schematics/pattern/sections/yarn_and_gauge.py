"""Yarn, hook, and the gauge of every fabric."""

from __future__ import annotations

from collections.abc import Iterator

from schematics.checks.wording import listed
from schematics.crochet.fabric import Fabric
from schematics.crochet.hooks_and_yarn import hook_words, yarn_weight
from schematics.design.guessed import marked
from schematics.document.document import Figure, Section, Table, listed_section, number_figure, text_figure
from schematics.pattern.book import Book
from schematics.units import GRAMS_PER_OUNCE, METRES_PER_YARD


def section(book: Book) -> Section:
    """Materials and gauge; the same for every size."""
    pieces: dict[Fabric, list[str]] = {}
    for piece in book.pieces:
        pieces.setdefault(piece.fabric, []).append(piece.name)
    materials = tuple(_materials(book))
    gauges = {fabric.name: _gauge_figures(book, fabric, names) for fabric, names in pieces.items()}
    return listed_section(
        key="materials",
        heading=book.terms.text("Materials and gauge"),
        sentences=tuple(f"{figure.name}: {figure}." for figure in materials),
        tables=(
            Table(
                caption=f"{book.terms.text('Gauge')}, washed and measured",
                header=("fabric", "stitch", "used for", "sts to 10 cm", "rows to 10 cm", "measured over"),
                rows=tuple((name, *figures) for name, figures in gauges.items()),
            ),
        ),
        figures=(*materials, *(figure for figures in gauges.values() for figure in figures)),
    )


def _materials(book: Book) -> Iterator[Figure]:
    design = book.design
    yarn = design.yarn
    yield text_figure("yarn.name", "Yarn", [yarn.name])
    if yarn.weight is not None:
        yield text_figure("yarn.weight", "Yarn weight", [yarn_weight(yarn.weight).words])
    if yarn.ball_mass_g is not None:
        ball = f"{round(yarn.ball_mass_g, 1):g} g ({yarn.ball_mass_g / GRAMS_PER_OUNCE:.2g} oz)"
        if yarn.ball_length_m is not None:
            ball += f", {round(yarn.ball_length_m, 1):g} m ({yarn.ball_length_m / METRES_PER_YARD:.0f} yd)"
        yield text_figure("yarn.ball", "One ball", [ball])
    hooks = design.parts.hooks
    words = [
        hook_words(hook_mm) + (f" for {listed(parts)}" if len(hooks) > 1 else "")
        for hook_mm, parts in hooks.items()
        if hook_mm is not None
    ]
    if words:
        yield text_figure("hook", "Hook", ["; ".join(words)])


def _gauge_figures(book: Book, fabric: Fabric, pieces: list[str]) -> tuple[Figure, ...]:
    key, swatch = f"gauge.{fabric.name}", fabric.swatch
    counted = f"{swatch.stitches:g} sts × {swatch.rows:g} rows"
    measured = f"{counted}, {swatch.width_cm:g} × {swatch.height_cm:g} cm"
    measured = marked(measured, guess=swatch.guessed)
    return (
        text_figure(f"{key}.stitch", f"{fabric.name}: stitch", [book.terms.text(fabric.stitch)]),
        text_figure(f"{key}.parts", f"{fabric.name}: used for", [", ".join(pieces)]),
        number_figure(
            f"{key}.stitches", f"{fabric.name}: stitches to 10 cm", "sts", [10 * fabric.stitches_per_cm], 2
        ),
        number_figure(f"{key}.rows", f"{fabric.name}: rows to 10 cm", "rows", [10 * fabric.rows_per_cm], 2),
        text_figure(f"{key}.swatch", f"{fabric.name}: measured over", [measured]),
    )
