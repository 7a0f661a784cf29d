"""A finished poncho that came out otherwise: whether it can be worn, what mends it, whom it fits."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from schematics.checks.evaluation import chosen_sizes
from schematics.design.design import Design, Size
from schematics.fitting.gauge import SizeAtGauge, size_at_gauge
from schematics.fitting.measured import resolved
from schematics.fitting.rescue.measured_piece import MeasuredPiece, read_measured
from schematics.fitting.rescue.repairs import Repair, repairs
from schematics.fitting.rescue.whom_it_fits import WhomItFits, whom_it_fits
from schematics.fitting.sizing import SizeFit, size_fit
from schematics.wearer.body import Wearer, WearerSpec
from schematics.wearer.resolve import resolve


@dataclass(frozen=True, slots=True, kw_only=True, repr=False)
class Rescue:
    """What becomes of a finished poncho.

    ``pattern`` is the size as it was to come out, ``fit`` as it did, on the ``wearer``, who is ``given``
    or the one that the size is meant for. ``repairs`` are empty where nothing has to be mended or
    nothing mends it.
    """

    design: Design
    size: Size
    measured: MeasuredPiece
    pattern: SizeAtGauge
    wearer: Wearer
    given: bool
    fit: SizeFit
    repairs: tuple[Repair, ...]
    fits: WhomItFits

    @property
    def wearable(self) -> bool:
        """Whether nothing stops it as it is."""
        return self.fit.verdict != "stop"

    def __repr__(self) -> str:
        return f"<Rescue of size {self.size.name!r}: {self.fit.verdict.value}, {len(self.repairs)} repairs>"


def rescue(design: Design, size: str, measured: Sequence[str], spec: WearerSpec | None = None) -> Rescue:
    """A finished size as it was measured, against a wearer or the one it is meant for.

    Raises:
        UsageError: there is no such size, or what was measured cannot be used.
        WearerError: the wearer's age is impossible.
    """
    (chosen,) = chosen_sizes(design, (size,))
    piece = read_measured(measured, design, chosen)
    wearer = resolve(chosen.wearer, chosen.name) if spec is None else resolved(spec)
    at_gauge = size_at_gauge(design, chosen, piece.parts)
    fit = size_fit(design, at_gauge, wearer)
    return Rescue(
        design=design,
        size=chosen,
        measured=piece,
        pattern=size_at_gauge(design, chosen),
        wearer=wearer,
        given=spec is not None,
        fit=fit,
        repairs=repairs(design, fit, wearer),
        fits=whom_it_fits(design, at_gauge),
    )
