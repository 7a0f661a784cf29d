"""``schematics compare``: what to correct where a pattern was made from an older spec."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from schematics.cli.program import Exit, tell
from schematics.cli.specs import outcome, read_specs

if TYPE_CHECKING:
    from schematics.design.design import Design
    from schematics.pattern.corrections import Comparison, Correction


@click.command()
@click.argument("old", type=click.Path(path_type=Path))
@click.argument("new", type=click.Path(path_type=Path))
@click.option("--json", "as_json", is_flag=True, help="Print JSON.")
def compare(old: Path, new: Path, as_json: bool) -> int:
    """List, size by size, the figures that read otherwise in the spec NEW than in the spec OLD.

    The list is what a designer publishes as corrections. The exit code is 1 when a size of NEW has a
    finding that stops.
    """
    from schematics.checks.evaluation import evaluate
    from schematics.pattern.corrections import compare as compare_designs

    designs, problems = read_specs([old, new])
    if problems:
        return outcome([], problems)
    before, after = designs
    results = evaluate(after)
    comparison = compare_designs(before, evaluate(before), after, results)
    if as_json:
        _print_json(before, after, comparison)
    else:
        click.echo("\n".join(_lines(before, after, comparison)))
    code = outcome(results, [])
    if code is Exit.STOPS:
        stops = ", ".join(result.size.name for result in results if result.verdict == "stop")
        tell(f"stop: {stops}; schematics check {after.path} says why")
    return code


def _lines(old: Design, new: Design, comparison: Comparison) -> Iterator[str]:
    from schematics.design.cautions import CAUTIONS
    from schematics.pattern.corrections import correction_lines

    yield f"{new.title}: corrections from {_version(old)} to {_version(new)}"
    if comparison.same:
        yield "Nothing that is printed has changed."
    blocks = {"All sizes": comparison.everywhere} if comparison.everywhere else {}
    blocks |= {f"Size {size}": found for size, found in comparison.by_size.items()}
    for heading, corrections in blocks.items():
        yield ""
        yield heading
        for section, found in groupby(corrections, key=lambda correction: correction.section):
            yield f"  {section}"
            yield from (f"  - {line}" for line in correction_lines(list(found)))
    for words, names in (("added", comparison.added), ("left out", comparison.removed)):
        if names:
            yield ""
            yield f"Sizes {words}: {', '.join(names)}"
    yield ""
    yield "Before it is worn"
    yield from (f"- {caution.sentence}" for caution in CAUTIONS)


def _version(design: Design) -> str:
    return f"{design.path}" + (f" ({design.date.isoformat()})" if design.date else "")


def _print_json(old: Design, new: Design, comparison: Comparison) -> None:
    import schematics
    from schematics.design.cautions import CAUTIONS
    from schematics.document.json_text import as_text

    document: dict[str, Any] = {
        "format": 1,
        "program": f"schematics {schematics.__version__}",
        "old": old.path.name,
        "new": new.path.name,
        "all_sizes": [_correction_json(each) for each in comparison.everywhere],
        "sizes": [
            {"name": size, "corrections": [_correction_json(each) for each in found]}
            for size, found in comparison.by_size.items()
        ],
        "added": list(comparison.added),
        "removed": list(comparison.removed),
        "cautions": [{"sentence": each.sentence, "source": each.source} for each in CAUTIONS],
    }
    click.echo(as_text(document), nl=False)


def _correction_json(correction: Correction) -> dict[str, str | None]:
    return {
        "section": correction.section,
        "key": correction.key,
        "figure": correction.name,
        "unit": correction.unit or None,
        "old": correction.old or None,
        "new": correction.new or None,
    }
