"""The browser that the tests of the maker's page have."""

from tests.fitting.page.conftest import browser

__all__ = ["browser"]
