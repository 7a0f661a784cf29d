"""From a valid file to a draft of the design: centimetres, whole counts, frozen."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from schematics.crochet.fabric import CountRule, Fabric, RowRule
from schematics.crochet.terms import Terms
from schematics.crochet.yarn_use import YarnUse
from schematics.design.design import Design, Parts, Yarn
from schematics.design.limits import Limits
from schematics.design.publication import Publication
from schematics.garment.constructions import CONSTRUCTIONS
from schematics.grading.draft import Draft, DraftSize, Wishes
from schematics.reading.blocks import FabricBlock, usual_turning_chains
from schematics.reading.chart_block import chart_of
from schematics.reading.count_blocks import BLOCKS
from schematics.reading.grading_block import GradingBlock
from schematics.reading.loading import LoadedFile
from schematics.reading.spec_model import DesignBlock, SizeBlock
from schematics.wearer.body import WearerSpec


def draft(block: DesignBlock, document: LoadedFile, path: Path, content: bytes) -> Draft:
    """The design a valid file describes, as far as it gives the counts."""
    return Draft(
        content=content,
        head=_head(block, path),
        sizes=tuple(_size(name, each, document) for name, each in block.sizes.items()),
        wishes=_wishes(block.grading, document) if block.grading else None,
    )


def _head(block: DesignBlock, path: Path) -> Design:
    fabrics = {name: _fabric(name, each, block.hook) for name, each in block.fabrics.items()}
    parts = Parts(
        **{part: fabrics[name] for part, name in block.parts},
        borders=tuple(each.border(name) for name, each in block.borders.items()),
    )
    own = any(fabric.pattern_swatch for fabric in parts.fabrics.values())
    return Design(
        slug=path.stem,
        path=path,
        title=block.title,
        date=block.date,
        unit=block.unit,
        construction=block.construction,
        yarn=Yarn(
            name=block.yarn.name,
            fibre=block.yarn.fibre,
            colour=block.yarn.colour,
            shades=tuple(block.yarn.shades.items()),
            weight=block.yarn.weight,
            ball_mass_g=block.yarn.ball_mass,
            ball_length_m=block.yarn.ball_length,
        ),
        hook_mm=block.hook,
        parts=parts,
        sizes=(),
        limits=block.limits.limits() if block.limits else Limits(),
        yarn_use=block.yarn_use.use() if block.yarn_use else YarnUse(),
        terms=Terms(block.terms),
        neck_ties=block.neck_ties,
        publication=block.pattern.publication() if block.pattern else Publication(),
        pattern_parts=parts.with_fabrics(lambda fabric: fabric.in_pattern) if own else None,
    )


def _fabric(name: str, block: FabricBlock, hook_mm: float | None) -> Fabric:
    stretch, multiple, repeat = block.stretch, block.multiple, block.row_repeat
    turn = block.turning_chains
    return Fabric(
        name=name,
        stitch=block.stitch,
        hook_mm=hook_mm if block.hook is None else block.hook,
        swatch=block.swatch.swatch(),
        pattern_swatch=block.pattern_swatch.swatch() if block.pattern_swatch else None,
        stretch_across=stretch.across if stretch else 0.0,
        stretch_along=stretch.along if stretch else 0.0,
        stitch_rule=multiple.rule() if multiple else CountRule(),
        row_rule=repeat.rule() if repeat else RowRule(),
        turning_chains=turn.chains if turn else usual_turning_chains(block.stitch) or 0,
        chart=chart_of(block.chart, block.stitches) if block.chart else None,
        stretch_guessed=stretch is not None and stretch.guessed,
        stretch_pulls=stretch.pulls if stretch else 1,
        turning_chains_guessed=turn is not None and turn.guessed,
    )


def _size(name: str, block: SizeBlock, document: LoadedFile) -> DraftSize:
    """Whatever the construction can grade is a count, the rest of its keys are settings."""
    construction = CONSTRUCTIONS[document.data["construction"]]
    counts = {*construction.counts, *construction.shaping}
    given: dict[str, Any] = {}
    for key in BLOCKS:
        values = getattr(block, key).model_dump(exclude_none=True, exclude_unset=True)
        given |= {f"{key}.{each}": value for each, value in values.items()}
    places = document.places
    return DraftSize(
        name=name,
        wearer=WearerSpec(chart=block.wearer.chart, age_years=block.wearer.age, own=block.wearer.own()),
        given={key: value for key, value in given.items() if key in counts},
        settings={key: value for key, value in given.items() if key not in counts},
        line=places["sizes", name].line,
        lines={
            key: places["sizes", name, *key.split(".")].line
            for key in (*BLOCKS, *given)
            if ("sizes", name, *key.split(".")) in places
        },
    )


def _wishes(block: GradingBlock, document: LoadedFile) -> Wishes:
    places = document.places
    return Wishes(
        line=places[("grading",)].line,
        sample=block.sample,
        intents={
            key: each.intent(places["grading", "intent", key].line) for key, each in block.intent.items()
        },
        weights=block.weights,
        steps=block.steps,
        mind=block.mind,
        tolerances_cm=block.tolerance,
        increases=block.increases,
    )
