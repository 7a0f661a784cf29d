"""What is declared is what is imported, and the locks hold it, each file by its hash."""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).parents[1]
OWN = {"schematics", "tests"}
RUN_BY_NAME = {"import-linter", "mypy", "pytest-xdist", "ruff", "uv"}
"""What the Makefile and .ci call, which nothing imports."""
READ_BY_MYPY = {"scipy-stubs", "types-networkx", "types-pyyaml", "types-shapely"}
IMPORTED = re.compile(
    r"""^\s*(?:from\s+(\w+)[\w.]*\s+import\b|import\s+(\w[\w., ]*)$)"""
    r"""|\b(?:import_module|files)\(\s*["'](\w+)""",
    re.MULTILINE,
)
"""An import, or a function of importlib that is given a package's name."""


def declared() -> dict[str, dict[str, Requirement]]:
    """Name and requirement of every dependency by what it is for: run, build, or an extra such as dev."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
    lines = {
        "run": project["project"]["dependencies"],
        **project["project"]["optional-dependencies"],
        "build": project["build-system"]["requires"],
    }
    return {
        use: {canonicalize_name(each.name): each for each in map(Requirement, requirements)}
        for use, requirements in lines.items()
    }


DECLARED = declared()


def named(text: str) -> Iterator[str]:
    for package, several, loaded in IMPORTED.findall(text):
        yield from (re.split(r"\W", each)[0] for each in (package or several or loaded).split(", "))


@cache
def installed() -> Mapping[str, list[str]]:
    """The distributions that have a top-level package of that name."""
    return packages_distributions()


def imported(folder: str) -> set[str]:
    """The distributions from which a folder's files import, wherever in a file they do."""
    names = {name for path in (ROOT / folder).rglob("*.py") for name in named(path.read_text("utf-8"))}
    provided_by = installed()
    return {
        canonicalize_name(provided_by[name][0]) for name in names - OWN if name not in sys.stdlib_module_names
    }


@pytest.mark.slow
def test_the_program_declares_what_it_imports_and_nothing_else() -> None:
    assert imported("schematics") == DECLARED["run"].keys() | DECLARED["serve"].keys()


@pytest.mark.slow
def test_the_tests_declare_what_they_use_and_nothing_else() -> None:
    used = imported("tests") - DECLARED["run"].keys() - DECLARED["serve"].keys() | RUN_BY_NAME | READ_BY_MYPY
    assert used == DECLARED["dev"].keys() | DECLARED["cluster"].keys()


LOCKED = re.compile(
    r"(?P<name>[a-z0-9-]+)==(?P<version>[0-9.a-z]+)(?: ; (?P<marker>[^\\]+))?"
    r"(?: \\\n {4}--hash=sha256:[0-9a-f]{64})+\n"
)
"""A package of a lock as pip reads it."""


def locked(kind: str) -> dict[str, Version]:
    """The version of every package in a lock that has nothing else: no address, no path, nothing unhashed."""
    text = (ROOT / ".ci" / "requirements" / f"{kind}.txt").read_text("utf-8")
    assert re.sub("^#.*\n", "", LOCKED.sub("", text), flags=re.MULTILINE) == ""
    return {found["name"]: Version(found["version"]) for found in LOCKED.finditer(text)}


@pytest.mark.parametrize(
    ("kind", "uses"),
    [("run", ("run", "build")), ("dev", tuple(DECLARED)), ("lowest", tuple(DECLARED))],
)
def test_a_lock_has_what_is_declared(kind: str, uses: tuple[str, ...]) -> None:
    versions = locked(kind)
    for use in uses:
        for name, requirement in DECLARED[use].items():
            assert requirement.specifier.contains(versions[name]), requirement


def test_the_program_is_tested_with_the_versions_it_is_run_with() -> None:
    assert locked("run").items() <= locked("dev").items()


def test_the_lowest_versions_are_the_lowest_declared() -> None:
    versions = locked("lowest")
    for requirement in (each for use in DECLARED.values() for each in use.values()):
        (bound,) = (each for each in requirement.specifier if each.operator == ">=")
        lowest = Version(bound.version).release
        assert versions[canonicalize_name(requirement.name)].release[: len(lowest)] == lowest, requirement
