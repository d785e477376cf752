"""The app in a browser: the page comes, and the first question is on it."""

from __future__ import annotations

import asyncio
import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import aiohttp
import pytest
from command_line import ROOT

from interview.cli import main

PATIENCE = 60  # s; reached only where it does not come up at all


@pytest.fixture
def port(tmp_path: Path) -> Iterator[int]:
    with socket.socket() as found:
        found.bind(("127.0.0.1", 0))
        free = int(found.getsockname()[1])
    served = subprocess.Popen(
        [sys.executable, "-m", "interview", "--units", "us", "serve", "--host", "127.0.0.1", "--port", str(free)],
        cwd=ROOT,
        env={**os.environ, "HOSEWRIGHT_STATE": str(tmp_path)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    try:
        yield free
    finally:
        served.terminate()
        served.wait(PATIENCE)


async def first_screen(port: int) -> str:
    """What the page shows, up to the first question."""
    async with aiohttp.ClientSession() as browser:
        while True:
            try:
                page = await browser.get(f"http://127.0.0.1:{port}/")
                break
            except aiohttp.ClientConnectionError:
                await asyncio.sleep(0.05)
        assert page.status == 200 and "hosewright" in await page.text()
        seen = b""
        async with browser.ws_connect(f"ws://127.0.0.1:{port}/ws?width=80&height=24") as line:
            async for message in line:
                if message.type == aiohttp.WSMsgType.BINARY:
                    seen += message.data
                if b"What broke" in seen:
                    break
        return seen.decode("utf-8", "replace")


async def test_the_interview_opens_in_a_browser(port: int) -> None:
    assert "What broke" in await asyncio.wait_for(first_screen(port), PATIENCE)


def test_a_port_that_cannot_be(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["serve", "--port", "99999"]) == 2
    assert "1 to 65535" in capsys.readouterr().err


def test_without_its_package_it_says_which(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "textual_serve.server", None)
    assert main(["serve"]) == 2
    assert "hosewright[serve]" in capsys.readouterr().err
