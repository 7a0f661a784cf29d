"""Batches that are killed at random moments, and what must be so of the folder afterwards."""

from __future__ import annotations

import io
import json
import os
import random
import signal
import subprocess
import time
import xml.etree.ElementTree as ET
import zipfile
from collections.abc import Callable, Sequence
from pathlib import Path

from PIL import Image
from pypdf import PdfReader

from schematics.batch.folder import WAITING

OTHERS = "photo.jpg"
"""A file somebody else has in the folder."""


def kill_at_random(command: Sequence[str], folder: Path, chance: random.Random, longest: float) -> bool:
    """Run the command and kill it, and all it started, at a random moment; whether that came in time."""
    with (folder / "told.txt").open("ab") as told:
        process = subprocess.Popen(command, cwd=folder, stdout=told, stderr=told, start_new_session=True)
    deadline = time.monotonic() + chance.uniform(0, longest)
    while time.monotonic() < deadline and process.poll() is None:
        time.sleep(0.001)
    alive = process.poll() is None
    if alive:
        if chance.random() < 0.5:
            os.kill(process.pid, signal.SIGKILL)  # those it started must end of themselves
        else:
            os.killpg(process.pid, signal.SIGKILL)
    process.wait()
    return alive


def parse(path: Path) -> None:
    """Read a file as what its name says; raises where it is not whole."""
    content = path.read_bytes()
    if path.suffix == ".svg":
        ET.fromstring(content)
    elif path.suffix == ".json":
        json.loads(content)
    elif path.suffix == ".png":
        with Image.open(io.BytesIO(content)) as image:
            image.load()
    elif path.suffix == ".pdf":
        assert len([page.extract_text() for page in PdfReader(io.BytesIO(content)).pages]) > 0
    elif path.suffix == ".docx":
        with zipfile.ZipFile(io.BytesIO(content)) as parts:
            assert parts.testzip() is None, path
    elif path.suffix == ".html":
        assert content.rstrip().endswith(b"</html>")
    else:
        assert path.suffix in {".md", ".csv"}, path
        assert content.endswith(b"\n")


def look_through(folder: Path, whole: Callable[[Path], None] = parse) -> int:
    """Every file of the folder must be whole but for those that still wait; the number of them."""
    files = [path for path in folder.rglob("*") if path.is_file() and not path.name.startswith(".")]
    files = [path for path in files if WAITING not in path.parts and path.name != OTHERS]
    for path in files:
        whole(path)
    return len(files)
