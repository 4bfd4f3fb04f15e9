"""packing: pattern packs made in the background, one after the other, to be asked after, stopped and taken home."""

from collections import OrderedDict
from dataclasses import dataclass, field
from io import BytesIO
from itertools import count
from threading import Condition, Thread
from typing import Literal
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from braidwright.app.designs import Opened
from braidwright.app.publish import Wishes, publish
from braidwright.domain.errors import BraidwrightError, RequestError
from braidwright.drawings.format import File

MOST_WAITING = 3
MOST_KEPT = 4  # finished ones, the newest
PATIENCE_S = 5.0
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


@dataclass(slots=True)
class _Job:
    opened: Opened
    wishes: Wishes
    stage: Stage = "waiting"
    share: float = 0.0
    doing: str = ""
    is_wanted: bool = True
    sentences: tuple[str, ...] = ()
    files: tuple[File, ...] = ()


@dataclass(slots=True)
class Packs:
    """The packs of one run of the program. Any thread may ask; one thread of its own works."""

    _jobs: OrderedDict[int, _Job] = field(default_factory=OrderedDict)
    _turn: Condition = field(default_factory=Condition)
    _numbers: "count[int]" = field(default_factory=lambda: count(1))
    _thread: Thread | None = None
    _is_open: bool = True

    def ask(self, opened: Opened, wishes: Wishes) -> PackProgress:
        """Have a pack made.

        Raises:
            RequestError: Too many wait already.
        """
        with self._turn:
            if sum(job.stage in ("waiting", "making") for job in self._jobs.values()) >= MOST_WAITING:
                raise RequestError(f"{MOST_WAITING} packs are being made or wait for it; stop one of them first.")
            if not self._is_open:
                raise RequestError("The studio is closing; start it again.")
            number = next(self._numbers)
            self._jobs[number] = _Job(opened=opened, wishes=wishes)
            if self._thread is None:
                self._thread = Thread(target=self._work, name="packs", daemon=True)
                self._thread.start()
            self._turn.notify_all()
            return self._told(number)

    def look(self, pack: int) -> PackProgress:
        """How far a pack is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self._turn:
            return self._told(pack)

    def stop(self, pack: int) -> PackProgress:
        """Stop a pack; one that is finished stays as it is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self._turn:
            job = self._job(pack)
            job.is_wanted = False
            if job.stage == "waiting":
                job.stage = "stopped"
            return self._told(pack)

    def zipped(self, pack: int) -> tuple[str, bytes]:
        """The title of the design, and the whole pack as one ZIP file.

        Raises:
            RequestError: There is none of this number, or it is not done.
        """
        with self._turn:
            job = self._job(pack)
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
        with self._turn:
            found = dict(self._job(pack).files).get(path)
        if found is None:
            raise RequestError(f"Pack {pack} has no such file; use one of its list.")
        return found

    def close(self) -> None:
        """Stop everything, and wait a while until it has stopped."""
        with self._turn:
            self._is_open = False
            for job in self._jobs.values():
                job.is_wanted = False
            self._turn.notify_all()
            thread = self._thread
        if thread is not None:
            thread.join(PATIENCE_S)

    def _job(self, pack: int) -> _Job:
        job = self._jobs.get(pack)
        if job is None:
            raise RequestError(f"There is no pack {pack}; have a new one made.")
        return job

    def _told(self, pack: int) -> PackProgress:
        job = self._job(pack)
        sizes = tuple(PackFile(path=path, size=len(content)) for path, content in job.files)
        return PackProgress(
            pack=pack, stage=job.stage, share=job.share, doing=job.doing, sentences=job.sentences, files=sizes
        )

    def _work(self) -> None:
        while (job := self._next()) is not None:
            self._make(job)
            with self._turn:
                finished = [number for number, each in self._jobs.items() if each.stage not in ("waiting", "making")]
                for number in finished[:-MOST_KEPT]:
                    del self._jobs[number]

    def _next(self) -> _Job | None:
        with self._turn:
            while self._is_open:
                for job in self._jobs.values():
                    if job.stage == "waiting":
                        job.stage = "making"
                        return job
                self._turn.wait()
        return None

    def _make(self, job: _Job) -> None:
        def tell(doing: str, share: float) -> None:
            with self._turn:
                job.doing, job.share = doing, max(job.share, min(1.0, share))
                if not job.is_wanted:
                    raise _StoppedError

        def watch(share: float) -> bool:
            del share
            return job.is_wanted

        try:
            pack = publish(job.opened.reading.design, job.opened.catalogue, job.wishes, progress=tell, watch=watch)
            self._finish(job, "done", pack.warnings, pack.files)
        except _StoppedError:
            self._finish(job, "stopped", (), ())
        except BraidwrightError as error:
            self._finish(job, "failed", (str(error),), ())
        except Exception:
            # The thread must live on for the next pack, whatever is wrong with this one.
            self._finish(job, "failed", ("This pack could not be made; please report it, with the design.",), ())

    def _finish(self, job: _Job, stage: Stage, sentences: tuple[str, ...], files: tuple[File, ...]) -> None:
        with self._turn:
            job.stage, job.sentences, job.files = stage, sentences, files
            job.share = 1.0 if stage == "done" else job.share
