"""solving: designs that are tightened in the background, one after the other, to be asked after and to be stopped."""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import count
from threading import Condition, Thread
from typing import Literal

from braidwright.app.designs import Opened
from braidwright.app.ports import Predictor, Watch
from braidwright.app.predictors import predictor_for
from braidwright.app.seeing import Seen, check_extent, seen
from braidwright.app.solvable import why_not_solved
from braidwright.domain.errors import BraidwrightError, RequestError

MOST_WAITING = 4
PATIENCE_S = 5.0
MOST_KEPT = 8  # finished ones, the newest

Stage = Literal["waiting", "solving", "done", "stopped", "failed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Progress:
    """How far a solve is.

    Attributes:
        solve: Its number.
        stage: Where it stands.
        share: What share of the work is done, 0 to 1.
        sentences: Why it rests on no solved shape, when it does not.
        result: What was found, when it is done; by the estimate when that is all there is.
    """

    solve: int
    stage: Stage
    share: float
    sentences: tuple[str, ...]
    result: Seen | None


@dataclass(slots=True)
class _Job:
    opened: Opened
    stage: Stage = "waiting"
    share: float = 0.0
    is_wanted: bool = True
    sentences: tuple[str, ...] = ()
    result: Seen | None = None


@dataclass(slots=True)
class Solves:
    """The solves of one run of the program. Any thread may ask; one thread of its own works.

    Attributes:
        predictor: Makes the predictor that solves, given who watches.
    """

    predictor: Callable[[Watch], Predictor] = lambda watch: predictor_for(solve=True, watch=watch)
    _jobs: OrderedDict[int, _Job] = field(default_factory=OrderedDict)
    _turn: Condition = field(default_factory=Condition)
    _numbers: "count[int]" = field(default_factory=lambda: count(1))
    _thread: Thread | None = None
    _is_open: bool = True

    def ask(self, opened: Opened) -> Progress:
        """Have a design solved.

        Raises:
            RequestError: Too many wait already, or it is larger than can be shown.
        """
        check_extent(opened)
        with self._turn:
            if sum(job.stage in ("waiting", "solving") for job in self._jobs.values()) >= MOST_WAITING:
                raise RequestError(f"{MOST_WAITING} designs are being solved or wait for it; stop one of them first.")
            number = next(self._numbers)
            self._jobs[number] = _Job(opened=opened)
            self._begin()
            self._turn.notify_all()
            return self._told(number)

    def look(self, solve: int) -> Progress:
        """How far a solve is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self._turn:
            return self._told(solve)

    def stop(self, solve: int) -> Progress:
        """Stop a solve; one that is finished stays as it is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self._turn:
            told = self._told(solve)
            job = self._jobs[solve]
            job.is_wanted = False
            if job.stage == "waiting":
                job.stage = "stopped"
                told = self._told(solve)
            return told

    def close(self) -> None:
        """Stop everything, and wait a while until it has stopped; what does not hear dies with the program."""
        with self._turn:
            self._is_open = False
            for job in self._jobs.values():
                job.is_wanted = False
            self._turn.notify_all()
            thread = self._thread
        if thread is not None:
            thread.join(PATIENCE_S)

    def _told(self, solve: int) -> Progress:
        job = self._jobs.get(solve)
        if job is None:
            raise RequestError(f"There is no solve {solve}; ask for a new one.")
        return Progress(solve=solve, stage=job.stage, share=job.share, sentences=job.sentences, result=job.result)

    def _begin(self) -> None:
        if not self._is_open:
            raise RequestError("The studio is closing; start it again.")
        if self._thread is None:
            self._thread = Thread(target=self._work, name="solves", daemon=True)
            self._thread.start()

    def _work(self) -> None:
        while (job := self._next()) is not None:
            self._solve(job)
            with self._turn:
                finished = [number for number, each in self._jobs.items() if each.stage not in ("waiting", "solving")]
                for number in finished[:-MOST_KEPT]:
                    del self._jobs[number]

    def _next(self) -> _Job | None:
        with self._turn:
            while self._is_open:
                for job in self._jobs.values():
                    if job.stage == "waiting":
                        job.stage = "solving"
                        return job
                self._turn.wait()
        return None

    def _solve(self, job: _Job) -> None:
        def watch(share: float) -> bool:
            with self._turn:
                job.share = max(job.share, min(1.0, share))
                return job.is_wanted

        try:
            predictor = self.predictor(watch)
            found = seen(job.opened, predictor)
            design, shelf = job.opened.reading.design, job.opened.catalogue
            sentences = () if found.worked is None else why_not_solved(design, shelf, predictor)
            self._finish(job, "done" if job.is_wanted else "stopped", sentences, found if job.is_wanted else None)
        except BraidwrightError as error:
            self._finish(job, "failed", (str(error),), None)
        except Exception:
            # The thread must live on for the next design, whatever is wrong with this one.
            self._finish(job, "failed", ("This design could not be solved; please report it, with the design.",), None)

    def _finish(self, job: _Job, stage: Stage, sentences: tuple[str, ...], result: Seen | None) -> None:
        with self._turn:
            job.stage, job.sentences, job.result = stage, sentences, result
            job.share = 1.0 if stage == "done" else job.share
