"""The browser that the tests of the maker's page have."""

from tests.page.conftest import browser

__all__ = ["browser"]
