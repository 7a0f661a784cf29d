"""The service in this process on a port of its own, asked as any client may ask it."""

from __future__ import annotations

import http.client
import socket
import threading
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import Executor, ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlencode

from schematics.design.design import Design
from schematics.library.web.application import application
from schematics.library.web.drafts import Drafts
from schematics.library.web.guard import LOOPBACK, Names
from schematics.library.web.listening import listen, server
from schematics.library.web.workers import Workers

FORM = "application/x-www-form-urlencoded"


@dataclass(frozen=True)
class Answer:
    status: int
    headers: Mapping[str, str]
    content: bytes

    @property
    def text(self) -> str:
        return self.content.decode()


@dataclass(frozen=True)
class Service:
    port: int

    @property
    def host(self) -> str:
        return f"127.0.0.1:{self.port}"

    def ask(
        self,
        path: str,
        fields: Mapping[str, str] | bytes | None = None,
        *,
        method: str = "",
        **headers: str,
    ) -> Answer:
        """A page, or what comes of a form; headers are named with underscores."""
        told = {name.replace("_", "-"): value for name, value in headers.items()}
        body = None
        if fields is not None:
            body = fields if isinstance(fields, bytes) else urlencode(fields).encode()
            told = {"Origin": f"http://{self.host}", "Content-Type": FORM} | told
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=300)
        connection.request(method or ("GET" if body is None else "POST"), path, body, told)
        answer = connection.getresponse()
        content = answer.read()
        connection.close()
        return Answer(answer.status, {name.lower(): value for name, value in answer.getheaders()}, content)

    def raw(self, sent: bytes) -> bytes:
        """What comes back for these bytes until the service closes the connection."""
        with socket.create_connection(("127.0.0.1", self.port), timeout=300) as connection:
            connection.sendall(sent)
            got = b""
            try:
                while more := connection.recv(1 << 16):
                    got += more
            except ConnectionResetError:
                pass
            return got


def in_a_thread() -> Executor:
    return ThreadPoolExecutor(1)


@contextmanager
def served(
    designs: Sequence[Design],
    *,
    edited: Sequence[Path] = (),
    executor: Callable[[], Executor] = in_a_thread,
) -> Iterator[Service]:
    """The service of these designs for makers, and of specs that are edited, for as long as it lasts."""
    listening = listen("127.0.0.1", 0)
    workers, drafts = Workers(executor, 1, 8), Drafts(edited, in_a_thread)
    names = Names(frozenset(LOOPBACK), frozenset({"wool.example"}))
    running = server(application(designs, workers, names, drafts if edited else None))
    thread = threading.Thread(target=running.run, kwargs={"sockets": [listening]})
    thread.start()
    while not running.started and thread.is_alive():
        time.sleep(0.005)
    try:
        yield Service(listening.getsockname()[1])
    finally:
        running.should_exit = True
        thread.join()
        workers.close()
        drafts.close()
        listening.close()
