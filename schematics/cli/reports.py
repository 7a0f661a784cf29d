"""What the commands that report share: the forms they print in, and printing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from schematics.cli.program import Exit
from schematics.cli.specs import find_specs, outcome, read_specs
from schematics.document.writers import FORMS
from schematics.errors import SchematicsError, UsageError

if TYPE_CHECKING:
    from schematics.checks.evaluation import Result
    from schematics.design.design import Design
    from schematics.document.document import Document


def report_options(
    usual: str = "text", more: Sequence[str] = (), words: str = ""
) -> Callable[[Callable[..., Any]], Callable[..., Any]]:
    """Give a command the argument ``form``, by ``--format`` or the short forms ``--json`` and ``--csv``.

    ``more`` are forms of this command alone, and ``words`` tells them in the help. Of a command that has an
    argument ``output``, a file, the file's ending names the form if nothing else does.

    Raises:
        UsageError: two forms are asked for.
    """

    def with_options(command: Callable[..., Any]) -> Callable[..., Any]:
        @wraps(command)
        def with_form(form: str | None, as_json: bool, as_csv: bool, **arguments: Any) -> Any:
            asked = {f"--format {form}": form} if form else {}
            asked |= {"--csv": "csv"} if as_csv else {}
            asked |= {"--json": "json"} if as_json else {}
            if len(asked) > 1:
                raise UsageError(f"give {' or '.join(asked)}, not both")
            named = _form_of(arguments.get("output"), (*FORMS, *more))
            chosen = next(iter(asked.values()), named or usual)
            if named and chosen != named:
                words, ending = next(iter(asked)), arguments["output"].suffix
                raise UsageError(
                    f"{words} does not go into a file that ends in {ending}; leave out one of them"
                )
            return command(form=chosen, **arguments)

        for option in (
            click.option("--csv", "as_csv", is_flag=True, help="Short for --format csv."),
            click.option("--json", "as_json", is_flag=True, help="Short for --format json."),
            click.option(
                "--format", "form", type=click.Choice((*FORMS, *more)),
                help=f"Text, Markdown, a page, comma-separated values or JSON{words}.  [default: {usual}]",
            ),
        ):  # fmt: skip
            with_form = option(with_form)
        return with_form

    return with_options


def _form_of(output: Path | None, forms: Sequence[str]) -> str | None:
    """The form that a file's ending names; None where it names none."""
    ending = output.suffix.lower().removeprefix(".") if output else ""
    form = "text" if ending == "txt" else ending
    return form if form in forms else None


def print_documents(documents: Sequence[Document], form: str, together: str = "") -> None:
    """Print the documents; JSON as a list under the key ``together`` where one is given."""
    from schematics.document.writers import written

    if documents or form == "json":
        for part in written(documents, form, together):
            click.echo(part, nl=False)


def report_specs(
    specs: Sequence[Path],
    sizes: tuple[str, ...] | None,
    form: str,
    report: Callable[[Design, tuple[Result, ...]], Document],
) -> Exit:
    """Print what is to be reported of the sizes of each spec, and tell what is wrong with the others.

    JSON is an object with the list ``designs``, be it of one.

    Args:
        specs: the specs named, all of the folder `schematics.cli.specs.SPECS` when none is.
        sizes: names of the sizes, all when None.
        form: how to print.
        report: the document of one design, from its sizes worked out.
    """
    from schematics.checks.evaluation import choose, evaluate

    designs, problems = read_specs(find_specs(specs))
    documents: list[Document] = []
    verdicts: list[str] = []
    for design in designs:
        try:
            worked_out = choose(design, evaluate(design), sizes)
            documents.append(report(design, worked_out))
            verdicts += [each.verdict for each in worked_out]
        except SchematicsError as error:
            problems.append(str(error))
    print_documents(documents, form, "designs")
    return outcome(verdicts, problems)
