"""studio: design the rope on the rope, in the browser."""

import sys
import webbrowser
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread
from typing import Annotated

import typer

from braidwright.cli.command import Command
from braidwright.cli.show import say
from braidwright.cli.types import as_whole


def studio(
    port: Annotated[
        int | None,
        typer.Option("--port", metavar="N", parser=as_whole("Port", 1024, 65_535), help="Listen on this port."),
    ] = None,
    no_browser: Annotated[
        bool, typer.Option("--no-browser", metavar="", help="Only say the address; open no browser.")
    ] = False,
    library: Annotated[
        Path | None,
        typer.Option("--library", metavar="FOLDER", help="The folder of the library; the usual one when not given."),
    ] = None,
) -> None:
    """Open the studio in the browser, and keep it open until Ctrl-C.

    It is served from this machine only and needs no network. Every change is kept in the library as it is made.
    """
    # Loaded here, so that no other command waits for the server.
    from braidwright.app.studio import library_folder, open_studio
    from braidwright.web.listening import free_port, serve

    listening = free_port(port)
    address = f"http://127.0.0.1:{listening.getsockname()[1]}/"
    folder = library_folder() if library is None else library

    def ready() -> None:
        say(f"The studio is open at {address}")
        say(f"Your ropes are kept in {folder}")
        say("Ctrl-C closes it.")
        sys.stdout.flush()  # into a file or a pipe too, while the studio runs
        if not no_browser:
            # A browser may take a while to answer, and the server must not wait for it.
            Thread(target=webbrowser.open, args=(address,), daemon=True).start()

    with listening, open_studio(folder, datetime.now(UTC)) as opened:
        for note in opened.notes:
            say(note)
        serve(opened, listening, ready)


COMMAND = Command(run=studio, panel="Begin and change", examples=())
