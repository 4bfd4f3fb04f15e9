"""solving: designs that are tightened in the background, one after the other, to be asked after and to be stopped."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from braidwright.app.designs import Opened
from braidwright.app.ports import Predictor, Watch
from braidwright.app.predictors import predictor_for
from braidwright.app.seeing import Seen, check_extent, seen
from braidwright.app.solvable import why_not_solved
from braidwright.app.waiting_line import Job, WaitingLine

MOST_WAITING = 4
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


@dataclass(slots=True, kw_only=True)
class _Job(Job):
    opened: Opened
    result: Seen | None = None


@dataclass(slots=True)
class Solves:
    """The solves of one run of the program.

    Attributes:
        predictor: Makes the predictor that solves, given who watches.
    """

    predictor: Callable[[Watch], Predictor] = lambda watch: predictor_for(solve=True, watch=watch)
    _line: WaitingLine[_Job] = field(init=False)

    def __post_init__(self) -> None:
        """Open the line."""
        self._line = WaitingLine(
            name="solve",
            work=self._solve,
            crowded=f"{MOST_WAITING} designs are being solved or wait for it; stop one of them first.",
            fault="This design could not be solved; please report it, with the design.",
            most_waiting=MOST_WAITING,
            most_kept=MOST_KEPT,
        )

    def ask(self, opened: Opened) -> Progress:
        """Have a design solved.

        Raises:
            RequestError: Too many wait already, or it is larger than can be shown.
        """
        check_extent(opened)
        with self._line.turn:
            return self.look(self._line.ask(_Job(opened=opened)))

    def look(self, solve: int) -> Progress:
        """How far a solve is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self._line.turn:
            job = self._line.job(solve)
            stage: Stage = "solving" if job.stage == "working" else job.stage
            return Progress(solve=solve, stage=stage, share=job.share, sentences=job.sentences, result=job.result)

    def stop(self, solve: int) -> Progress:
        """Stop a solve; one that is finished stays as it is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self._line.turn:
            self._line.stop(solve)
            return self.look(solve)

    def close(self) -> None:
        """Stop everything; see `WaitingLine.close`."""
        self._line.close()

    def _solve(self, job: _Job) -> None:
        def watch(share: float) -> bool:
            with self._line.turn:
                job.share = max(job.share, min(1.0, share))
                return job.is_wanted

        predictor = self.predictor(watch)
        found = seen(job.opened, predictor)
        design, shelf = job.opened.reading.design, job.opened.catalogue
        sentences = () if found.worked is None else why_not_solved(design, shelf, predictor)
        with self._line.turn:
            job.result = found if job.is_wanted else None
            self._line.finish(job, "done" if job.is_wanted else "stopped", sentences)
