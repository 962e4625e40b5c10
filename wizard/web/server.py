"""The framework's own server (textual-serve) with our page, nothing from outside, and no other page let in.

A browser lets every page that it shows open a connection to this machine. So a connection is only taken where its
Origin and Host are the address that was announced: what a page of another site opens is refused.
"""

from __future__ import annotations

import shlex
import sys
from pathlib import Path
from typing import Any

import aiohttp_jinja2
import jinja2
from aiohttp import web
from textual_serve.server import Server

#: Names under which this machine reaches itself.
LOOPBACK = ("127.0.0.1", "localhost", "::1")


class OwnServer(Server):
    """Serves one wizard a visitor; everything that it sends comes from this machine."""

    def __init__(self, arguments: list[str], host: str, port: int) -> None:
        shown = f"[{host}]" if ":" in host else host
        command = shlex.join([sys.executable, "-m", "wizard", *arguments])
        super().__init__(command, host, port, "Conewright", f"http://{shown}:{port}")
        names = LOOPBACK if host in LOOPBACK else (host,)
        self.hosts = {f"[{name}]:{port}" if ":" in name else f"{name}:{port}" for name in names}

    async def _make_app(self) -> web.Application:
        made = await super()._make_app()
        aiohttp_jinja2.setup(made, loader=jinja2.FileSystemLoader(Path(__file__).parent))
        made.middlewares.append(self._only_own)
        return made

    @web.middleware
    async def _only_own(self, request: web.Request, handler: Any) -> web.StreamResponse:
        origin = request.headers.get("Origin", "")
        if request.headers.get("Host", "") not in self.hosts:
            raise web.HTTPForbidden(text="Open the address that conewright serve printed.")
        if origin and origin.removeprefix("http://") not in self.hosts:
            raise web.HTTPForbidden(text="Other pages are not let in.")
        if request.path == "/ws" and not origin:
            raise web.HTTPForbidden(text="A browser says where its page is from.")
        response: web.StreamResponse = await handler(request)
        return response

    @aiohttp_jinja2.template("page.html")
    async def handle_index(self, request: web.Request) -> dict[str, Any]:
        """Give what the page needs; it talks to the name by which it was opened."""
        size = request.query.get("fontsize", "16")
        host = request.headers["Host"]
        return {
            "font_size": int(size) if size.isdecimal() and len(size) < 3 else 16,
            "app_websocket_url": f"ws://{host}/ws",
            "config": {"static": {"url": "/static/"}},
            "application": {"name": self.title},
        }

    async def on_startup(self, app: web.Application) -> None:
        """Say nothing yet: nobody can come in before the port is open."""

    def _open(self, *_: object) -> None:
        print(f"Conewright is at {self.public_url}/ as long as this runs; Ctrl-C ends it.", flush=True)

    def run(self) -> None:
        """Serve until interrupted. Raises OSError where the port is taken."""
        web.run_app(self._make_app(), host=self.host, port=self.port, print=self._open, access_log=None)
