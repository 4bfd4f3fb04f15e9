"""predictors: which predictor answers: the quick formula, or the solver when the maker asks for it."""

from braidwright.app.ports import Predictor
from braidwright.app.quick import Quick


def predictor_for(*, solve: bool) -> Predictor:
    """The quick formula, or the solver, whose compiled parts are only loaded when they are wanted."""
    if not solve:
        return Quick()
    from braidwright.app.tightened import Solved

    return Solved()
