"""The batch: every design drawn in all its sizes by as many processes as there are, then put in place.

Nothing heavy is imported here: where everything is as it should be already, nothing is drawn.

An executor of one's own does the work wherever it likes, such as that of a cluster engine:

    with Client() as client:
        sources = [design_source(design) for design in designs]
        build_sources(sources, Path("output"), Options(), executor=client.get_executor())

What it needs to send is small, and what it does reads and writes no file; this process alone does.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from concurrent.futures import Executor
from contextlib import nullcontext, suppress
from pathlib import Path
from typing import TYPE_CHECKING

from schematics.batch.job import Job, Options
from schematics.batch.lock import locked
from schematics.batch.outcome import BuildReport, Failure
from schematics.batch.pool import processes, seldom_collected, work_off
from schematics.batch.source import Source, design_source, spec_source
from schematics.reading.files.saving import DiskFullError

if TYPE_CHECKING:
    from schematics.design.design import Design

__all__ = [
    "BuildReport",
    "Failure",
    "Options",
    "build_design",
    "build_sources",
    "design_source",
    "spec_source",
]

Progress = Callable[[float], None]
"""Called with how much is done, from 0 to 1, never less than before."""


def build_design(
    design: Design,
    out: Path,
    sizes: Sequence[str] | None = None,
    paper: str = "a4",
    *,
    common_scale: bool = False,
    force: bool = False,
    templates: bool = False,
    cloth: bool = False,
    executor: Executor | None = None,
    progress: Progress | None = None,
) -> BuildReport:
    """Draw a design and write it out, as `schematics.build` does; ``progress`` is called meanwhile.

    Everything is drawn before the first file is put in place, so that what stops a drawing leaves an
    earlier build as it was; a finding never stops one. Where only some ``sizes`` are written, measurements,
    figures, workbook and page are still those of every size, and so is a common scale.

    Raises:
        UsageError: a name is no size of the design, a wearer cannot be resolved, or a file that is not
            from this program is in the way.
        WriteError: a file cannot be written; every file there is whole, old or new.
    """
    names = None if sizes is None else tuple(sizes)
    options = Options(
        sizes=names, paper=paper, common_scale=common_scale, force=force, templates=templates, cloth=cloth
    )
    (outcome,) = build_sources([design_source(design)], out, options, executor=executor, progress=progress)
    if isinstance(outcome, Failure):
        raise outcome.error
    return outcome


def build_sources(
    sources: Sequence[Source],
    out: Path,
    options: Options,
    *,
    executor: Executor | None = None,
    jobs: int = 1,
    progress: Progress | None = None,
) -> list[BuildReport | Failure]:
    """Draw specs and designs, each into a folder of its own name.

    Args:
        sources: what to build; no two may have the same slug.
        out: folder that gets one folder for each.
        options: what to build of each.
        executor: who does the work; as many processes as ``jobs`` when None.
        jobs: 1 for this process alone.
        progress: called while it goes on.

    Returns:
        For each source what there is of it now, or why it was not built; those in order.
    """
    work = [Job(source, out, options) for source in sources]
    stale = [job for job in work if not job.is_current()]
    if stale:
        with locked(out):
            stale = [job for job in stale if not job.is_current()]
            own = processes(jobs if stale else 1)
            with own if executor is None else nullcontext(executor) as workers:
                try:
                    _work_off(stale, workers, _STRANGERS_AT_ONCE if executor else 3 * jobs, progress)
                finally:
                    for job in stale:
                        job.close()
    return [job.outcome for job in work if job.outcome is not None]


_STRANGERS_AT_ONCE = 64
"""Pieces of work that an executor of others gets at a time, a few for each of its workers; memory grows with
this, not with the number of designs or sizes."""


def _work_off(jobs: Sequence[Job], workers: Executor, at_once: int, progress: Progress | None) -> None:
    def report() -> None:
        if progress:
            progress(sum(job.share for job in jobs) / len(jobs))

    # The job it happened to reports a full disk; the others would only meet it again.
    with suppress(DiskFullError), seldom_collected():
        work_off((job.first_step() for job in jobs), workers, at_once, report)


def usual_jobs() -> int:
    """As many processes as this one may use processors."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:
        return os.cpu_count() or 1
