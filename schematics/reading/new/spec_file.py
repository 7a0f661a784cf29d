"""The file of a new spec: read before it is written, and never over another by chance."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from schematics.errors import SchematicsError, UsageError
from schematics.grading.grade import search_of
from schematics.reading.design_file import parse_draft, refuse_name
from schematics.reading.files.saving import ChangedError, write_new, write_whole
from schematics.reading.new.answers import AnswerError, Answers, read
from schematics.reading.new.spec_text import spec_text
from schematics.reading.new.usual import completed, usual

ENDINGS = (".yaml", ".yml")
_TRIAL = Path("lake.yaml")
_LONGEST_FILE_NAME = 255
"""Characters; of a longer name systems do not even say whether it is there (``NAME_MAX`` on Linux)."""


def refuse_file(path: Path, *, overwrite: bool) -> None:
    """Refuse a file that cannot become a spec, or is there and must stay.

    Raises:
        SchematicsError: the text says which, and what to do.
    """
    if path.suffix in ENDINGS or len(path.name) > _LONGEST_FILE_NAME:
        refuse_name(path)
    if path.is_dir():
        raise UsageError(f"{path}: this is a folder; name a file in it, such as {path / _TRIAL}")
    if path.suffix not in ENDINGS:
        such = path.with_name(f"{path.stem.strip('.') or _TRIAL.stem}.yaml")
        raise UsageError(f"{path}: a spec's name ends in .yaml, such as {such}")
    if path.exists() and not overwrite:
        raise UsageError(f"{path}: there is such a file already; name another, or give --overwrite")


def accepted(key: str, text: str | None, so_far: Answers, stem: str) -> Any:
    """The answer to the question of that key, of which a spec comes that can be read back.

    Args:
        key: the question's.
        text: what was answered, None where nothing was.
        so_far: the answers to the questions before it, all accepted.
        stem: the name of the file without its ending.

    Raises:
        AnswerError: it cannot be used, or is missing; the text says why.
    """
    answer = read(key, text, so_far)
    if text != usual(key, so_far, stem):
        try:
            checked(_TRIAL, completed({**so_far, key: answer}, stem))
        except UsageError as error:
            first = str(error).splitlines()[0]
            raise AnswerError(first.partition(": ")[2]) from None  # without file and line
    return answer


def checked(path: Path, answers: Answers) -> str:
    """The text of the spec, which has been read as one under the name of ``path``, as far as to its lengths.

    Raises:
        UsageError: together the answers make no spec; a line for each reason, with file and line.
    """
    text = spec_text(answers)
    try:
        search_of(parse_draft(path, text.encode()))
    except SchematicsError as error:
        raise UsageError(str(error)) from None
    return text


def write(path: Path, text: str, *, overwrite: bool) -> None:
    """Write the file whole; one that has come up in the meantime is left alone.

    Raises:
        UsageError: the file is there and must stay.
        WriteError: the system refused.
    """
    try:
        (write_whole if overwrite else write_new)(path, text.encode())
    except ChangedError:
        refuse_file(path, overwrite=overwrite)
        raise
