"""Debian's Chromium, driven over the pipe of the DevTools protocol: no library, no port, no network."""

from __future__ import annotations

import base64
import contextlib
import fcntl
import json
import os
import select
import shutil
import signal
import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

PROGRAM = shutil.which("chromium")
MISSING = "needs Debian's chromium: apt-get install chromium"

_FLAGS = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--lang=en-GB",
    "--remote-debugging-pipe",
)
_PATIENCE_SECONDS = 600.0
_CODES = {
    "Tab": 9, "Enter": 13, "Escape": 27, " ": 32, "End": 35, "Home": 36, "ArrowLeft": 37, "ArrowUp": 38,
    "ArrowRight": 39, "ArrowDown": 40, "Backspace": 8, "Delete": 46,
}  # fmt: skip
SHIFT, CONTROL = 8, 2


class BrowserError(Exception):
    """Chromium refused a command, went away, or kept us waiting."""


class Browser:
    """A running Chromium with a profile of its own in ``folder``."""

    def __init__(self, folder: Path) -> None:
        if PROGRAM is None:
            raise BrowserError(MISSING)
        theirs_in, self._to = _pipe()
        self._from, theirs_out = _pipe()
        self._pid = os.posix_spawn(
            PROGRAM,
            [PROGRAM, *_FLAGS, f"--user-data-dir={folder}", "about:blank"],
            {**os.environ, "HOME": str(folder)},
            file_actions=[
                (os.POSIX_SPAWN_OPEN, 0, os.devnull, os.O_RDONLY, 0),
                (os.POSIX_SPAWN_OPEN, 1, os.devnull, os.O_WRONLY, 0),
                (os.POSIX_SPAWN_OPEN, 2, os.devnull, os.O_WRONLY, 0),
                (os.POSIX_SPAWN_DUP2, theirs_in, 3),
                (os.POSIX_SPAWN_DUP2, theirs_out, 4),
            ],
        )
        os.close(theirs_in)
        os.close(theirs_out)
        self._rest = b""
        self._number = 0
        self.events: list[dict[str, Any]] = []
        self._idle: list[str] = []

    def command(self, method: str, session: str | None = None, **parameters: Any) -> dict[str, Any]:
        """Send a command and wait for its answer; what happens meanwhile is kept in `events`."""
        self._number += 1
        message = {"id": self._number, "method": method, "params": parameters}
        text = json.dumps(message if session is None else message | {"sessionId": session})
        os.write(self._to, text.encode() + b"\0")
        while True:
            answer = self._read(method)
            if answer.get("id") == self._number:
                if "error" in answer:
                    raise BrowserError(f"{method}: {answer['error'].get('message')}")
                result: dict[str, Any] = answer["result"]
                return result

    def wait_for(self, event: str, session: str, **told: object) -> None:
        """Wait until an event that tells this has come since the last `events` were cleared."""
        while not any(
            each["method"] == event
            and each.get("sessionId") == session
            and told.items() <= each["params"].items()
            for each in self.events
        ):
            self._read(event)

    def _read(self, awaited: str) -> dict[str, Any]:
        while b"\0" not in self._rest:
            if not select.select([self._from], [], [], _PATIENCE_SECONDS)[0]:
                raise BrowserError(
                    f"no word from Chromium for {_PATIENCE_SECONDS:g} s, waiting for {awaited}"
                )
            more = os.read(self._from, 1 << 20)
            if not more:
                raise BrowserError(f"Chromium ended while waiting for {awaited}")
            self._rest += more
        text, _, self._rest = self._rest.partition(b"\0")
        message: dict[str, Any] = json.loads(text)
        if "method" in message:
            self.events.append(message)
        return message

    def open(self, path: Path | str, *, width: int = 1200, height: int = 900) -> Tab:
        """The file, from disk, or the address in a tab that no other uses, and that has kept nothing."""
        session = self._idle.pop() if self._idle else self._new_session()
        self.events = [event for event in self.events if event.get("sessionId") != session]
        tab = Tab(browser=self, session=session)
        tab.resize(width, height)
        tab.goto(path)
        return tab

    def _new_session(self) -> str:
        context = self.command("Target.createBrowserContext")["browserContextId"]
        target = self.command("Target.createTarget", url="about:blank", browserContextId=context)["targetId"]
        session: str = self.command("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Network", "Log"):
            self.command(f"{domain}.enable", session)
        self.command("Page.setLifecycleEventsEnabled", session, enabled=True)
        return session

    def put_back(self, session: str) -> None:
        """For the next `open`, as a tab that has just been made, which would take as long as three pages."""
        self.command("Emulation.setScriptExecutionDisabled", session, value=False)
        self.command("Emulation.setEmulatedMedia", session, media="", features=[])
        self.command("Page.setBypassCSP", session, enabled=False)
        self.command("Network.clearBrowserCookies", session)
        self.command("Runtime.evaluate", session, expression="localStorage.clear(); sessionStorage.clear()")
        self.events = [event for event in self.events if event.get("sessionId") != session]
        self.command("Page.navigate", session, url="about:blank")  # a page that is left open may still ask
        self.wait_for("Page.loadEventFired", session)  # or it would be taken for that of the next page
        self._idle.append(session)

    def close(self) -> None:
        """End this Chromium."""
        with contextlib.suppress(BrowserError, OSError):
            self.command("Browser.close")
        deadline = time.monotonic() + 10
        while os.waitpid(self._pid, os.WNOHANG)[0] == 0:
            if time.monotonic() > deadline:
                os.kill(self._pid, signal.SIGKILL)
            time.sleep(0.05)
        os.close(self._to)
        os.close(self._from)


@dataclass(slots=True, kw_only=True)
class Tab:
    """One tab; everything it asked of the network and said on the console since it was opened.

    ``blocked`` are those requests that the page's own policy stopped before they left.
    """

    browser: Browser
    session: str
    requests: list[str] = field(default_factory=list)
    blocked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)
    _urls: dict[str, str] = field(default_factory=dict)

    def command(self, method: str, **parameters: Any) -> dict[str, Any]:
        """A command to this tab."""
        return self.browser.command(method, self.session, **parameters)

    def goto(self, path: Path | str) -> None:
        """Open a file or an address and wait until it has loaded, and not what stood there before."""
        self.collect()
        opened = self.command("Page.navigate", url=path if isinstance(path, str) else path.resolve().as_uri())
        loader = opened["loaderId"]
        self.browser.wait_for("Page.lifecycleEvent", self.session, name="load", loaderId=loader)
        self.collect()

    def collect(self) -> None:
        """Sort what has happened into requests and complaints."""
        for event in self.browser.events:
            if event.get("sessionId") != self.session:
                continue
            said = event["params"]
            if event["method"] == "Network.requestWillBeSent":
                self.requests.append(said["request"]["url"])
                self._urls[said["requestId"]] = said["request"]["url"]
            elif event["method"] == "Network.loadingFailed" and said.get("blockedReason") == "csp":
                self.blocked.append(self._urls[said["requestId"]])
            elif event["method"] == "Log.entryAdded":
                self.complaints.append(said["entry"]["text"])
            elif event["method"] == "Runtime.exceptionThrown":
                self.complaints.append(str(said["exceptionDetails"]))
        self.browser.events = [
            event for event in self.browser.events if event.get("sessionId") != self.session
        ]

    def run(self, script: str) -> Any:
        """The value of a script, promises awaited."""
        answer = self.command(
            "Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True, userGesture=True
        )
        if "exceptionDetails" in answer:
            details = answer["exceptionDetails"]
            raise BrowserError(details.get("exception", {}).get("description", details["text"]))
        return answer["result"].get("value")

    def press(self, key: str, *, modifiers: int = 0) -> None:
        """Press and let go of a key as a person would."""
        text = {"Enter": "\r"}.get(key, key if len(key) == 1 else "")
        event: Mapping[str, Any] = {
            "key": key,
            "code": key if len(key) > 1 else "",
            "windowsVirtualKeyCode": _CODES.get(key, 0),
            "modifiers": modifiers,
        }
        typed = {} if modifiers & CONTROL else {"text": text} if text else {}
        self.command("Input.dispatchKeyEvent", type="keyDown" if typed else "rawKeyDown", **event, **typed)
        self.command("Input.dispatchKeyEvent", type="keyUp", **event)

    def type(self, words: str) -> None:
        """Type the words where the focus is."""
        for letter in words:
            self.press(letter)

    def resize(self, width: int, height: int) -> None:
        """The window's size in CSS pixels."""
        self.command(
            "Emulation.setDeviceMetricsOverride",
            width=width,
            height=height,
            deviceScaleFactor=1,
            mobile=False,
        )

    def media(self, kind: str = "", *, dark: bool = False) -> None:
        """Show the page as on ``screen`` or in ``print``, in light or dark."""
        scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        self.command("Emulation.setEmulatedMedia", media=kind, features=[scheme])

    def screenshot(self, path: Path) -> None:
        """The whole page as PNG."""
        picture = self.command("Page.captureScreenshot", captureBeyondViewport=True)["data"]
        path.write_bytes(base64.b64decode(picture))

    def pdf(self) -> bytes:
        """The page as it prints."""
        return base64.b64decode(self.command("Page.printToPDF", preferCSSPageSize=True)["data"])

    def close(self) -> None:
        """Leave the tab and forget what it kept."""
        self.browser.put_back(self.session)


def _pipe() -> tuple[int, int]:
    """A pipe whose ends keep clear of the numbers Chromium reads and writes on."""
    ends = os.pipe()
    high = tuple(fcntl.fcntl(end, fcntl.F_DUPFD_CLOEXEC, 10) for end in ends)
    for end in ends:
        os.close(end)
    return high[0], high[1]
