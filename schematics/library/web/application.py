"""The service as an ASGI application: which address gives which page."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Awaitable, Callable, Mapping, Sequence
from contextlib import asynccontextmanager
from functools import partial
from urllib.parse import quote

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route
from starlette.types import ASGIApp

from schematics.design.design import Design
from schematics.library.web.drafts import Drafts
from schematics.library.web.guard import ALONE, FOLLOWING, Guard, Names, read_form, refused
from schematics.library.web.maker_answers import FIELDS, GRADED
from schematics.library.web.maker_pages import (
    FORMS,
    answer_page,
    designs_page,
    pattern_reply,
    questions_page,
)
from schematics.library.web.pages import asset
from schematics.library.web.reply import Reply
from schematics.library.web.workers import Workers

_ASSETS: Mapping[str, str] = {
    "serve.css": "text/css; charset=utf-8",
    "draft.js": "text/javascript; charset=utf-8",
}
_Answer = Callable[[Request], Awaitable[Response]]


def application(
    designs: Sequence[Design], workers: Workers, names: Names, drafts: Drafts | None = None
) -> ASGIApp:
    """The service.

    Args:
        designs: those that makers may have.
        workers: who works things out.
        names: the names it goes by.
        drafts: the designs that are shown as they are edited, if any are.
    """
    routes: list[BaseRoute] = [_get(f"/{name}", partial(_asset, name)) for name in _ASSETS]
    first = designs_page(designs) if drafts is None else drafts.list_page(designs)
    routes.append(_get("/", partial(_page, first)))
    for design in designs:
        routes.append(_get(f"/{design.slug}", partial(_page, questions_page(design))))
        routes.append(_post(f"/{design.slug}", partial(_answered, workers, partial(answer_page, design))))
        for form in FORMS:
            job = partial(pattern_reply, design, form=form)
            routes.append(_post(f"/{design.slug}.{form}", partial(_answered, workers, job)))
    if drafts is not None:
        routes += [_get(f"/draft/{slug}", partial(_draft, drafts, slug)) for slug in drafts.slugs]

    @asynccontextmanager
    async def lifespan(_: Starlette) -> AsyncIterator[None]:
        following = asyncio.create_task(drafts.follow()) if drafts is not None else None
        yield
        if drafts is not None and following is not None:
            drafts.stop()
            await following

    async def error_reply(request: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 500
        return refused(status, request.url.path, getattr(error, "headers", None))

    handlers = {HTTPException: error_reply, Exception: error_reply}
    app = Starlette(routes=routes, exception_handlers=handlers, lifespan=lifespan)
    app.router.redirect_slashes = False
    return Guard(app, names)


def _get(path: str, answer: _Answer) -> Route:
    return Route(path, _endpoint(answer), methods=["GET"])


def _post(path: str, answer: _Answer) -> Route:
    return Route(path, _endpoint(answer), methods=["POST"])


def _endpoint(answer: _Answer) -> _Answer:
    async def endpoint(request: Request) -> Response:
        return await answer(request)

    return endpoint


async def _page(reply: Reply, _: Request) -> Response:
    return response(reply)


async def _asset(name: str, _: Request) -> Response:
    return Response(asset(name), media_type=_ASSETS[name])


async def _answered(
    workers: Workers, job: Callable[[Mapping[str, str]], Reply], request: Request
) -> Response:
    given = await read_form(request, FIELDS)
    dear = given.get("change") == GRADED
    return response(await workers.do(partial(_gone, request), job, given, dear=dear))


async def _draft(drafts: Drafts, slug: str, request: Request) -> Response:
    size, seen = (request.query_params.get(key, "") for key in ("size", "seen"))
    reply = await drafts.page(slug, size, seen)
    return Response(status_code=204) if reply is None else response(reply, FOLLOWING)


async def _gone(request: Request) -> None:
    """Wait until whoever asked has gone."""
    while (await request.receive())["type"] != "http.disconnect":
        pass


def response(reply: Reply, policy: str = "") -> Response:
    """A reply as an answer, under a policy of its own where it needs one."""
    headers = {"Content-Security-Policy": ALONE if reply.alone else policy} if reply.alone or policy else {}
    if reply.filename:
        headers["Content-Disposition"] = f"attachment; filename*=UTF-8''{quote(reply.filename)}"
    return Response(reply.content, reply.status, headers, reply.media_type)
