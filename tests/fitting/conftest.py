"""What holds for all tests of a wearer against a design."""

from __future__ import annotations

import pytest

from tests.remembered import remember_advice


@pytest.fixture(autouse=True)
def advised_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Many tests ask for the same few children."""
    remember_advice(monkeypatch)
