"""The service on a port, by uvicorn: bounded connections, none of which may dawdle."""

from __future__ import annotations

import asyncio
import socket
from typing import Any

import uvicorn
from starlette.types import ASGIApp
from uvicorn.protocols.http.h11_impl import H11Protocol

from schematics.errors import UsageError
from schematics.reading.files.saving import reason

MOST_CONNECTIONS = 256
_MOST_HEADER_BYTES = 16_384
_REQUEST_SECONDS = 10.0
"""How long a connection may take to say what it asks for, or be silent between two requests."""
_READING_SECONDS = 30.0
"""How long nothing of an answer may be taken."""


class BoundedProtocol(H11Protocol):
    """HTTP of one connection that is cut where it asks or reads too slowly, or is one too many."""

    _asking: asyncio.TimerHandle | None = None
    _reading: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begin to listen."""
        super().connection_made(transport)
        if len(self.connections) > MOST_CONNECTIONS:
            transport.abort()
        self._await_request()

    def connection_lost(self, exc: Exception | None) -> None:
        """Forget the connection."""
        super().connection_lost(exc)
        for timer in (self._asking, self._reading):
            if timer is not None:
                timer.cancel()

    def on_response_complete(self) -> None:
        """Wait for the next request."""
        super().on_response_complete()
        self._await_request()

    def pause_writing(self) -> None:
        """Give whoever reads some time to go on."""
        super().pause_writing()
        self._reading = self.loop.call_later(_READING_SECONDS, self.transport.abort)

    def resume_writing(self) -> None:
        """Go on."""
        super().resume_writing()
        if self._reading is not None:
            self._reading.cancel()

    def _await_request(self) -> None:
        if self._asking is not None:
            self._asking.cancel()
        self._asking = self.loop.call_later(_REQUEST_SECONDS, self._cut)

    def _cut(self) -> None:
        if self.cycle is None or self.cycle.response_complete:
            self.transport.abort()


def listen(host: str, port: int) -> socket.socket:
    """A socket that listens there.

    Raises:
        UsageError: it cannot.
    """
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    try:
        return socket.create_server((host, port), family=family, backlog=MOST_CONNECTIONS)
    except (OSError, OverflowError) as error:
        words = reason(error) if isinstance(error, OSError) else "no such port"
        raise UsageError(f"cannot listen on {host}, port {port}: {words}; try another with --port") from None


def server(app: ASGIApp, **more: Any) -> uvicorn.Server:
    """A server of the application, to be run on a socket."""
    return uvicorn.Server(
        uvicorn.Config(
            app,
            http=BoundedProtocol,
            ws="none",
            loop="asyncio",
            log_config=None,
            log_level="critical",
            access_log=False,
            server_header=False,
            proxy_headers=False,
            h11_max_incomplete_event_size=_MOST_HEADER_BYTES,
            timeout_keep_alive=5,
            timeout_graceful_shutdown=2,
            **more,
        )
    )
