"""Running the program in tests, and looking at what it left behind."""

from __future__ import annotations

import builtins
import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest


def run(*arguments: str, folder: Path | None = None, **environment: str) -> subprocess.CompletedProcess[str]:
    """The program in a process of its own, its output in pipes."""
    return subprocess.run(
        [sys.executable, "-m", "schematics", *arguments],
        cwd=folder,
        env={**os.environ, **environment},
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


def files_in(folder: Path) -> list[str]:
    """Every file below the folder, by its path from there."""
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def without_cairo(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make ``import cairosvg`` fail as it does where the cairo library is missing: with OSError."""
    honest = builtins.__import__

    def refuse(
        name: str,
        globals_: Mapping[str, object] | None = None,
        locals_: Mapping[str, object] | None = None,
        fromlist: Sequence[str] = (),
        level: int = 0,
    ) -> Any:
        if name.partition(".")[0] in {"cairosvg", "cairocffi"}:
            raise OSError('no library called "cairo-2" was found')
        return honest(name, globals_, locals_, fromlist, level)

    for name in [name for name in sys.modules if name.partition(".")[0] in {"cairosvg", "cairocffi"}]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(builtins, "__import__", refuse)
