"""What is suggested, of which sizes."""

from __future__ import annotations

import pytest

from schematics.checks.finding import Certainty, Finding, Severity
from schematics.fitting.fitting import fitting
from schematics.fitting.growth_report import and_next
from schematics.fitting.measured import resolved
from schematics.fitting.suggestion_report import less_likely
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


def _finding(code: str, severity: Severity, holds: float) -> Finding:
    sure = Certainty(
        margin_cm=0.0,
        sd_cm=1.0,
        holds_fraction=holds,
        enough=False,
        open=True,
        shares=(),
        sentence="",
        measure="",
    )
    return Finding(code=code, severity=severity, size="2", place="", words="", sure=sure)


def test_what_is_left_and_holds_less_often_is_told_so() -> None:
    """Of several places the least counts; what turns good, or differs by a rounding, is left out."""
    mind, good = Severity.MIND, Severity.GOOD
    before = [
        _finding("NECK-SLIP", mind, 0.4),
        _finding("NECK-SLIP", mind, 0.6),
        _finding("ARM-TIGHT", mind, 0.5),
    ]
    assert less_likely(before, [_finding("NECK-SLIP", mind, 0.1)]) == {"NECK-SLIP"}
    assert less_likely(before, [_finding("NECK-SLIP", mind, 0.5), _finding("ARM-TIGHT", mind, 0.47)]) == set()
    assert less_likely(before, [_finding("NECK-SLIP", good, 0.1)]) == set()
    assert less_likely([], [_finding("NECK-SLIP", mind, 0.1)]) == set()
