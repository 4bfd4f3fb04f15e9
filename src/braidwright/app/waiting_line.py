"""waiting_line: work done in the background, one job after the other, to be asked after and to be stopped.

Any thread may ask; one thread of the line's own works.
"""

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import count
from threading import Condition, Thread
from typing import Generic, Literal, TypeVar

from braidwright.domain.errors import BraidwrightError, RequestError

PATIENCE_S = 5.0

JobStage = Literal["waiting", "working", "done", "stopped", "failed"]
UNDER_WAY: tuple[JobStage, ...] = ("waiting", "working")


@dataclass(slots=True, kw_only=True)
class Job:
    """One thing to be done; a kind of job adds what it is made from and what comes of it.

    Attributes:
        stage: Where it stands.
        share: What share of the work is done, 0 to 1.
        is_wanted: False once it was stopped.
        sentences: What the maker should know.
    """

    stage: JobStage = "waiting"
    share: float = 0.0
    is_wanted: bool = True
    sentences: tuple[str, ...] = ()


AnyJob = TypeVar("AnyJob", bound=Job)


@dataclass(slots=True, kw_only=True)
class WaitingLine(Generic[AnyJob]):
    """The jobs of one kind in one run of the program.

    Attributes:
        name: One word for a job, such as "solve".
        work: Does a job and calls `finish`, in the thread of the line; what it raises fails the job.
        crowded: The sentence when too many wait.
        fault: The sentence when a job fails by no fault of the maker's.
        most_waiting: How many may be under way.
        most_kept: How many finished ones are remembered, the newest.
        turn: Held while anything of a job is read or changed.
    """

    name: str
    work: Callable[[AnyJob], None]
    crowded: str
    fault: str
    most_waiting: int
    most_kept: int
    turn: Condition = field(default_factory=Condition)
    _jobs: OrderedDict[int, AnyJob] = field(default_factory=OrderedDict)
    _numbers: "count[int]" = field(default_factory=lambda: count(1))
    _thread: Thread | None = None
    _is_open: bool = True

    def ask(self, job: AnyJob) -> int:
        """Put a job in the line; its number.

        Raises:
            RequestError: Too many wait already, or the studio is closing.
        """
        with self.turn:
            if sum(each.stage in UNDER_WAY for each in self._jobs.values()) >= self.most_waiting:
                raise RequestError(self.crowded)
            if not self._is_open:
                raise RequestError("The studio is closing; start it again.")
            number = next(self._numbers)
            self._jobs[number] = job
            if self._thread is None:
                self._thread = Thread(target=self._run, name=f"{self.name}s", daemon=True)
                self._thread.start()
            self.turn.notify_all()
            return number

    def job(self, number: int) -> AnyJob:
        """A job; the caller holds `turn` while it reads it.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        job = self._jobs.get(number)
        if job is None:
            raise RequestError(f"There is no {self.name} {number}; ask for a new one.")
        return job

    def stop(self, number: int) -> None:
        """Stop a job; one that is finished stays as it is.

        Raises:
            RequestError: There is none of this number, or it is long past.
        """
        with self.turn:
            job = self.job(number)
            job.is_wanted = False
            if job.stage == "waiting":
                job.stage = "stopped"

    def finish(self, job: AnyJob, stage: JobStage, sentences: tuple[str, ...] = ()) -> None:
        """Say how a job ended."""
        with self.turn:
            job.stage, job.sentences = stage, sentences
            job.share = 1.0 if stage == "done" else job.share

    def close(self) -> None:
        """Stop everything, and wait a while until it has stopped; what does not hear dies with the program."""
        with self.turn:
            self._is_open = False
            for job in self._jobs.values():
                job.is_wanted = False
            self.turn.notify_all()
            thread = self._thread
        if thread is not None:
            thread.join(PATIENCE_S)

    def _run(self) -> None:
        while (job := self._next()) is not None:
            try:
                self.work(job)
            except BraidwrightError as error:
                self.finish(job, "failed", (str(error),))
            except Exception:
                # The thread must live on for the next job, whatever is wrong with this one.
                self.finish(job, "failed", (self.fault,))
            with self.turn:
                finished = [number for number, each in self._jobs.items() if each.stage not in UNDER_WAY]
                for number in finished[: -self.most_kept]:
                    del self._jobs[number]

    def _next(self) -> AnyJob | None:
        with self.turn:
            while self._is_open:
                for job in self._jobs.values():
                    if job.stage == "waiting":
                        job.stage = "working"
                        return job
                self.turn.wait()
        return None
