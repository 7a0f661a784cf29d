"""``schematics serve``: what it needs, what it offers, how it ends."""

from __future__ import annotations

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from schematics.cli import serve_command
from schematics.library.web import service
from tests.program import call
from tests.shipped import shipped_text

SPECS = Path(__file__).parents[2] / "specs"
READING = "reading 1 design ...\n"


def test_without_its_libraries_it_says_how_to_get_them(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(serve_command, "find_spec", lambda name: None)
    result = call("serve", SPECS / "tidepool.yaml")
    assert result.exit_code == 2
    needed = "serve needs what is not installed here, starlette and uvicorn"
    assert result.stderr == f"{needed}: pip install 'poncho-schematics[serve]'\n"


def test_a_design_that_lacks_something_is_not_offered() -> None:
    result = call("serve", SPECS / "first-draft.yaml")
    assert result.exit_code == 2
    reading, told, why = result.stderr.splitlines()
    assert f"{reading}\n" == READING
    assert "not offered to makers until it says: designer," in told
    assert "no design is ready for makers" in why


def test_a_port_that_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        result = call("serve", SPECS / "tidepool.yaml", "--port", taken.getsockname()[1])
    assert result.exit_code == 2
    assert re.fullmatch(
        r"reading 1 design \.\.\.\ncannot listen on 127\.0\.0\.1, port \d+: .*; try another with --port\n",
        result.stderr,
    )


def test_two_specs_of_one_name(tmp_path: Path) -> None:
    same = tmp_path / "tidepool.yaml"
    result = call("serve", SPECS / "tidepool.yaml", same)
    assert result.exit_code == 2
    assert "have the same name here; rename one of them" in result.stderr


def test_a_spec_that_cannot_be_read_is_served_to_its_designer_only(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    ran: list[object] = []
    monkeypatch.setattr(service, "run", lambda designs, edited, **_: ran.append((list(designs), edited)))
    broken = tmp_path / "lake.yaml"
    broken.write_text("title: [", "utf-8")
    assert call("serve", broken).exit_code == 2
    assert call("serve", broken, "--edit").exit_code == 0
    assert ran == [([], (broken,))]


def test_other_machines_are_let_in_with_a_word_about_a_proxy(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(service, "run", lambda *_, **__: None)
    asked = ("serve", SPECS / "tidepool.yaml")
    assert call(*asked).stderr == READING
    assert "put a proxy in front" in call(*asked, "--host", "0.0.0.0").stderr


@pytest.mark.parametrize("more", [("--host", "0.0.0.0"), ("--name", "wool.example")])
def test_what_is_edited_is_for_this_machine_alone(more: tuple[str, str]) -> None:
    result = call("serve", SPECS / "tidepool.yaml", "--edit", *more)
    assert result.exit_code == 2
    assert "for this machine alone" in result.stderr


@pytest.mark.slow
@pytest.mark.seeds
def test_it_answers_until_it_is_interrupted_and_writes_nothing(
    tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    spec = tmp_path_factory.mktemp("specs") / "tidepool.yaml"
    spec.write_text(shipped_text("tidepool", "6"), "utf-8")
    running = subprocess.Popen(
        [sys.executable, "-m", "schematics", "serve", spec, "--port", "0", "--jobs", "1"],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(SPECS.parent), "TMPDIR": str(tmp_path)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert running.stdout is not None
    line = running.stdout.readline()
    (port,) = re.findall(r"^http://127\.0\.0\.1:(\d+)/ until Ctrl-C$", line)
    connection = http.client.HTTPConnection("127.0.0.1", int(port), timeout=300)
    connection.request("GET", "/")
    assert connection.getresponse().status == 200
    connection.close()
    running.send_signal(signal.SIGINT)
    told, problems = running.communicate(timeout=300)
    assert (running.returncode, told, problems) == (0, "", READING)
    assert [*tmp_path.iterdir()] == []
