"""What every request has to pass, and what every answer says to the browser.

The service is meant for one machine, or to stand behind a proxy. That it is asked by a name of its own keeps
pages of other sites from reading it under a name that leads here (DNS rebinding); that a form comes from its
own pages keeps them from sending it one.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import parse_qsl, urlsplit

from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from schematics.library.web.pages import plain_page
from schematics.library.web.reply import PAGE

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
MOST_BYTES = 8_192
"""Of a form: all its fields filled to the brim are fewer."""
_BODY_SECONDS = 10.0
_FORM = "application/x-www-form-urlencoded"

_COMMON = "base-uri 'none'; frame-ancestors 'none'"
POLICY = f"default-src 'none'; style-src 'self'; img-src 'self' data:; form-action 'self'; {_COMMON}"
"""Of the pages for makers: no script at all."""
FOLLOWING = f"{POLICY}; script-src 'self'; connect-src 'self'"
"""Of the page that follows a design as it is edited."""
ALONE = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; form-action 'none'; "
    f"{_COMMON}"
)
"""Of a pattern as a page, which brings its own style."""
HEADERS: Mapping[str, str] = {
    "Cache-Control": "no-store",
    "Content-Security-Policy": POLICY,
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
}
"""Said with every answer that does not say otherwise."""

_NOT_THE_FORMS = (
    "Not understood",
    "What was sent is not what the form sends. Go back and fill it in once more.",
)
WRONG: Mapping[int, tuple[str, str]] = {
    400: _NOT_THE_FORMS,
    403: ("Not from here", "This was sent from a page of another site, so it is not answered."),
    404: ("Nothing here", "There is no page of this name."),
    405: ("Not this way", "This page is not asked for in this way."),
    408: ("Too slow", "What was sent did not arrive in time. Try again."),
    413: ("Too much", "More was sent than the form has room for."),
    415: _NOT_THE_FORMS,
    421: ("Not this name", "This service does not go by the name it was asked under."),
    500: ("Something went wrong", "It is not your doing, and nothing is lost. Go back and try again."),
    503: (
        "Very busy",
        "Many patterns are being made just now. Wait a few seconds, then load this page again: what you "
        "answered is sent once more.",
    ),
}
"""Heading and sentence of the page for each status."""

_LOG = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True)
class Names:
    """The names that a service goes by, such as ``localhost``, without a port: its own, and a proxy's."""

    own: frozenset[str]
    proxied: frozenset[str] = frozenset()

    def asked_by(self, host: str) -> bool:
        """Whether a host that a request names, perhaps with a port, is one of them."""
        return _without_port(host) in self.own | self.proxied

    def sent_from(self, origin: str, host: str) -> bool:
        """Whether a page of that origin is this service's, which is asked as that host."""
        sender = urlsplit(origin).netloc.lower()
        return sender == host.lower() or _without_port(sender) in self.proxied


def _without_port(host: str) -> str:
    name, colon, port = host.lower().rpartition(":")
    return name if colon and port.isdigit() else host.lower()


def refused(status: int, path: str, headers: Mapping[str, str] | None = None) -> Response:
    """The page that says why nothing else comes."""
    up = {0: "", 1: "", 2: "../"}.get(path.count("/"), "/")
    reply = plain_page(status, *WRONG.get(status, WRONG[400]), up)
    return Response(reply.content, status, headers, PAGE)


async def read_form(request: Request, fields: Mapping[str, int]) -> dict[str, str]:
    """What a form sends, every field at most once.

    Args:
        request: the request.
        fields: the names there may be, and how many characters each may have.

    Raises:
        HTTPException: it is too long, too slow, or no form of these fields.
    """
    if request.headers.get("content-type", "").partition(";")[0].strip().lower() != _FORM:
        raise HTTPException(415)
    try:
        async with asyncio.timeout(_BODY_SECONDS):
            body = await _body(request)
    except TimeoutError:
        raise HTTPException(408) from None
    except ClientDisconnect:
        raise HTTPException(408) from None
    try:
        pairs = parse_qsl(
            body.decode("ascii"),
            keep_blank_values=True,
            strict_parsing=bool(body),
            errors="strict",
            max_num_fields=len(fields),
        )
    except ValueError:
        raise HTTPException(400) from None
    given = dict(pairs)
    if len(given) < len(pairs) or not given.keys() <= fields.keys():
        raise HTTPException(400)
    if any(len(text) > fields[field] or not _one_line(text) for field, text in pairs):
        raise HTTPException(400)
    return given


def _one_line(text: str) -> bool:
    return text.isprintable() or all(sign.isprintable() or sign in "\t\u00a0\u2009\u202f" for sign in text)


async def _body(request: Request) -> bytes:
    length = request.headers.get("content-length", "0")
    if not length.isdigit() or int(length) > MOST_BYTES:
        raise HTTPException(413)
    body = b""
    async for part in request.stream():
        body += part
        if len(body) > MOST_BYTES:
            raise HTTPException(413)
    return body


class Guard:
    """Refuses what is not for this service before the application sees it; adds `HEADERS` to every answer."""

    def __init__(self, app: ASGIApp, names: Names) -> None:
        self._app, self._names = app, names

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self._app(scope, receive, send)
            return
        begun = False

        async def send_with_headers(message: Message) -> None:
            nonlocal begun
            if message["type"] == "http.response.start":
                begun = True
                headers = MutableHeaders(scope=message)
                for name, value in HEADERS.items():
                    headers.setdefault(name, value)
            await send(message)

        status = self._fault(scope)
        try:
            await (refused(status, scope["path"]) if status else self._app)(scope, receive, send_with_headers)
        except Exception as error:
            # What went wrong is for whoever runs this; what was answered is nobody's.
            _LOG.error("%s while answering %s", type(error).__name__, scope["path"])
            if not begun:
                await refused(500, scope["path"])(scope, receive, send_with_headers)

    def _fault(self, scope: Scope) -> int:
        """The status to refuse a request with; nought for one that may pass."""
        headers = Headers(scope=scope)
        hosts = headers.getlist("host")
        if len(hosts) != 1 or not self._names.asked_by(hosts[0]):
            return 421
        if scope["method"] not in ("GET", "HEAD", "POST"):
            return 405
        if scope["method"] == "POST":
            origins = headers.getlist("origin")
            if len(origins) != 1 or not self._names.sent_from(origins[0], hosts[0]):
                return 403
        return 0
