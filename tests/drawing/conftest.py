"""What tests of drawings are given."""

from __future__ import annotations

import pytest

from tests.drawing.chart_sheets import Worked
from tests.shipped import shipped_design, shipped_results


@pytest.fixture(scope="session")
def tidepool() -> Worked:
    return shipped_design("tidepool"), shipped_results("tidepool")
