"""Put random specs, and spoilt ones, through the command line, and say where it fails its users.

    .venv/bin/python -m tests.fuzz.fuzz_specs [--count 5000] [--first 0]

So many valid specs and so many spoilt ones. Each is checked; some are drawn as well, or go through another
command; some run in a process of their own, which must say the same. The same numbers give the same specs.
The exit code is 1 when something was raised, an exit code is none of 0, 1 and 2, a valid spec was refused, a
message has no line or does not fit on a few, or anything took longer than a minute.
"""

from __future__ import annotations

import argparse
import os
import re
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import NoReturn
from unittest import mock
from xml.etree import ElementTree as ET

from click.testing import CliRunner

from schematics.batch.lock import LOCK
from schematics.cli import main as program
from schematics.errors import MissingLibraryError
from tests.fuzz.random_specs import spoilt, valid_text, wild_text
from tests.program import files_in, run

_PATIENCE_SECONDS = 60
_LONGEST_MESSAGE = 700
_NO_CAIRO = "no PNG or PDF was drawn"

OTHERS: Sequence[tuple[int, tuple[str, ...]]] = (
    (20, ("figures",)),
    (21, ("figures", "--format", "html", "--terms", "UK")),
    (22, ("figures", "--format", "csv")),
    (23, ("figures", "--format", "json")),
    (24, ("yarn",)),
    (25, ("check", "--json", "--all")),
    (26, ("workings", "--csv")),
    (27, ("grade", "--diff")),
    (400, ("fit", "--age", "6")),
    (410, ("fit", "--head-girth", "52 cm", "--json")),
    (420, ("coverage",)),
)
"""Every so many specs, this command too."""

BUILD_EVERY, PROCESS_EVERY = 430, 440


@dataclass(slots=True)
class Tally:
    """What came of the specs so far."""

    codes: Counter[str] = field(default_factory=Counter)
    faults: int = 0
    slowest: tuple[float, str] = (0.0, "")


def faults_of(path: Path, arguments: Sequence[str], valid: bool, tally: Tally) -> Iterator[str]:
    """Run a command on a spec in this process; what is wrong with how it ended."""
    start = time.perf_counter()
    try:
        with _patience():
            result = CliRunner().invoke(program, [arguments[0], str(path), *arguments[1:]])
    except _TooSlowError:
        yield f"{arguments[0]} took longer than {_PATIENCE_SECONDS} s"
        return
    tally.slowest = max(tally.slowest, (time.perf_counter() - start, f"{arguments[0]} {path.name}"))
    tally.codes[f"{arguments[0]} {result.exit_code}"] += 1
    if result.exc_info and not isinstance(result.exception, SystemExit | None):
        yield "raised " + "".join(traceback.format_exception(*result.exc_info))
        return
    yield from message_faults(path, result.exit_code, result.stderr)
    if valid and result.exit_code == 2 and _NO_CAIRO not in result.stderr:
        yield f"a valid spec was refused: {result.stderr}"


def message_faults(path: Path, code: int, errors: str) -> Iterator[str]:
    """What is wrong with an exit code and what was said on the error stream."""
    if code not in (0, 1, 2):
        yield f"exit code {code}"
    messages = [line for line in errors.splitlines() if not line.startswith(_NO_CAIRO)]
    if code == 2 and not errors:
        yield "exit code 2 and not a word why"
    last = path.read_bytes().count(b"\n") + path.read_bytes().count(b"\r") + 1
    told = False
    for line in messages:
        match = re.match(rf"{re.escape(str(path))}:([0-9]+): \S", line)
        if re.match(rf"{re.escape(str(path))}: counts left out in .+ were found; ", line):
            continue
        if re.fullmatch(rf"stop: .+; schematics check {re.escape(str(path))} says why", line):
            continue
        if told and re.match(r"  - \S|any one of these would release it:$", line):
            continue
        told = told or bool(match)
        unplaced = re.match(rf"{re.escape(str(path))}: (size .+|all sizes), [a-z-]+: no room for ", line)
        if not (match and 1 <= int(match[1]) <= last) and not unplaced:
            yield f"no line in {line!r}"
        if not line.isprintable() or len(line) > _LONGEST_MESSAGE:
            yield f"odd or overlong: {line[:2000]!r}"


class _TooSlowError(BaseException):
    """Of a kind that the program does not catch."""


@contextmanager
def _patience() -> Iterator[None]:
    def stop(*_: object) -> NoReturn:
        raise _TooSlowError

    signal.signal(signal.SIGALRM, stop)
    signal.alarm(_PATIENCE_SECONDS)
    try:
        yield
    finally:
        signal.alarm(0)


def build_faults(path: Path, valid: bool, tally: Tally) -> Iterator[str]:
    """Draw a spec as SVG alone; what is wrong with what is written."""
    out = path.parent / "out"
    before = set(files_in(path.parent))
    missing = mock.Mock(side_effect=MissingLibraryError("not for this run"))
    with (
        mock.patch("schematics.drawing.ink.pdf.cairo", missing),
        mock.patch("schematics.drawing.ink.raster.cairo", missing),
    ):
        yield from faults_of(path, ("build", "--jobs", "1", "--out", str(out)), valid, tally)
    for name in sorted(set(files_in(path.parent)) - before):
        if not name.startswith(f"out/{path.stem}/") and name != f"out/{LOCK}":
            yield f"{name} was written outside its folder"
        elif name.endswith(".svg"):
            ET.parse(path.parent / name)


def process_faults(path: Path, tally: Tally) -> Iterator[str]:
    """Check a spec in a process of its own, which must end as it does in this one."""
    here = CliRunner().invoke(program, ["check", str(path)])
    there = run("check", str(path), SCHEMATICS_TRACEBACK="1")
    tally.codes[f"process {there.returncode}"] += 1
    if (there.returncode, there.stderr) != (here.exit_code, here.stderr):
        yield f"a process of its own ends otherwise: {there.returncode} {there.stderr}"


def look(number: int, folder: Path, tally: Tally) -> Iterator[str]:
    """The valid spec of that number, and the spoilt one; each fault with the spec's name."""
    wild = number % 5 == 4
    cases = [
        ("wild" if wild else "valid", (wild_text(number) if wild else valid_text(number)).encode(), not wild),
        ("spoilt", spoilt(number), False),
    ]
    for kind, content, valid in cases:
        path = folder / f"{kind}-{number}.yaml"
        path.write_bytes(content)
        found = list(faults_of(path, ("check",), valid, tally))
        for every, arguments in OTHERS:
            if number % every == 0:
                found += faults_of(path, arguments, valid, tally)
        if number % BUILD_EVERY == 0:
            found += build_faults(path, valid, tally)
        if number % PROCESS_EVERY == 0:
            found += process_faults(path, tally)
        yield from (f"{path.name}: {each}" for each in found)
        if not found:
            path.unlink()


def main(arguments: Sequence[str] | None = None) -> int:
    """Go through so many of each kind and print what is wrong."""
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--count", type=int, default=5000, help="so many valid specs, and so many spoilt")
    parser.add_argument("--first", type=int, default=0, help="number of the first")
    asked = parser.parse_args(arguments)
    os.environ["SCHEMATICS_TRACEBACK"] = "1"
    folder = Path(tempfile.mkdtemp(prefix="specs-"))
    tally = Tally()
    for done, number in enumerate(range(asked.first, asked.first + asked.count), start=1):
        for fault in look(number, folder, tally):
            tally.faults += 1
            sys.stdout.write(f"{folder}/{fault}\n")
        if done % 500 == 0 or done == asked.count:
            codes = ", ".join(f"{code}: {count}" for code, count in sorted(tally.codes.items()))
            sys.stdout.write(
                f"{done} of each kind; {tally.faults} faults; by command and exit code {codes}\n"
            )
            sys.stdout.write(f"slowest: {tally.slowest[0]:.1f} s for {tally.slowest[1]}\n")
            sys.stdout.flush()
    return 1 if tally.faults else 0


if __name__ == "__main__":
    sys.exit(main())
