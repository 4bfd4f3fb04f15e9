"""listening: the server on a port of this machine, on the loopback address only."""

import os
import socket
from collections.abc import Callable

import uvicorn

from braidwright.app.studio import Studio
from braidwright.domain.errors import RequestError
from braidwright.web.server import create_app

HOST = "127.0.0.1"
USUAL_PORT = 8765


def free_port(wanted: int | None) -> socket.socket:
    """A socket that listens; on the usual port, or on any free one, unless a port was asked for.

    Raises:
        RequestError: The port asked for is taken.
    """
    for port in (USUAL_PORT, 0) if wanted is None else (wanted,):
        listening = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if os.name != "nt":  # there it would let two programs listen on one port
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listening.bind((HOST, port))
        except OSError:
            listening.close()
            continue
        listening.listen(128)
        return listening
    raise RequestError(f"Port {wanted} is taken by another program; give another one, or leave --port out.")


def serve(studio: Studio, listening: socket.socket, ready: Callable[[], None]) -> None:
    """Answer until the program is told to stop.

    Args:
        studio: What is served.
        listening: A socket of `free_port`.
        ready: Called once, when the first question would be answered.
    """
    port = int(listening.getsockname()[1])
    config = uvicorn.Config(
        create_app(studio, port=port), log_level="warning", access_log=False, server_header=False,
        timeout_graceful_shutdown=3, ws="none",
    )  # fmt: skip
    _Server(config, ready).run(sockets=[listening])


class _Server(uvicorn.Server):
    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self._ready()
