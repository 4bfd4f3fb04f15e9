"""packing: pattern packs made in the background, one after the other, to be asked after, stopped and taken home."""

from dataclasses import dataclass, field
from io import BytesIO
from typing import Literal
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from braidwright.app.designs import Opened
from braidwright.app.publish import Wishes, publish
from braidwright.app.waiting_line import Job, WaitingLine
from braidwright.domain.errors import RequestError
from braidwright.drawings.format import File

MOST_WAITING = 3
MOST_KEPT = 4  # finished ones, the newest
MOMENT = (1980, 1, 1, 0, 0, 0)  # the same pack is the same file, byte for byte

Stage = Literal["waiting", "making", "done", "stopped", "failed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PackFile:
    """One file of a pack.

    Attributes:
        path: Its path in the pack, with "/".
        size: How many bytes it has.
    """

    path: str
    size: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PackProgress:
    """How far a pack is.

    Attributes:
        pack: Its number.
        stage: Where it stands.
        share: What share of the work is done, 0 to 1.
        doing: What is being done.
        sentences: What the maker should know.
        files: What was made.
    """

    pack: int
    stage: Stage
    share: float
    doing: str
    sentences: tuple[str, ...]
    files: tuple[PackFile, ...]


class _StoppedError(Exception):
    """The maker took it back."""


@dataclass(slots=True, kw_only=True)
class _Job(Job):
    opened: Opened
    wishes: Wishes
    doing: str = ""
    files: tuple[File, ...] = ()


@dataclass(slots=True)
class Packs:
    """The packs of one run of the program."""

    _line: WaitingLine[_Job] = field(init=False)

    def __post_init__(self) -> None:
        """Open the line."""
        self._line = WaitingLine(
            name="pack",
            work=self._make,
            crowded=f"{MOST_WAITING} packs are being made or wait for it; stop one of them first.",
            fault="This pack could not be made; please report it, with the design.",
            most_waiting=MOST_WAITING,
            most_kept=MOST_KEPT,
        )

    def ask(self, opened: Opened, wishes: Wishes) -> PackProgress:
        """Have a pack made.

        Raises:
            RequestError: Too many wait already.
        """
        with self._line.turn:
            return self.look(self._line.ask(_Job(opened=opened, wishes=wishes)))

    def look(self, pack: int) -> PackProgress:
        """How far a pack is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self._line.turn:
            job = self._line.job(pack)
            stage: Stage = "making" if job.stage == "working" else job.stage
            sizes = tuple(PackFile(path=path, size=len(content)) for path, content in job.files)
            return PackProgress(
                pack=pack, stage=stage, share=job.share, doing=job.doing, sentences=job.sentences, files=sizes
            )

    def stop(self, pack: int) -> PackProgress:
        """Stop a pack; one that is finished stays as it is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self._line.turn:
            self._line.stop(pack)
            return self.look(pack)

    def zipped(self, pack: int) -> tuple[str, bytes]:
        """The title of the design, and the whole pack as one ZIP file.

        Raises:
            RequestError: There is none of this number, or it is not done.
        """
        with self._line.turn:
            job = self._line.job(pack)
            if job.stage != "done":
                raise RequestError(f"Pack {pack} is not done; wait for it.")
            title, files = job.opened.reading.design.title, job.files
        stream = BytesIO()
        with ZipFile(stream, "w", ZIP_DEFLATED) as archive:
            for path, content in files:
                archive.writestr(ZipInfo(path, MOMENT), content, ZIP_DEFLATED)
        return title, stream.getvalue()

    def file(self, pack: int, path: str) -> bytes:
        """One file of a pack. The path is compared with what was made, and opens nothing.

        Raises:
            RequestError: There is no such pack or file.
        """
        with self._line.turn:
            found = dict(self._line.job(pack).files).get(path)
        if found is None:
            raise RequestError(f"Pack {pack} has no such file; use one of its list.")
        return found

    def close(self) -> None:
        """Stop everything; see `WaitingLine.close`."""
        self._line.close()

    def _make(self, job: _Job) -> None:
        def tell(doing: str, share: float) -> None:
            with self._line.turn:
                job.doing, job.share = doing, max(job.share, min(1.0, share))
                if not job.is_wanted:
                    raise _StoppedError

        def watch(share: float) -> bool:
            del share
            return job.is_wanted

        try:
            pack = publish(job.opened.reading.design, job.opened.catalogue, job.wishes, progress=tell, watch=watch)
        except _StoppedError:
            self._line.finish(job, "stopped")
            return
        with self._line.turn:
            job.files = pack.files
            self._line.finish(job, "done", pack.warnings)
