"""The blocks of a spec that describe yarn, fabrics and parts, as they may be written."""

from __future__ import annotations

from typing import Annotated, Any, Self

from pydantic import (
    Field,
    ValidationError,
    ValidationInfo,
    field_validator,
    model_validator,
)
from pydantic_core import InitErrorDetails

from schematics.crochet.fabric import (
    BENDING_LENGTH_HOW,
    LEAST_BENDING_LENGTH,
    MOST_BENDING_LENGTH,
    MOST_PULLS,
    MOST_STRETCH,
    Swatch,
    swatch_faults,
)
from schematics.crochet.stitches import TURNING_CHAINS
from schematics.design.design import MOST_SHADES
from schematics.reading.hook_value import HookValue
from schematics.reading.pattern_block import PatternBlock
from schematics.reading.problems import listed
from schematics.reading.spec_block import SpecBlock
from schematics.reading.spec_words import NameInFile
from schematics.reading.values import (
    Amount,
    ColourValue,
    Context,
    Fraction,
    LengthValue,
    Shorthand,
    TextValue,
    Whole,
    refuse,
)

MOST_FABRICS = 20

THICKEST_YARN, FINEST_YARN = 0.02, 100.0
"""Metres to the gram, from rope to sewing thread (common practice, no source)."""


def usual_turning_chains(stitch: str) -> int | None:
    """The chains usually skipped at the turn; None where the stitch is not a common one."""
    name = " ".join(stitch.casefold().split())
    return TURNING_CHAINS.get(name, TURNING_CHAINS.get(f"{name} crochet"))


Counted = Annotated[float, Field(gt=0, le=1000, allow_inf_nan=False)]
"""Stitches or rows of a swatch, where a part of one counts."""
Stretch = Annotated[float, Fraction(0, MOST_STRETCH)]
_GUESSED = "true while it is a guess; it is marked wherever it is printed, until this key is deleted"


class YarnBlock(SpecBlock):
    """The yarn."""

    name: Annotated[str, TextValue()] = Field(description="the yarn's name")
    fibre: Annotated[str, TextValue()] | None = Field(
        default=None, description="what it is spun of, as '80 % wool, 20 % cotton'"
    )
    colour: Annotated[str, TextValue(40)] | None = Field(default=None, description="the main colour's name")
    shades: Annotated[
        dict[Annotated[str, NameInFile("colour")], Annotated[str, ColourValue()]],
        Field(max_length=MOST_SHADES),
    ] = Field(default={}, description="how colours look in drawings, by their names, as sand: '#d9c7a3'")
    weight: Annotated[int, Whole(0, 7)] | None = Field(
        default=None, description="the trade's number, from 0 (lace) to 7 (jumbo)"
    )
    ball_mass: Annotated[float, Amount("g", 1, 5000)] | None = Field(
        default=None, description="grams in one ball"
    )
    ball_length: Annotated[float, Amount("m", 1, 10000)] | None = Field(
        default=None, description="metres in one ball"
    )

    @field_validator("ball_length")
    @classmethod
    def _is_yarn(cls, value: float | None, info: ValidationInfo) -> float | None:
        grams = info.data.get("ball_mass")
        if value is not None and grams is not None and not THICKEST_YARN <= value / grams <= FINEST_YARN:
            raise refuse(
                f"expected {THICKEST_YARN:g} to {FINEST_YARN:g} m to the gram, got {value / grams:.6g}"
            )
        return value


class SwatchBlock(SpecBlock):
    """A swatch measured after washing."""

    stitches: Counted = Field(description="stitches counted across the width; 19.5 is fine")
    rows: Counted = Field(description="rows counted up the height")
    width: Annotated[float, LengthValue(1, 200)] = Field(description="width the stitches were counted over")
    height: Annotated[float, LengthValue(1, 200)] = Field(description="height the rows were counted over")
    mass: Annotated[float, Amount("g", 0.1, 5000)] | None = Field(
        default=None, description="grams of exactly that area"
    )
    bending_length: Annotated[float, LengthValue(LEAST_BENDING_LENGTH, MOST_BENDING_LENGTH)] | None = Field(
        default=None, description=f"how stiff it is: {BENDING_LENGTH_HOW}"
    )
    guessed: bool = Field(default=False, description=_GUESSED)
    reckoned: bool = Field(
        default=False, description="true where nobody worked it, and it is taken from the body's"
    )

    @model_validator(mode="after")
    def _is_fabric(self, info: ValidationInfo) -> Self:
        context: Context | None = info.context
        faults = swatch_faults(self.swatch()) if context and context.unit else ()
        errors = [InitErrorDetails(type=refuse(words), loc=(key,), input=None) for key, words in faults]
        if errors:
            raise ValidationError.from_exception_data(type(self).__name__, errors)
        return self

    def swatch(self) -> Swatch:
        """The swatch the program uses."""
        return Swatch(
            stitches=self.stitches,
            rows=self.rows,
            width_cm=self.width,
            height_cm=self.height,
            mass_g=self.mass,
            guessed=self.guessed,
            reckoned=self.reckoned,
            bending_length_cm=self.bending_length,
        )


class StretchBlock(SpecBlock):
    """How far the fabric gives, pulled by hand, before it resists."""

    across: Stretch = Field(default=0.0, description="in the direction of the stitches, as 0.15 or '15 %'")
    along: Stretch = Field(default=0.0, description="in the direction of the rows, as 0.15 or '15 %'")
    pulls: Annotated[int, Whole(1, MOST_PULLS)] = Field(
        default=1,
        description="how often it was pulled and measured anew, where it is the mean of that: more is surer",
    )
    guessed: bool = Field(default=False, description=_GUESSED)


class TurningChainsBlock(SpecBlock):
    """Chains skipped at the turn."""

    chains: Annotated[int, Whole(0, 10)] = Field(description="chains skipped at the turn")
    guessed: bool = Field(default=False, description=_GUESSED)


def _chains_mapping(value: Any) -> Any:
    return value if value is None or isinstance(value, dict) else {"chains": value}


_TURNING_CHAINS = Shorthand(TurningChainsBlock | None, _chains_mapping, Whole(0, 10).schema())


class FabricBlock(PatternBlock):
    """One stitch pattern worked with one yarn and hook."""

    hook: Annotated[float, HookValue()] | None = Field(
        default=None, description="its hook, as 8 mm or US L/11; the design's if left out"
    )
    swatch: SwatchBlock = Field(description="a washed swatch: stitches, rows, width and height")
    pattern_swatch: SwatchBlock | None = Field(
        default=None,
        description="the pattern's swatch, where `swatch` is a maker's own: it says what stitches weigh "
        "while hers is not weighed",
    )
    stretch: StretchBlock | None = Field(
        default=None, description="how far the fabric gives; none if left out"
    )
    turning_chains: Annotated[TurningChainsBlock | None, _TURNING_CHAINS] = Field(
        default=None,
        validate_default=True,
        description="chains skipped at the turn; may be left out for slip stitch, single, half double, "
        "double and treble crochet",
    )

    @field_validator("turning_chains")
    @classmethod
    def _given_or_usual(
        cls, value: TurningChainsBlock | None, info: ValidationInfo
    ) -> TurningChainsBlock | None:
        stitch = info.data.get("stitch")
        if value is None and stitch is not None and usual_turning_chains(stitch) is None:
            raise refuse(
                "the key 'turning_chains' is missing: chains skipped at the turn, "
                f"which are known only for {listed(list(TURNING_CHAINS), 'and')}",
                missing=True,
            )
        return value


class PartsBlock(SpecBlock):
    """Which fabric each part is worked in."""

    body: Annotated[str, NameInFile("fabric")] = Field(description="fabric of the body")
    centre_panel: Annotated[str, NameInFile("fabric")] = Field(description="fabric of the centre panel")
    neck_band: Annotated[str, NameInFile("fabric")] = Field(description="fabric of the neck band")
    arm_bands: Annotated[str, NameInFile("fabric")] = Field(description="fabric of the arm bands")
