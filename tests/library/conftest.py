"""The service that the tests of this folder ask."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from schematics.design.design import Design
from tests.library.served import Service, served
from tests.remembered import remember_made, remember_patterns, remember_pictures
from tests.shipped import shipped_design


@pytest.fixture(autouse=True)
def made_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Many tests ask for the same child."""
    remember_made(monkeypatch)
    remember_patterns(monkeypatch)
    remember_pictures(monkeypatch)


@pytest.fixture(scope="session")
def service() -> Iterator[Service]:
    """The service of one design."""
    with served([shipped_design("tidepool")]) as running:
        yield running


@pytest.fixture(scope="session")
def tidepool_design() -> Design:
    """The design it serves."""
    return shipped_design("tidepool")
