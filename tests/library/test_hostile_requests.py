"""What the service refuses, how it says so, and what it says with every answer."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, Executor, Future
from typing import Any

import pytest
from starlette.exceptions import HTTPException

from schematics.design.design import Design
from schematics.library.web import guard, listening
from schematics.library.web.guard import MOST_BYTES, Names
from schematics.library.web.listening import BoundedProtocol
from schematics.library.web.maker_answers import FIELDS
from schematics.library.web.reply import Reply
from schematics.library.web.workers import Workers
from tests.batch.test_customer_files import found, html_text
from tests.library.served import FORM, Service, served

CHILD = {"age": "6", "height": "118 cm", "head_girth": "52"}


@pytest.mark.slow
@pytest.mark.parametrize(
    ("path", "fields", "status"),
    [
        ("/", None, 200),
        ("/tidepool", None, 200),
        ("/serve.css", None, 200),
        ("/nowhere", None, 404),
        ("/tidepool", {"age": "six"}, 422),
        ("/tidepool", {"age": "6", "pet": "cat"}, 400),
    ],
)
def test_every_answer_says_the_same_strict_things(
    service: Service, path: str, fields: dict[str, str] | None, status: int
) -> None:
    answer = service.ask(path, fields)
    assert answer.status == status
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "frame-ancestors 'none'" in policy
    assert "script" not in policy
    assert "unsafe" not in policy
    assert answer.headers["cache-control"] == "no-store"
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert answer.headers["referrer-policy"] == "same-origin"
    assert not {"set-cookie", "server", "x-powered-by"} & answer.headers.keys()
    if path != "/serve.css":
        assert found("\n".join(html_text(answer.content))) == {}


def test_no_page_has_script_or_style_of_its_own(service: Service) -> None:
    for path in ("/", "/tidepool"):
        text = service.ask(path).text
        assert "<script" not in text
        assert "<style" not in text
        assert " style=" not in text


@pytest.mark.parametrize(
    ("path", "status"),
    [
        ("/../specs/tidepool.yaml", 404),
        ("/..%2f..%2fetc%2fpasswd", 404),
        ("/%2e%2e/serve.css", 404),
        ("/templates/serve.css", 404),
        ("/tidepool/", 404),
        ("/tidepool.yaml", 404),
        ("/draft/tidepool", 404),
        ("//wool.example/", 404),
        ("/%00", 404),
        ("/%ff%fe", 404),
        ("/" + "a" * 5_000, 404),
    ],
)
def test_there_are_no_other_paths(service: Service, path: str, status: int) -> None:
    assert service.ask(path).status == status


@pytest.mark.parametrize(
    ("path", "method", "status"),
    [
        ("/", "POST", 405),
        ("/tidepool.pdf", "GET", 405),
        ("/tidepool", "PUT", 405),
        ("/tidepool", "DELETE", 405),
        ("/", "OPTIONS", 405),
        ("/", "TRACE", 405),
        ("/", "HEAD", 200),
    ],
)
def test_only_what_a_browser_does_with_a_page_is_answered(
    service: Service, path: str, method: str, status: int
) -> None:
    fields = CHILD if method == "POST" else None
    assert service.ask(path, fields, method=method).status == status


@pytest.mark.parametrize("host", ["", "evil.example", "127.0.0.1.evil.example", "localhost@evil", "10.0.0.1"])
def test_a_name_that_is_not_its_own_is_refused(service: Service, host: str) -> None:
    assert service.ask("/tidepool", Host=host).status == 421


@pytest.mark.parametrize(
    "host", ["localhost", "127.0.0.1:99", "LOCALHOST:8765", "[::1]:8765", "wool.example"]
)
def test_its_own_names_are_taken(service: Service, host: str) -> None:
    assert service.ask("/tidepool", Host=host).status == 200


@pytest.mark.parametrize("origin", ["null", "http://evil.example", "http://127.0.0.1:1", "https://localhost"])
def test_a_form_of_another_site_is_refused(service: Service, origin: str) -> None:
    assert service.ask("/tidepool", CHILD, Origin=origin).status == 403


def test_a_form_by_way_of_a_proxy_is_taken() -> None:
    names = Names(frozenset({"127.0.0.1"}), frozenset({"wool.example"}))
    assert names.sent_from("https://wool.example", "127.0.0.1:8765")
    assert names.sent_from("https://wool.example:8443", "wool.example")
    assert not names.sent_from("https://wool.example.evil", "127.0.0.1:8765")


@pytest.mark.parametrize(
    ("body", "kind", "status"),
    [
        (b"age=6", "text/plain", 415),
        (b"{}", "application/json", 415),
        (b"age=%ff", FORM, 400),
        (b"age=\xff", FORM, 400),
        (b"age=6&age=7", FORM, 400),
        (b"age=6&pet=cat", FORM, 400),
        (b"age", FORM, 400),
        (b"age=6%0d%0aX: y", FORM, 400),
        (b"age=6%00", FORM, 400),
        (b"age=" + b"6" * 41, FORM, 400),
        (b"&".join(b"f%d=1" % number for number in range(len(FIELDS) + 1)), FORM, 400),
        (b"age=" + b"6" * MOST_BYTES, FORM, 413),
        (b"", FORM, 422),
    ],
)
def test_what_the_form_does_not_send_is_refused(
    service: Service, body: bytes, kind: str, status: int
) -> None:
    assert service.ask("/tidepool", body, Content_Type=kind).status == status


def test_every_field_filled_to_the_brim_has_room() -> None:
    """A character of UTF-8 is four bytes at most, each three signs of a form."""
    assert sum(len(field) + 2 + longest for field, longest in FIELDS.items()) < MOST_BYTES


def head(service: Service, *more: bytes) -> bytes:
    return b"\r\n".join(
        [
            b"POST /tidepool HTTP/1.1",
            b"Host: " + service.host.encode(),
            b"Origin: http://" + service.host.encode(),
            b"Content-Type: " + FORM.encode(),
            *more,
        ]
    )


def test_a_body_without_an_end_is_cut(service: Service) -> None:
    endless = b"\r\nTransfer-Encoding: chunked\r\n\r\n" + 20 * (b"400\r\n" + b"a" * 1_024 + b"\r\n")
    assert service.raw(head(service, b"Connection: close") + endless).startswith(b"HTTP/1.1 413 ")


@pytest.mark.parametrize(
    "sent",
    [
        b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03",
        b"GET /tidepool\r\n\r\n",
        b"GET /\x00 HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: localhost\r\nHost: evil.example\r\n\r\n",
        b"POST / HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1\r\nContent-Length: 9\r\n\r\n",
        b"GET / HTTP/1.1\r\nHost: localhost\r\nX: " + b"a" * 70_000,
    ],
)
def test_what_is_no_request_ends_the_connection(service: Service, sent: bytes) -> None:
    assert service.raw(sent)[:13] in (b"HTTP/1.1 400 ", b"")
    assert service.ask("/tidepool").status == 200


@pytest.mark.slow
def test_who_is_slow_is_cut(service: Service, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(guard, "_BODY_SECONDS", 0.05)
    slow = service.raw(head(service, b"Connection: close", b"Content-Length: 5\r\n\r\nage"))
    assert slow.startswith(b"HTTP/1.1 408 ")
    monkeypatch.setattr(listening, "_REQUEST_SECONDS", 0.05)
    assert service.raw(b"GET / HTTP/1.1\r\nHost: local") == b""
    assert service.raw(b"") == b""


def test_who_does_not_read_is_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    cut: list[str] = []

    class Transport:
        def abort(self) -> None:
            cut.append("cut")

    async def waiting() -> None:
        protocol = BoundedProtocol.__new__(BoundedProtocol)
        protocol.loop, protocol.transport = asyncio.get_running_loop(), Transport()  # type: ignore[assignment]
        protocol.flow = type(
            "Flow", (), {"pause_writing": lambda _: None, "resume_writing": lambda _: None}
        )()
        protocol.pause_writing()
        protocol.resume_writing()
        await asyncio.sleep(0.02)
        assert cut == []
        protocol.pause_writing()
        await asyncio.sleep(0.05)

    monkeypatch.setattr(listening, "_READING_SECONDS", 0.01)
    asyncio.run(waiting())
    assert cut == ["cut"]


class Held(Executor):
    """Holds what it is given until told."""

    def __init__(self) -> None:
        self.held: list[tuple[Future[Any], Callable[[], Any]]] = []
        self.ended = False

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        future: Future[Any] = Future()
        self.held.append((future, lambda: fn(*args, **kwargs)))
        return future

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:
        self.ended = True


def job() -> Reply:
    return Reply(content=b"done")


async def stays() -> None:
    await asyncio.Event().wait()


def test_as_many_as_may_wait_and_no_more() -> None:
    async def asked() -> None:
        held = Held()
        workers = Workers(lambda: held, 2, 1)
        waiting = [asyncio.ensure_future(workers.do(stays, job)) for _ in range(3)]
        await asyncio.sleep(0)
        with pytest.raises(HTTPException) as refused:
            await workers.do(stays, job)
        assert refused.value.status_code == 503
        assert int((refused.value.headers or {})["Retry-After"]) > 0
        for future, work in held.held:
            future.set_result(work())
        assert [each.content for each in await asyncio.gather(*waiting)] == [b"done"] * 3
        again = asyncio.ensure_future(workers.do(stays, job))
        await asyncio.sleep(0.01)
        held.held[-1][0].set_result(job())
        assert (await again).content == b"done"

    asyncio.run(asked())


def test_of_what_searches_long_fewer_are_taken() -> None:
    async def asked() -> None:
        held = Held()
        workers = Workers(lambda: held, 2, 8)
        first = asyncio.ensure_future(workers.do(stays, job, dear=True))
        await asyncio.sleep(0)
        with pytest.raises(HTTPException):
            await workers.do(stays, job, dear=True)
        cheap = asyncio.ensure_future(workers.do(stays, job))
        await asyncio.sleep(0)
        for future, _ in held.held:
            future.set_result(job())
        await asyncio.gather(first, cheap)

    asyncio.run(asked())


def test_what_nobody_waits_for_any_more_is_dropped() -> None:
    async def asked() -> None:
        held = Held()
        workers = Workers(lambda: held, 1, 0)

        async def leaves() -> None:
            await asyncio.sleep(0)

        with pytest.raises(HTTPException):
            await workers.do(leaves, job)
        await asyncio.sleep(0.01)
        assert held.held[0][0].cancelled()
        after = asyncio.ensure_future(workers.do(stays, job))
        await asyncio.sleep(0)
        held.held[-1][0].set_result(job())
        await after

    asyncio.run(asked())


def test_a_process_that_ended_is_replaced() -> None:
    made: list[Held] = []

    def fresh() -> Executor:
        made.append(Held())
        return made[-1]

    async def asked() -> None:
        workers = Workers(fresh, 1, 1)
        waiting = [asyncio.ensure_future(workers.do(stays, job)) for _ in range(2)]
        await asyncio.sleep(0)
        for future, _ in made[0].held:
            future.set_exception(BrokenExecutor())
        for each in waiting:
            with pytest.raises(HTTPException) as refused:
                await each
            assert refused.value.status_code == 500
        assert [each.ended for each in made] == [True, False]

    asyncio.run(asked())


class Failing(Executor):
    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        future: Future[Any] = Future()
        future.set_exception(ZeroDivisionError("secret 52 cm of Mara"))
        return future


@pytest.mark.slow
def test_what_goes_wrong_within_is_a_plain_page(
    caplog: pytest.LogCaptureFixture, tidepool_design: Design
) -> None:
    with served([tidepool_design], executor=Failing) as failing:
        answer = failing.ask("/tidepool", CHILD)
    assert answer.status == 500
    assert "Something went wrong" in answer.text
    assert not any(word in answer.text for word in ("Traceback", "ZeroDivision", "secret"))
    assert caplog.messages == ["ZeroDivisionError while answering /tidepool"]
