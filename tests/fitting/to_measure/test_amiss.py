"""What is amiss stands apart from what is only not sure, the worst first; what is mended in part is told."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from schematics.checks.finding import Certainty, Finding, Severity
from schematics.fitting.to_measure.amiss import MENDED, SURER, mended_blocks, told_apart


def found(
    code: str, severity: Severity = Severity.MIND, holds: float | None = None, *, unsure: bool = False
) -> Finding:
    """A finding whose sentence is its code; it holds in that share of all cases."""
    certainty = None
    if holds is not None:
        certainty = Certainty(
            margin_cm=1.0,
            sd_cm=1.0,
            holds_fraction=holds,
            enough=False,
            open=False,
            shares=(),
            sentence=f"{holds:.0%} hold.",
            measure="measure it",
        )
    return Finding(
        code=code, severity=severity, size="6", place="", words=f"{code}.", unsure=unsure, sure=certainty
    )


@dataclass(frozen=True)
class Fit:
    """As much of a size on a wearer as the blocks ask for."""

    reported: tuple[Finding, ...]
    name: str = "6"


STOP = found("stop", Severity.STOP, 0.3)
MIND, WORSE = found("mind", holds=0.4), found("worse", holds=0.1)
LIKELY, LESS_LIKELY = found("likely", holds=0.9, unsure=True), found("less", holds=0.6, unsure=True)


def test_what_is_not_sure_is_told_apart_and_the_worst_first() -> None:
    amiss, unsure = told_apart([LIKELY, MIND, LESS_LIKELY, WORSE, STOP, found("certain")])
    assert [each.code for each in amiss] == ["stop", "certain", "worse", "mind"]
    assert [each.code for each in unsure] == ["less", "likely"]


@pytest.mark.parametrize(
    ("after", "told"),
    [
        ((), ["stop. 30% hold."]),
        ((found("stop", Severity.MIND, 0.4),), ["stop. 30% hold. Of this something is left, see above."]),
        ((found("stop", holds=0.9, unsure=True),), ["stop. 30% hold. Of this something is left, see above."]),
        ((STOP,), []),
    ],
    ids=["gone", "from stop to mind", "from stop to not sure", "as it was"],
)
def test_what_is_mended_in_part_is_told_as_well(after: tuple[Finding, ...], told: list[str]) -> None:
    before: Any = Fit((STOP,))
    then: Any = Fit(after)
    blocks = [(each.caption, [*each.items]) for each in mended_blocks(before, then)]
    assert blocks == ([(MENDED.format(size="6"), told)] if told else [])


def test_what_only_got_surer_is_not_called_mended() -> None:
    before: Any = Fit((MIND, LIKELY))
    after: Any = Fit(())
    assert [(each.caption, [*each.items]) for each in mended_blocks(before, after)] == [
        (MENDED.format(size="6"), ["mind. 40% hold."]),
        (SURER.format(size="6"), ["likely. 90% hold."]),
    ]
