"""How the body is worked: by its steps, or by its increases where the construction has no steps."""

from __future__ import annotations

from schematics.document.document import Section, Table, count_figure, listed_section
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.garment.constructions.body_steps import BodySteps
from schematics.pattern.book import Book
from schematics.pattern.sections import increases_in_words


def section(book: Book) -> Section:
    """The steps or the increases of all sizes."""
    construction = CONSTRUCTIONS[book.design.construction]
    steps = construction.body_steps([result.size.body for result in book.results])
    return increases_in_words.section(book) if steps is None else _section(steps)


def _section(steps: BodySteps) -> Section:
    """Rows and stitches of each step, which add up to the body's rows."""
    figures = {
        each.key: count_figure(f"body_steps.{each.key}", each.name, each.unit, each.values)
        for each in steps.every_count
    }
    rows = [sum(values) for values in zip(*(step.rows.values for step in steps.steps), strict=True)]
    all_rows = count_figure("body_steps.rows", "rows in all", "rows", rows)
    return listed_section(
        key="body_steps",
        heading="Steps of the body",
        sentences=tuple(sentence.format(**figures) for sentence in steps.sentences),
        tables=(
            Table(
                caption=steps.caption,
                header=("step", "rows", "stitches", "before the step"),
                rows=(
                    *(
                        (
                            step.name,
                            figures[step.rows.key],
                            figures[step.stitches.key],
                            step.before.format(**figures),
                        )
                        for step in steps.steps
                    ),
                    ("in all", all_rows, "", ""),
                ),
            ),
        ),
        figures=(*figures.values(), all_rows),
    )
