"""What other counts make worse is told, and what outweighs what they mend is told apart."""

from __future__ import annotations

import pytest

from schematics.checks.finding import Certainty, Finding, Severity
from schematics.fitting.trade_offs import losses, worst_gets_worse

MIND, GOOD, STOP = Severity.MIND, Severity.GOOD, Severity.STOP


def found(
    code: str, severity: Severity, holds: float, *, unsure: bool = False, short_of_stop: bool = False
) -> Finding:
    """A finding that holds in that share of all cases."""
    sure = Certainty(
        margin_cm=0.0,
        sd_cm=1.0,
        holds_fraction=holds,
        enough=False,
        open=True,
        shares=(),
        sentence="",
        measure="",
        short_of_stop=short_of_stop,
    )
    return Finding(code=code, severity=severity, size="2", place="", words="", unsure=unsure, sure=sure)


def test_what_holds_less_often_is_told_and_by_how_much() -> None:
    """Of several places the least counts; what turns good, or differs by a rounding, is left out."""
    before = [
        found("NECK-SLIP", MIND, 0.4),
        found("NECK-SLIP", MIND, 0.6),
        found("ARM-TIGHT", MIND, 0.5),
    ]
    told = ("shoulders over neck: holds in about one in ten, where it was about four in ten",)
    assert losses(before, [found("NECK-SLIP", MIND, 0.1)]) == told
    assert losses(before, [found("NECK-SLIP", MIND, 0.5), found("ARM-TIGHT", MIND, 0.47)]) == ()
    assert losses(before, [found("NECK-SLIP", GOOD, 0.1)]) == ()
    assert losses([], [found("NECK-SLIP", MIND, 0.1)]) == (
        "shoulders over neck: to be minded, where it was right",
    )


def test_a_chance_to_stay_short_of_a_stop_is_not_called_one_to_hold() -> None:
    """What fails as it is measured may be likelier not to stop than what is good was to be good."""
    unsure = [found("NECK-PASS", MIND, 0.6, unsure=True)]
    failing = found("NECK-PASS", MIND, 0.9, short_of_stop=True)
    assert losses(unsure, [failing]) == ("neck stretched over head: to be minded, where it was not sure",)
    assert losses([failing], [found("NECK-PASS", MIND, 0.6, short_of_stop=True)]) == (
        "neck stretched over head: stays short of a stop in about six in ten, where it was about nine in ten",
    )


@pytest.mark.parametrize(
    ("after", "worse"),
    [
        ([found("NECK-SLIP", MIND, 0.1)], True),
        ([found("NECK-SLIP", MIND, 0.4)], False),
        ([found("NECK-SLIP", MIND, 0.4), found("NECK-PASS", MIND, 0.7, unsure=True)], False),
        ([found("NECK-SLIP", STOP, 0.3)], True),
        ([found("HANG-KNEE", MIND, 0.2)], True),
        ([found("HANG-KNEE", MIND, 0.6)], False),
        ([found("HANG-KNEE", MIND, 0.9, unsure=True)], False),
    ],
    ids=["likelier to fail", "as it was", "nothing", "a stop", "another, likelier", "less likely", "unsure"],
)
def test_the_worst_is_worse_where_more_is_lost_than_gained(after: list[Finding], *, worse: bool) -> None:
    before = [found("NECK-SLIP", MIND, 0.4), found("NECK-PASS", MIND, 0.7, unsure=True)]
    assert worst_gets_worse(before, after) is worse


def test_what_stops_is_worth_any_doubt() -> None:
    before = [found("NECK-PASS", STOP, 0.1), found("NECK-SLIP", MIND, 0.4)]
    assert not worst_gets_worse(before, [found("NECK-SLIP", MIND, 0.1)])
