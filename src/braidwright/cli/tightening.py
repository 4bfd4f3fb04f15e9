"""tightening: while a braid is tightened a person sees the estimate and how far it is, and can stop it."""

import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from braidwright.cli.show import Progress, tell

if TYPE_CHECKING:
    from braidwright.app.designs import Opened


class Watcher:
    """Tells how far a solve is, and whether it is to go on: an interrupt stops it and not the command.

    Args:
        doing: Where it is told.
        estimate: What is known already, or "".
        is_ready: Whether the solver ran on this machine before.
    """

    def __init__(self, doing: Progress, estimate: str, *, is_ready: bool) -> None:
        self._doing = doing
        self._estimate = estimate
        self._is_ready = is_ready
        self._is_solving = False
        self._is_stopped = False
        self._tell(0.0)

    def __call__(self, share: float) -> bool:
        """Told what share of a solve is done; answers whether to go on."""
        self._is_solving = share < 1.0
        self._is_ready = self._is_ready or share > 0.0
        if self._is_solving:
            self._tell(share)
        return not self._is_stopped

    def interrupt(self, number: int, frame: object) -> None:
        """What an interrupt does: the first one while a braid is tightened stops that, any other the command."""
        if not self._is_solving or self._is_stopped:
            signal.default_int_handler(number, None)
        self._is_stopped = True

    def _tell(self, share: float) -> None:
        if self._is_stopped:
            what = "stopping"
        elif not self._is_ready:
            what = "getting the solver ready (first run only)"
        else:
            what = f"tightening, Ctrl-C {'keeps this' if self._estimate else 'stops it'}"
        sentence = f"{self._estimate}{what}"
        self._doing.now(sentence[0].upper() + sentence[1:], share)


@contextmanager
def tightening(read: "Opened", doing: Progress, *, wanted: bool) -> Iterator[Callable[[float], bool] | None]:
    """Who watches the solves done meanwhile; None when none are wanted.

    Args:
        read: The design, whose estimate is told at once.
        doing: Where progress is told.
        wanted: Whether anything is to be solved.
    """
    if not wanted:
        yield None
        return
    from braidwright.app.warming import is_ready

    watcher = Watcher(doing, _estimate(read), is_ready=is_ready())
    with _interrupts(watcher.interrupt):
        yield watcher


def tell_why_not(read: "Opened", watch: Callable[[float], bool] | None) -> None:
    """Remark why the size rests on no solved shape, when one was wanted and there is a reason to tell.

    Args:
        read: The design.
        watch: Who watched the solves; None when none were wanted.
    """
    if watch is None:
        return
    from braidwright.app.predictors import predictor_for
    from braidwright.app.solvable import why_not_solved

    tell(why_not_solved(read.reading.design, read.catalogue, predictor_for(solve=True, watch=watch)))


@contextmanager
def _interrupts(handler: Callable[[int, object], None]) -> Iterator[None]:
    """Interrupts go to a handler, where they would have stopped the command; someone may have set them aside."""
    try:
        is_ours = signal.getsignal(signal.SIGINT) is signal.default_int_handler
        before = signal.signal(signal.SIGINT, handler) if is_ours else None
    except ValueError:  # not in the main thread: interrupts come elsewhere
        before = None
    try:
        yield
    finally:
        if before is not None:
            signal.signal(signal.SIGINT, before)


def _estimate(read: "Opened") -> str:
    """The size by the quick formula, as the beginning of a sentence, or nothing when there is none."""
    from braidwright.app.sizes import size
    from braidwright.domain.units import print_length

    quick = size(read.reading.design, read.catalogue)
    if quick.basis != "estimated" or quick.length_mm is None or quick.diameter_mm is None:
        return ""
    return f"Estimated {print_length(quick.length_mm)}, {quick.diameter_mm:.1f} mm thick; "
