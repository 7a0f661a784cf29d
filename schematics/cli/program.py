"""Running a command: whatever goes wrong becomes one clear message and an exit code."""

from __future__ import annotations

import io
import os
import re
import sys
import unicodedata
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from enum import IntEnum
from importlib import import_module
from typing import Any, NoReturn, TextIO

import click

from schematics.errors import SchematicsError

TRACEBACK = "SCHEMATICS_TRACEBACK"
"""Environment variable: when it is set, an internal error shows where it happened."""

_LONGEST_LINE = 2_000


STOPPED = "stopped; every file already written is whole"
"""What is said after Ctrl-C."""


class Exit(IntEnum):
    """What the exit code tells a script."""

    FINE = 0
    STOPS = 1
    MISUSE = 2
    INTERRUPTED = 130
    PIPE_CLOSED = 141


def to_stderr(message: str) -> None:
    """Print on the error stream; names of files and arguments in it cannot harm a terminal or flood it.

    Where the stream takes nothing, nobody is told, and the exit code stays what it is.
    """
    try:
        for line in message.split("\n"):
            click.echo(_harmless(line), err=True)
    except OSError:
        _discard(sys.stderr)


def _harmless(line: str) -> str:
    """The line with escapes for what does not show, and cut where it has no end."""
    if not line.isprintable():
        line = "".join(sign if _shows(sign) else sign.encode("unicode_escape").decode() for sign in line)
    return line if len(line) <= _LONGEST_LINE else f"{line[: _LONGEST_LINE - 3]}..."


def _shows(sign: str) -> bool:
    return sign.isprintable() or unicodedata.category(sign) == "Zs"


class WholeNumber(click.IntRange):
    """A whole number in plain digits, not all that Python takes for one: ``1_0``, ``+2``, ``２``."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The number, within the range."""
        if not re.fullmatch(r"[0-9]+", str(value)):
            self.fail(f"expected a whole number in plain digits, got {value!r}", param, ctx)
        return super().convert(value, param, ctx)


class _PipeClosedError(Exception):
    """The reader of our output went away, as in ``schematics wearers | head``."""


class Program(click.Group):
    """A click group whose commands return their exit code and from which no traceback escapes.

    ``summaries`` are commands by name, each to be imported from the file of that name when it is called.
    """

    def __init__(self, *args: Any, summaries: Mapping[str, str] | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._summaries = dict(summaries or {})

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The names of all commands, in alphabetical order."""
        return sorted({*super().list_commands(ctx), *self._summaries})

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """The command of that name, None where there is none."""
        if cmd_name not in self._summaries:
            return super().get_command(ctx, cmd_name)
        command: click.Command = getattr(import_module(f"schematics.cli.{cmd_name}_command"), cmd_name)
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """List the commands without importing any."""
        with formatter.section("Commands"):
            formatter.write_dl(sorted(self._summaries.items()))

    def make_context(self, *args: Any, **kwargs: Any) -> click.Context:
        """Parse the arguments; ``--help`` and ``--version`` print here."""
        with _before_click():
            return super().make_context(*args, **kwargs)

    def invoke(self, ctx: click.Context) -> Any:
        """Run the command."""
        with _before_click():
            code = super().invoke(ctx)
            sys.stdout.flush()
        return code

    def main(self, *args: Any, **kwargs: Any) -> NoReturn:
        """Parse the arguments, run the command, exit with an `Exit` code."""
        _settle_streams()
        kwargs["standalone_mode"] = False
        sys.exit(self._guarded(*args, **kwargs))

    def _guarded(self, *args: Any, **kwargs: Any) -> int:
        try:
            code = super().main(*args, **kwargs)
            sys.stdout.flush()
        except click.ClickException as error:
            words = io.StringIO()
            error.show(words)
            return _exit_with(words.getvalue().rstrip("\n"), Exit.MISUSE)
        except (click.Abort, KeyboardInterrupt):
            return _exit_with(STOPPED, Exit.INTERRUPTED)
        except _PipeClosedError:
            _discard(sys.stdout)
            return Exit.PIPE_CLOSED
        except SchematicsError as error:
            return _exit_with(str(error), Exit.MISUSE)
        except OSError as error:
            _discard(sys.stdout)
            return _exit_with(_system_sentence(error), Exit.MISUSE)
        except Exception as error:
            if os.environ.get(TRACEBACK):
                raise
            return _exit_with(_internal_sentence(error), Exit.MISUSE)
        return int(code or Exit.FINE)


@contextmanager
def _before_click() -> Iterator[None]:
    """Tell a closed pipe and an interrupt apart before click does, which gives a false exit code for them."""
    try:
        yield
    except BrokenPipeError as error:
        raise _PipeClosedError from error
    except (KeyboardInterrupt, EOFError) as error:
        to_stderr("")
        raise click.Abort from error


def _exit_with(message: str, code: Exit) -> Exit:
    to_stderr(message)
    return code


def _system_sentence(error: OSError) -> str:
    from schematics.reading.files.saving import reason

    return f"{error.filename or 'cannot write the output'}: {reason(error)}"


def _internal_sentence(error: Exception) -> str:
    detail = " ".join(str(error).split())
    return (
        f"internal error, please report it with the command and the spec: {type(error).__name__}: {detail} "
        f"({TRACEBACK}=1 shows where)"
    )


def _settle_streams() -> None:
    """Have a closed stream lead nowhere, so that no file takes its place; show what none can as ``?``."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:
            nowhere = os.open(os.devnull, os.O_RDWR)  # the lowest number that is free: that of the stream
            os.set_inheritable(nowhere, True)
            setattr(sys, name, os.fdopen(nowhere, mode, encoding="utf-8", closefd=False))
        stream = getattr(sys, name)
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")


def _discard(stream: TextIO) -> None:
    """Send what is still buffered nowhere, so that the interpreter does not complain at exit."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
    except (OSError, ValueError):
        return
