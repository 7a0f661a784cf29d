"""What is suggested, of which sizes."""

from __future__ import annotations

import pytest

from schematics.fitting.fitting import fitting
from schematics.fitting.growth_report import and_next
from schematics.fitting.measured import resolved
from schematics.fitting.suggestions import suggestions
from schematics.wearer.body import WearerSpec
from tests.fitting.children import MEASURED, demo

TIDEPOOL = demo("tidepool")


@pytest.mark.slow
def test_no_suggestion_and_no_size_up_is_of_a_size_that_is_not_hers() -> None:
    """At 1.60 m size 10 changed would leave less to mind than M as it stands, but its hem is far off."""
    own = dict(zip(MEASURED, (57.3, 29.3, 78.1, 24.7, 13.4, 18.4, 34.2, 160.0), strict=True))
    told = fitting(TIDEPOOL, TIDEPOOL.sizes, resolved(WearerSpec(own=own)))
    by_name = {fit.name: fit for fit in told.fits}
    assert by_name["10"].is_not_hers
    changed = told.changed(by_name["10"])
    assert changed is not None
    assert changed.after.score < told.advised.score
    assert [each.before.name for each in suggestions(told)] == ["M", "S"]
    assert [fit.name for fit in and_next(told.fits, by_name["8"])] == ["8"]
