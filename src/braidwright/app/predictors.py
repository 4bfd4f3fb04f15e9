"""predictors: which predictor answers: the quick formula, or the solver when the maker asks for it."""

from braidwright.app.ports import Predictor, Watch
from braidwright.app.quick import Quick


def predictor_for(*, solve: bool, watch: Watch | None = None) -> Predictor:
    """The quick formula, or the solver, whose compiled parts are only loaded when they are wanted.

    Args:
        solve: Whether to solve what can be solved.
        watch: Told what share of a solve is done, 0 when it begins and 1 when it ends; answers whether to go on.
    """
    if not solve:
        return Quick()
    from braidwright.app.tightened import Solved

    return Solved(watch=watch)
