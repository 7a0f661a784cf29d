"""``schematics new``: a commented spec from a swatch, asked for or given by flags."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from schematics.cli.program import Exit, to_stderr
from schematics.errors import UsageError
from schematics.reading.new.questions import Question, questions
from schematics.reading.problems import listed


def _flags(command: Callable[..., Any]) -> Callable[..., Any]:
    for question in reversed(questions()):
        command = click.option(question.flag, question.key, metavar="WORDS", help=question.about)(command)
    return command


@click.command(short_help="Write a commented spec from a swatch, to be graded.")
@click.argument("file", type=click.Path(path_type=Path))
@_flags
@click.option(
    "--ask/--no-ask", default=None,
    help="Ask for what no flag gives, or take what is usual; asks on a terminal if neither is given.",
)  # fmt: skip
@click.option("--overwrite", is_flag=True, help="Write over a FILE that is there already.")
def new(file: Path, ask: bool | None, overwrite: bool, **given: str | None) -> int:
    """Write a new spec to FILE, such as specs/lake.yaml, from your swatch and how it should fit.

    Only the body's swatch is needed; for the rest there is a usual answer, or a guess that the file marks as
    one. Counts are left out: schematics grade FILE finds them. A file that is there already is left alone.
    """
    from schematics.reading.new.spec_file import checked, refuse_file, write

    refuse_file(file, overwrite=overwrite)
    asking = sys.stdin.isatty() if ask is None else ask
    answers = _answers(file, given, asking=asking)
    write(file, checked(file, answers), overwrite=overwrite)
    click.echo(_next_steps(file, answers))
    return Exit.FINE


def _answers(file: Path, given: dict[str, str | None], *, asking: bool) -> dict[str, Any]:
    """Every answer: from its flag, else asked for, else what is usual.

    Raises:
        UsageError: flags give what cannot be used and nobody can be asked; one line for each.
    """
    from schematics.reading.new.answers import AnswerError
    from schematics.reading.new.spec_file import accepted
    from schematics.reading.new.usual import assumed, usual

    answers: dict[str, Any] = {}
    problems: list[str] = []
    refuse = to_stderr if asking else problems.append
    if asking:
        click.echo("Press Enter for what stands in [brackets]. Nothing is written before the last answer.")
    for question in questions():
        key, text = question.key, given.get(question.key)
        if not question.asked_of(answers.get("construction")):
            if text is not None:
                refuse(f"{question.flag}: only a {listed(question.only)} body has it")
            continue
        default = usual(key, answers, file.stem)
        if asking and text is None:
            answers[key] = _asked(question, default, answers, file.stem)
            continue
        try:
            answers[key] = accepted(key, default if text is None else text, answers, file.stem)
        except AnswerError as error:
            refuse(f"{question.flag}: {error}")
            answers[key] = (
                _asked(question, default, answers, file.stem) if asking else assumed(key, answers, file.stem)
            )
    if problems:
        raise UsageError(*problems)
    return answers


def _asked(question: Question, default: str | None, answers: dict[str, Any], stem: str) -> Any:
    from schematics.reading.new.answers import AnswerError
    from schematics.reading.new.spec_file import accepted

    if question.hint:
        click.echo(f"\n{question.ask}: {question.hint}")
    while True:
        text = click.prompt(question.ask, default=default, show_default=bool(default))
        try:
            return accepted(question.key, text, answers, stem)
        except AnswerError as error:
            to_stderr(f"  {error}")


def _next_steps(file: Path, answers: dict[str, Any]) -> str:
    guessed = [
        words
        for key, words in (
            ("panel_swatch", "swatch of the centre panel"), ("rib_swatch", "swatch of the ribbing"),
            ("stretch", "stretch of the body"), ("panel_stretch", "stretch of the centre panel"),
            ("rib_stretch", "stretch of the ribbing"),
        )
        if answers[key].guessed
    ]  # fmt: skip
    lines = [f"Wrote {file}."]
    if guessed:
        lines.append(
            f"Guessed: {listed(guessed, 'and')}. Measure, correct the file, and delete 'guessed: true' there."
        )
    lines += [
        "Stretch decides whether heads and hands pass: pull your own swatches.",
        "",
        "Next:",
        f"  schematics grade {file}            shows the counts it finds",
        f"  schematics grade {file} --write    puts them into the file",
        f"  schematics build {file}            draws every size",
    ]
    return "\n".join(lines)
