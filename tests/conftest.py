"""What holds for all tests."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis.internal.conjecture import providers

from tests.examples import REPEATABLE, UNHURRIED, thorough
from tests.fitting.page import browser as driver
from tests.fitting.page.browser import Browser
from tests.remembered import remember_reading

if sys.dont_write_bytecode:
    # Nothing compiled may lie beside the sources; elsewhere it spares all processes and runs the compiling.
    compiled = str(Path(__file__).parents[1] / ".pytest_cache" / "compiled")
    sys.dont_write_bytecode, sys.pycache_prefix = False, compiled
    os.environ |= {"PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": compiled}

# What is collected lives as long as the process; looking through it for what may be forgotten takes long.
gc.disable()

settings.load_profile(REPEATABLE if os.environ.get("CI") else UNHURRIED)

DRAWINGS = Path(__file__).parent / "drawing"


@pytest.fixture(scope="session")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """Debian's Chromium. Without it the tests are skipped, but on the build machine they fail."""
    if driver.PROGRAM is None:
        if os.environ.get("CI"):
            pytest.fail(driver.MISSING)
        pytest.skip(driver.MISSING)
    running = Browser(tmp_path_factory.mktemp("chromium"))
    yield running
    running.close()


@pytest.fixture(scope="session", autouse=True)
def _read_once() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as monkeypatch:
        remember_reading(monkeypatch)
        yield


@pytest.hookimpl(trylast=True)
def pytest_configure() -> None:
    """No source is searched for values that examples might be of, but by `make fuzz`.

    Each process would read all of them, and with any line of the program other examples would be tried.
    """
    if not thorough() and hasattr(providers, "_get_local_constants"):
        providers._get_local_constants = lambda: providers._local_constants


def pytest_collection_finish() -> None:
    """From here on as seldom as memory allows: what the tests share lives long, too."""
    gc.set_threshold(100_000, 20, 50)
    gc.enable()


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that the program is called in, an empty one."""
    monkeypatch.chdir(tmp_path)
    return tmp_path


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """What a browser shows is slow; drawings come first, so that one of two processes has all of them.

    What `make fuzz` alone runs is left out of everything else.
    """
    items.sort(key=lambda item: DRAWINGS not in item.path.parents)
    for item in items:
        if "browser" in getattr(item, "fixturenames", ()):
            item.add_marker(pytest.mark.slow)
    if not thorough():
        left_out = [item for item in items if item.get_closest_marker("thorough")]
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if not item.get_closest_marker("thorough")]


@pytest.hookimpl(trylast=True)
def pytest_sessionfinish() -> None:
    """Rings of objects are looked for once more, and by nobody after that in all that is remembered."""
    gc.collect()
    gc.freeze()
