"""``schematics serve``: the same engine in a browser, for makers and for the designer herself."""

from __future__ import annotations

from collections.abc import Sequence
from importlib.util import find_spec
from pathlib import Path
from typing import TYPE_CHECKING

import click

from schematics.cli.program import Exit, WholeNumber, to_stderr
from schematics.cli.specs import find_specs, read_specs
from schematics.errors import MissingLibraryError, SchematicsError, UsageError

if TYPE_CHECKING:
    from schematics.design.design import Design

_NEEDED = ("starlette", "uvicorn")
_LOOPBACK = ("127.0.0.1", "localhost", "::1")


@click.command()
@click.argument("specs", nargs=-1, metavar="[SPEC]...", type=click.Path(path_type=Path))
@click.option("--edit", is_flag=True, help="Show each spec as it is edited, drawn anew whenever it is saved.")
@click.option("--port", type=WholeNumber(0, 65535), default=8765, show_default=True, metavar="N",
    help="Port to listen on; 0 takes one that is free.")  # fmt: skip
@click.option("--host", default=_LOOPBACK[0], show_default=True, metavar="ADDRESS",
    help="Address to listen on; as it stands only this machine is answered.")  # fmt: skip
@click.option("--name", "names", multiple=True, metavar="NAME",
    help="A name that a proxy hands requests on under, such as patterns.example. May be given several times.",
)  # fmt: skip
@click.option("--jobs", type=WholeNumber(1, 64), metavar="N",
    help="Processes to work with; as many as there are processors when not given.")  # fmt: skip
def serve(
    specs: tuple[Path, ...], edit: bool, port: int, host: str, names: tuple[str, ...], jobs: int | None
) -> int:
    """Serve makers in the browser: choose a design, answer three questions, get the pattern as PDF.

    Offered are the designs of SPEC, all of specs/ if none is named, whose pattern lacks nothing. Nothing that
    is answered is kept or written. With --edit the designer sees each spec drawn anew as she saves it.

    Only this machine is answered, until Ctrl-C. For anyone else put a proxy in front that speaks HTTPS and
    limits how much each may ask, and give its --name; any number of these may stand behind it.
    """
    if missing := [name for name in _NEEDED if find_spec(name) is None]:
        raise MissingLibraryError(
            f"serve needs what is not installed here, {' and '.join(missing)}: "
            "pip install 'poncho-schematics[serve]'"
        )
    from schematics.cli.specs import outcome
    from schematics.library.web.service import run

    if edit and (host not in _LOOPBACK or names):
        raise UsageError(
            "--edit shows specs that are not ready, so it is for this machine alone; leave it out"
        )
    paths = find_specs(specs)
    _refuse_same(paths)
    to_stderr(f"reading {len(paths)} design{'' if len(paths) == 1 else 's'} ...")
    designs, problems = read_specs(paths)
    if problems and not edit:
        return outcome((), problems)
    offered = _offered(designs, edit=edit)
    if host not in _LOOPBACK:
        to_stderr(f"{host} can be reached from other machines: put a proxy in front that speaks HTTPS.")
    run(offered, paths if edit else (), host=host, port=port, names=names, jobs=jobs, announce=click.echo)
    return Exit.FINE


def _refuse_same(paths: Sequence[Path]) -> None:
    for number, path in enumerate(paths):
        for other in paths[:number]:
            if other.stem == path.stem:
                raise UsageError(f"{other} and {path} have the same name here; rename one of them")


def _offered(designs: Sequence[Design], *, edit: bool) -> list[Design]:
    """The designs that makers may have; the others are told of, with what they lack."""
    from schematics.library.web.maker_pages import not_ready

    lacks = {design.path: not_ready(design) for design in designs}
    for path, words in lacks.items():
        if words:
            to_stderr(f"{path}: not offered to makers until it says: {words}")
    offered = [design for design in designs if not lacks[design.path]]
    if not offered and not edit:
        raise SchematicsError("no design is ready for makers; --edit shows them to you as they are")
    return offered
