"""The program as a whole: what it imports, its exit codes, and that no traceback reaches anyone."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

import schematics
from schematics.cli import main
from schematics.cli.program import Program
from tests.program import run

COMMANDS = (
    *("build", "check", "compare", "coverage", "explain", "figures"),
    *(
        "fit",
        "grade",
        "hang",
        "make",
        "new",
        "pattern",
        "progress",
        "rescue",
        "schema",
        "sensitivity",
        "serve",
    ),
    *("templates", "wearers", "workings", "yarn"),
)


def failing_program(error: BaseException) -> Program:
    """The program with one command, which raises the error."""

    @click.group(cls=Program)
    def program() -> None:
        pass

    @program.command()
    def go() -> None:
        raise error

    return program


@pytest.mark.slow
def test_help_imports_nothing_but_click() -> None:
    probe = (
        "import sys; before = set(sys.modules)\n"
        "from schematics.cli import main\n"
        "try: main(['--help'])\n"
        "except SystemExit as done: assert not done.code\n"
        "new = {name.partition('.')[0] for name in set(sys.modules) - before}\n"
        "print(sorted(new - sys.stdlib_module_names), file=sys.stderr)\n"
    )
    done = subprocess.run([sys.executable, "-c", probe], capture_output=True, text=True, check=True)
    assert done.stderr.strip() == "['click', 'schematics']"
    for command in COMMANDS:
        assert command in done.stdout


def test_the_module_runs_and_knows_its_version() -> None:
    done = run("--version")
    assert (done.returncode, done.stdout, done.stderr) == (0, f"schematics {schematics.__version__}\n", "")


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help(command: str) -> None:
    result = CliRunner().invoke(main, [command, "-h"])
    assert result.exit_code == 0
    assert result.stdout.startswith(f"Usage: main {command}")


def test_every_command_is_tried_here() -> None:
    assert tuple(main.list_commands(click.Context(main))) == COMMANDS


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        ([], "Usage:"),
        (["draw"], "No such command 'draw'"),
        (["check", "--colour"], "No such option"),
        (["build", "--sizes"], "requires an argument"),
        (["build", "--sizes", " , "], "expected size names with commas between them"),
    ],
)
def test_misuse_is_2_with_a_message(arguments: list[str], message: str) -> None:
    result = CliRunner().invoke(main, arguments)
    assert result.exit_code == 2
    assert message in result.stderr
    assert "Traceback" not in result.output


@pytest.mark.parametrize(
    ("error", "code", "message"),
    [
        (schematics.errors.UsageError("say it otherwise"), 2, "say it otherwise\n"),
        (PermissionError(13, "Permission denied", "output/lake"), 2, "output/lake: permission denied\n"),
        (OSError(28, "No space left on device"), 2, "cannot write the output: no space left on device\n"),
        (KeyboardInterrupt(), 130, "\nstopped; every file already written is whole\n"),
        (
            ZeroDivisionError("division\nby zero"),
            2,
            "internal error, please report it with the command and the spec: ZeroDivisionError: "
            "division by zero (SCHEMATICS_TRACEBACK=1 shows where)\n",
        ),
    ],
    ids=lambda value: type(value).__name__,
)
def test_an_error_is_one_message_and_a_code(error: BaseException, code: int, message: str) -> None:
    result = CliRunner().invoke(failing_program(error), ["go"])
    assert (result.exit_code, result.stderr) == (code, message)


def test_a_developer_can_ask_for_the_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SCHEMATICS_TRACEBACK", "1")
    result = CliRunner().invoke(failing_program(ZeroDivisionError()), ["go"])
    assert isinstance(result.exception, ZeroDivisionError)


@pytest.mark.slow
def test_a_closed_pipe_is_quiet() -> None:
    reader, writer = os.pipe()
    os.close(reader)
    with os.fdopen(writer, "w") as closed:
        done = subprocess.run(
            [sys.executable, "-m", "schematics", "wearers", "--json"],
            stdout=closed,
            stderr=subprocess.PIPE,
            text=True,
            timeout=600,
            check=False,
        )
    assert (done.returncode, done.stderr) == (141, "")


@pytest.mark.slow
@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no /dev/full")
def test_a_full_disk_behind_the_output_is_one_sentence() -> None:
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "schematics", "--help"],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            timeout=600,
            check=False,
        )
    assert (done.returncode, done.stderr) == (2, "cannot write the output: no space left on device\n")


@pytest.mark.slow
def test_a_terminal_that_knows_only_ascii_gets_what_it_can_show() -> None:
    done = run("schema", PYTHONIOENCODING="ascii")
    assert (done.returncode, done.stderr) == (0, "")
