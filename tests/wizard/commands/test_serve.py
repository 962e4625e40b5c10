"""The wizard in a browser: opened and typed in through the server's own socket; nothing from outside, nobody else."""

import asyncio
import json
import os
import re
import signal
import socket
import subprocess
import sys
from pathlib import Path

import pytest

aiohttp = pytest.importorskip("aiohttp")
pytest.importorskip("textual_serve")
import pyte  # noqa: E402

from wizard.cli import main  # noqa: E402
from wizard.commands import serve  # noqa: E402
from wizard.exit_codes import Exit  # noqa: E402

ROOT = Path(__file__).parents[3]


def free_port():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return taken.getsockname()[1]


@pytest.fixture
def served(tmp_path):
    """Serve on a free port; give the address and the folder of the state."""
    port = free_port()
    process = subprocess.Popen(
        [sys.executable, "-m", "wizard", "serve", str(tmp_path / "shredder.toml"), "--port", str(port)],
        cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
        env={**os.environ, "XDG_STATE_HOME": str(tmp_path), "TERM": "dumb"},
    )  # fmt: skip
    assert "shredder.toml is new: there is no file of this name yet." in process.stderr.readline()
    assert f"http://127.0.0.1:{port}/" in process.stdout.readline()
    yield f"http://127.0.0.1:{port}", process
    process.send_signal(signal.SIGINT)
    assert process.wait(20) == 0
    assert "Traceback" not in process.stderr.read()


async def taken(socket_, screen, text):
    """Take what comes until a text is on the screen."""
    stream = pyte.ByteStream(screen)
    async with asyncio.timeout(60):
        while not any(text in line for line in screen.display):
            message = await socket_.receive()
            assert message.type in {aiohttp.WSMsgType.BINARY, aiohttp.WSMsgType.TEXT}, message
            if message.type is aiohttp.WSMsgType.BINARY:
                stream.feed(message.data)


def test_a_session_in_a_browser_is_answered_and_saved(served, tmp_path):
    url, _ = served

    async def sit():
        async with (
            aiohttp.ClientSession() as client,
            client.ws_connect(f"{url}/ws?width=80&height=24", headers={"Origin": url}) as socket_,
        ):
            screen = pyte.Screen(80, 24)
            await taken(socket_, screen, "1.1  Job")
            await socket_.send_str(json.dumps(["stdin", "\rBark shredder\r"]))
            await taken(socket_, screen, "Bark shredder")
            await socket_.send_str(json.dumps(["resize", {"width": 100, "height": 30}]))
            await socket_.send_str(json.dumps(["stdin", "q"]))
            async with asyncio.timeout(60):
                while (await socket_.receive()).type not in {aiohttp.WSMsgType.CLOSE, aiohttp.WSMsgType.CLOSED}:
                    pass

    asyncio.run(sit())
    assert 'job = "Bark shredder"' in (tmp_path / "shredder.toml").read_text()


def listening(port):
    """Return the addresses at which something listens on a port, as the kernel tells them, in hexadecimal."""
    rows = [line.split() for name in ("tcp", "tcp6") for line in Path(f"/proc/net/{name}").read_text().splitlines()[1:]]
    places = [place for _, place, _, state, *_ in rows if state == "0A"]
    return [address for address, _, at in (place.partition(":") for place in places) if int(at, 16) == port]


@pytest.mark.skipif(not Path("/proc/net/tcp").exists(), reason="no kernel that tells")
def test_only_this_machine_reaches_it(served):
    url, _ = served
    assert listening(int(url.rpartition(":")[2])) == [socket.inet_aton("127.0.0.1")[::-1].hex().upper()]


def test_the_page_asks_for_nothing_from_outside(served):
    url, _ = served

    async def fetch():
        async with aiohttp.ClientSession() as client:
            page = await (await client.get(url)).text()
            found = re.findall(r'(?:src|href|url)="([^"]+)"', page)
            for one in found:
                if one.startswith("/static"):
                    part = await client.get(url + one)
                    assert part.status == 200
                    # a style sheet fetches what it names; fonts and pictures too come from here
                    assert not re.findall(r"(?:url\(|@import)\s*['\"]?(?:https?:)?//", await part.text()), one
            return page, found

    page, found = asyncio.run(fetch())
    assert len(found) >= 2
    assert all(one.startswith("/") for one in found if not one.startswith("ws://127.0.0.1"))
    assert not re.findall(r"https?://(?!127\.0\.0\.1)", page)


@pytest.mark.parametrize(
    "headers",
    [{"Origin": "http://elsewhere.example"}, {"Host": "elsewhere.example"}, {}],
    ids=["a page of another site", "another name for this machine", "no browser"],
)
def test_nobody_else_is_let_in(served, headers):
    url, _ = served

    async def knock():
        async with aiohttp.ClientSession() as client:
            with pytest.raises(aiohttp.WSServerHandshakeError) as refused:
                await client.ws_connect(f"{url}/ws", headers=headers)
            return refused.value.status

    assert asyncio.run(knock()) == 403


def test_a_taken_port_and_no_port_get_one_clear_line(capsys):
    with socket.socket() as taken_port:
        taken_port.bind(("127.0.0.1", 0))
        taken_port.listen()
        port = str(taken_port.getsockname()[1])
        assert main(["serve", "--port", port]) == Exit.BAD_INPUT
    said = capsys.readouterr().err
    assert f"port {port}" in said and "in use" in said and len(said.splitlines()) == 1
    for wrong in ("0", "65536", "http", "\x1b[31m", "-1", "٣"):
        assert main(["serve", "--port", wrong]) == Exit.BAD_INPUT
        said = capsys.readouterr().err
        assert "1 to 65535" in said and "\x1b" not in said


def test_without_the_extra_it_is_said_how_to_get_it(capsys, monkeypatch):
    monkeypatch.setattr(serve, "find_spec", lambda _: None)
    assert main(["serve"]) == Exit.BAD_INPUT
    assert "pip install '.[web]' in the folder of the project" in capsys.readouterr().err
