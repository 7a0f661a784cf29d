"""The file of a new spec: read before it is written, and never over another by chance."""

from __future__ import annotations

from pathlib import Path

from schematics.errors import UsageError
from schematics.new.answers import Answers
from schematics.new.spec_text import spec_text
from schematics.report.files import ChangedError, write_new, write_whole
from schematics.spec import SpecError, parse_draft

ENDINGS = (".yaml", ".yml")


def refuse_file(path: Path, *, overwrite: bool) -> None:
    """Raise `UsageError` where the file cannot become a spec, or is there and must stay."""
    if path.suffix not in ENDINGS:
        raise UsageError(f"{path}: a spec's name ends in .yaml, such as {path.with_suffix('.yaml')}")
    if path.is_dir():
        raise UsageError(f"{path}: this is a folder; name a file in it, such as {path / 'lake.yaml'}")
    if path.exists() and not overwrite:
        raise UsageError(f"{path}: there is such a file already; name another, or give --overwrite")


def checked(path: Path, answers: Answers) -> str:
    """The text of the spec, which has been read as one under the name of ``path``.

    Raises:
        UsageError: together the answers make no spec; the text says why.
    """
    text = spec_text(answers)
    try:
        parse_draft(path, text.encode())
    except SpecError as error:
        raise UsageError(str(error)) from None
    return text


def write(path: Path, text: str, *, overwrite: bool) -> None:
    """Write the file whole; one that has come up in the meantime is left alone.

    Raises:
        UsageError: the file is there and must stay.
        WriteError: the system refused.
    """
    if overwrite:
        write_whole(path, text.encode())
        return
    try:
        write_new(path, text.encode())
    except ChangedError:
        refuse_file(path, overwrite=False)
        raise
