"""library: the maker's designs: found, opened, saved, looked back at, brought back, thrown away and taken back."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from tempfile import SpooledTemporaryFile
from typing import Annotated, Any, BinaryIO, cast
from urllib.parse import quote

from fastapi import APIRouter, Path, Query, Request, Response
from starlette.concurrency import run_in_threadpool
from starlette.responses import StreamingResponse

from braidwright.app.designs import Opened
from braidwright.app.library import Library, Looked, TakenIn
from braidwright.app.library_port import Entry
from braidwright.app.seeing import opened_text, seen, written
from braidwright.app.studio import Studio
from braidwright.web import wishes
from braidwright.web.answers import (
    DesignAnswer,
    EntryAnswer,
    StateAnswer,
    answer,
    design_answer,
    entry_answer,
    state_answer,
)
from braidwright.web.problems import TooLargeError
from braidwright.web.route import Route

Number = Annotated[int, Path(ge=1, le=2**53)]
Name = Annotated[str, Path(pattern="^[0-9a-f]{64}$")]
MOST_BYTES = 1_000_000_000  # of a library that is taken in
IN_MEMORY = 4_000_000
PIECE = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class ListAnswer:
    """Some designs, and what had to be said when the library was opened."""

    entries: tuple[EntryAnswer, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryAnswer:
    """Every state, the first one first."""

    states: tuple[StateAnswer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LookAnswer:
    """A state and the design as it was then."""

    state: StateAnswer
    design: DesignAnswer


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenInAnswer:
    """What came in with a library file, and why not the rest."""

    entries: tuple[EntryAnswer, ...]
    notes: tuple[str, ...]


_FILE: dict[int | str, dict[str, Any]] = {
    200: {"content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}}}
}


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""
    _add_files(router, studio)
    _add_list(router, studio)
    _add_states(router, studio)
    _add_changes(router, studio)


def _add_list(router: APIRouter, studio: Studio) -> None:
    @router.get("/library", response_model=ListAnswer)
    def search(words: Annotated[str, Query(max_length=300)] = "") -> Response:
        """The designs in which every word is found, the one changed last first."""
        return _listed(studio.open_library().search(words), tuple(map(studio.said, studio.notes)))

    @router.get("/library/thrown-away", response_model=ListAnswer)
    def thrown_away() -> Response:
        """The designs that can still be taken back."""
        return _listed(studio.open_library().thrown_away())

    @router.post("/library", response_model=EntryAnswer, status_code=201)
    def take_in(wish: wishes.DesignWish) -> Response:
        """A design file as a new design."""
        return answer(entry_answer(studio.open_library().take_in(_bytes(wish.design), _now(), "begun")), 201)

    @router.post("/library/{design}/copy", response_model=EntryAnswer, status_code=201)
    def duplicate(design: Number, wish: wishes.CopyWish) -> Response:
        """A new design that begins where another one is now."""
        return answer(entry_answer(studio.open_library().duplicate(design, wish.title, _now())), 201)

    @router.delete("/library/{design}", status_code=204)
    def throw_away(design: Number) -> Response:
        """Take a design out of the list."""
        studio.open_library().throw_away(design, _now())
        return Response(status_code=204)

    @router.post("/library/{design}/take-back", response_model=EntryAnswer)
    def take_back(design: Number) -> Response:
        """Put it back."""
        return answer(entry_answer(studio.open_library().take_back(design)))


def _add_states(router: APIRouter, studio: Studio) -> None:
    @router.get("/library/{design}", response_model=LookAnswer)
    def open_design(design: Number) -> Response:
        """A design as it is now."""
        return _looked(studio.open_library(), studio.open_library().look(design))

    @router.get("/library/{design}/states", response_model=HistoryAnswer)
    def history(design: Number) -> Response:
        """Every state it had."""
        states = studio.open_library().history(design)
        return answer(HistoryAnswer(states=tuple(state_answer(state) for state in states)))

    @router.get("/library/{design}/states/{name}", response_model=LookAnswer)
    def look(design: Number, name: Name) -> Response:
        """A design as it was."""
        return _looked(studio.open_library(), studio.open_library().look(design, name))


def _add_changes(router: APIRouter, studio: Studio) -> None:
    @router.post("/library/{design}/save", response_model=StateAnswer)
    def save(design: Number, wish: wishes.SaveWish) -> Response:
        """Keep a change; 409, with the name of the newest state, when it was changed elsewhere since."""
        # As a file is written, however the screen laid it out: states are compared, and taken home.
        content = _bytes(written(opened_text(wish.design, studio.catalogue)))
        return answer(state_answer(studio.open_library().save(design, wish.made_from, content, wish.doing, _now())))

    @router.post("/library/{design}/rename", response_model=StateAnswer)
    def rename(design: Number, wish: wishes.RenameWish) -> Response:
        """Another title."""
        return answer(state_answer(studio.open_library().rename(design, wish.made_from, wish.title, _now())))

    @router.post("/library/{design}/bring-back", response_model=StateAnswer)
    def bring_back(design: Number, wish: wishes.BackWish) -> Response:
        """Make an earlier state the newest one."""
        return answer(state_answer(studio.open_library().bring_back(design, wish.made_from, wish.state, _now())))


def _add_files(router: APIRouter, studio: Studio) -> None:
    @router.get("/library/file", response_class=StreamingResponse, responses=_FILE)
    def write_all() -> Response:
        """The whole library as one file."""
        stream = cast(BinaryIO, SpooledTemporaryFile(max_size=IN_MEMORY))  # noqa: SIM115  (closed when it was sent)
        studio.open_library().write_all(stream)
        stream.seek(0)
        return _sent(stream, "library.braidwright")

    @router.post("/library/file", response_model=TakenInAnswer)
    async def take_in_all(request: Request) -> Response:
        """Add the designs of a library file; what is here stays as it is."""
        with SpooledTemporaryFile(max_size=IN_MEMORY) as stream:
            await _received(request, cast(BinaryIO, stream))
            found = await run_in_threadpool(studio.open_library().take_in_all, cast(BinaryIO, stream))
        return answer(_taken_in(found))

    @router.get("/library/{design}/file", response_class=StreamingResponse, responses=_FILE)
    def design_file(design: Number) -> Response:
        """The design file, byte for byte as it was kept."""
        name, content = studio.open_library().file_of(design)
        return Response(content, media_type="application/octet-stream", headers=_as_file(name))


async def _received(request: Request, stream: BinaryIO) -> None:
    size = 0
    async for piece in request.stream():
        size += len(piece)
        if size > MOST_BYTES:
            raise TooLargeError(f"More than {MOST_BYTES // 1_000_000} MB were sent, which no library is; send less.")
        stream.write(piece)
    stream.seek(0)


def _sent(stream: BinaryIO, name: str) -> Response:
    return StreamingResponse(_pieces(stream), media_type="application/octet-stream", headers=_as_file(name))


def _pieces(stream: BinaryIO) -> Iterator[bytes]:
    with stream:
        while piece := stream.read(PIECE):
            yield piece


def _as_file(name: str) -> dict[str, str]:
    """A browser keeps it as a file and never shows it as a page; names beyond ASCII are written as RFC 6266 says."""
    return {"content-disposition": f"attachment; filename*=UTF-8''{quote(name)}"}


def _listed(entries: tuple[Entry, ...], notes: tuple[str, ...] = ()) -> Response:
    return answer(ListAnswer(entries=tuple(entry_answer(entry) for entry in entries), notes=notes))


def _looked(library: Library, looked: Looked) -> Response:
    opened = Opened(reading=looked.reading, catalogue=library.catalogue)
    return answer(LookAnswer(state=state_answer(looked.state), design=design_answer(seen(opened))))


def _taken_in(found: TakenIn) -> TakenInAnswer:
    return TakenInAnswer(entries=tuple(entry_answer(entry) for entry in found.entries), notes=found.notes)


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "backslashreplace")


def _now() -> datetime:
    return datetime.now(UTC)


ROUTE = Route(add=add)
