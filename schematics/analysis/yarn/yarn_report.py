"""What `schematics yarn` works out, ready to be printed: every size, and the stash if there is one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from schematics.analysis.yarn.accuracy import accuracy_words, larger_swatch, relative_error
from schematics.analysis.yarn.need import YarnNeed, metres_per_gram, yarn_need
from schematics.analysis.yarn.shorten import Shortened, shortened
from schematics.analysis.yarn.stash import ColourVerdict, StashVerdict, colour_verdicts, stash_verdict
from schematics.checks.evaluation import Result
from schematics.checks.wording import listed, sentence_case
from schematics.crochet.fabric import Fabric
from schematics.crochet.yarn_use import YarnUse
from schematics.design.design import Design
from schematics.design.limits import COMMON
from schematics.errors import UsageError
from schematics.units import format_both
from schematics.wearer.standard_deviations import DRIFT_FRACTION


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeYarn:
    """One size: its yarn, and whether the stash does for it.

    ``verdicts`` is empty without a stash, ``shorter`` None where the stash does or nothing helps.
    """

    result: Result
    need: YarnNeed
    verdicts: tuple[ColourVerdict, ...] = ()
    shorter: Shortened | None = None

    @property
    def verdict(self) -> StashVerdict:
        """Whether the stash does; enough without one."""
        return stash_verdict(self.verdicts)


def size_yarns(design: Design, results: Sequence[Result], stash: Mapping[str, float]) -> tuple[SizeYarn, ...]:
    """The yarn of each result against a stash in grams by colour, which may be empty.

    Raises:
        UsageError: there is a stash and a swatch was not weighed.
    """
    sizes = tuple(SizeYarn(result=result, need=yarn_need(design, result.garment)) for result in results)
    if not stash:
        return sizes
    unweighed = tuple(dict.fromkeys(name for size in sizes for name in size.need.unweighed))
    if unweighed:
        raise UsageError(
            f"{design.path}: {unweighed_words(unweighed)}, so what a stash is good for is not known"
        )
    return tuple(_against(design, size, stash) for size in sizes)


def _against(design: Design, size: SizeYarn, stash: Mapping[str, float]) -> SizeYarn:
    verdicts = colour_verdicts(size.need, stash)
    enough = stash_verdict(verdicts) is StashVerdict.ENOUGH
    return replace(size, verdicts=verdicts, shorter=None if enough else shortened(design, size.result, stash))


def largest_enough(sizes: Sequence[SizeYarn]) -> SizeYarn | None:
    """The last size, in the spec's order from small to large, for which the stash does.

    A size that a check stops cannot be made whatever the yarn.
    """
    enough = (each for each in reversed(sizes) if each.verdict is StashVerdict.ENOUGH)
    return next((each for each in enough if each.result.verdict != "stop"), None)


def unweighed_words(names: Sequence[str]) -> str:
    """Such as ``the swatch of 'rib' was not weighed (give its mass)``."""
    words = listed(repr(name) for name in names)
    if len(names) == 1:
        return f"the swatch of {words} was not weighed (give its mass)"
    return f"the swatches of {words} were not weighed (give their mass)"


def yarn_notes(design: Design, needs: Sequence[YarnNeed]) -> tuple[str, ...]:
    """How the figures of these sizes come about, what they leave out, and how sure they are."""
    use = design.yarn_use
    fabrics = design.parts.fabrics.values()
    measured = "as measured for this design" if use.seam_thread is not None else COMMON
    notes = [
        "A part's mass is its stitches, counted row by row, times the mass of its swatch over the swatch's "
        "stitches times its rows.",
        *_uncounted_notes(needs),
        f"Thread in a join: {use.seam_factor:g} times its length ({measured}); counted are the seams, the "
        f"bands onto their edges, the ends of each band, and tails of "
        f"{format_both(use.tail_cm)}.",
    ]
    unweighed = [fabric.name for fabric in fabrics if fabric.weighed.mass_g is None]
    if unweighed:
        notes.append(f"{sentence_case(unweighed_words(unweighed))}: what they take is not guessed.")
    if metres_per_gram(design.yarn) is None:
        notes.append(
            "Joins and tails are in metres only, and not in the grams: give ball_mass and ball_length to "
            "count them in."
        )
    notes += _accuracy_notes([fabric for fabric in fabrics if fabric.weighed.mass_g is not None], use)
    return tuple(notes)


def _uncounted_notes(needs: Sequence[YarnNeed]) -> Iterator[str]:
    parts = dict.fromkeys(part.part for need in needs for part in need.parts if not part.counted)
    if parts:
        yield (
            f"The rows of the {listed(parts)} cannot be counted: as many stitches are taken as fill the area."
        )


def _accuracy_notes(fabrics: Sequence[Fabric], use: YarnUse) -> list[str]:
    if not fabrics:
        return []
    notes = [
        "Give or take: a swatch's counts are read to about half a stitch and half a row, scales show whole "
        f"grams, and a maker works {DRIFT_FRACTION:.0%} ".replace("%", " %")
        + "looser or tighter than her swatch (common practice, no source). "
        + "; ".join(accuracy_words(fabric) for fabric in fabrics)
        + "."
    ]
    for fabric in fabrics:
        error, times = relative_error(fabric.weighed), larger_swatch(fabric, use.margin)
        if error is not None and times is not None and times > 1:
            notes.append(
                f"The swatch of {fabric.name!r} is too small for a margin of {use.margin_words}: one "
                f"{times:.1f} times as wide and high would do."
            )
    return notes
