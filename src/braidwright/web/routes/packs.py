"""packs: the pattern pack, made in the background: asked for, asked after, stopped, taken home."""

from typing import Annotated, Any
from urllib.parse import quote

from fastapi import APIRouter, Path, Response

from braidwright.app.library import file_name
from braidwright.app.packing import PackProgress
from braidwright.app.publish import Wishes
from braidwright.app.seeing import check_extent, opened_text
from braidwright.app.studio import Studio
from braidwright.web.answers import answer
from braidwright.web.route import Route
from braidwright.web.wishes import PackWish

Pack = Annotated[int, Path(ge=1, le=2**53)]
_FILE: dict[int | str, dict[str, Any]] = {
    200: {"content": {"application/octet-stream": {"schema": {"type": "string", "format": "binary"}}}}
}


def add(router: APIRouter, studio: Studio) -> None:
    """The addresses."""

    @router.post("/packs", response_model=PackProgress, status_code=202)
    def ask(wish: PackWish) -> Response:
        """Have the pattern pack of a design made."""
        opened = opened_text(wish.design, studio.catalogue)
        check_extent(opened)
        wanted = wish.model_dump(exclude={"design"}, exclude_none=True)
        wanted["formats"] = tuple(wanted.get("formats", ()))
        return answer(studio.packs.ask(opened, Wishes(**wanted)), 202)

    @router.get("/packs/{pack}", response_model=PackProgress)
    def look(pack: Pack) -> Response:
        """How far it is."""
        return answer(studio.packs.look(pack))

    @router.delete("/packs/{pack}", response_model=PackProgress)
    def stop(pack: Pack) -> Response:
        """Stop it."""
        return answer(studio.packs.stop(pack))

    @router.get("/packs/{pack}/file", responses=_FILE)
    def whole(pack: Pack) -> Response:
        """The whole pack as one ZIP file."""
        title, content = studio.packs.zipped(pack)
        return _saved(content, f"{file_name(title)}.zip")

    @router.get("/packs/{pack}/files/{path:path}", responses=_FILE)
    def one(pack: Pack, path: Annotated[str, Path(max_length=300)]) -> Response:
        """One of its files."""
        return _saved(studio.packs.file(pack, path), path.rpartition("/")[2])


def _saved(content: bytes, name: str) -> Response:
    """A browser keeps it as a file and never shows it as a page."""
    headers = {"content-disposition": f"attachment; filename*=UTF-8''{quote(name)}"}
    return Response(content, media_type="application/octet-stream", headers=headers)


ROUTE = Route(add=add)
