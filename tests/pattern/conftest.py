"""What holds for all tests of the pattern."""

from __future__ import annotations

import pytest

from tests.remembered import remember_pictures


@pytest.fixture(autouse=True)
def pictured_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Many tests publish the same few sizes."""
    remember_pictures(monkeypatch)
