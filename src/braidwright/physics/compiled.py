"""compiled: the one place where a function of numbers is turned into machine code.

Compiled code is kept beside the package, or in the user's cache folder when the package cannot be written to, so only
the very first run waits for it; where neither can be written to, every run does. The lock of the interpreter is
released while it runs.
"""

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba

Compiled = TypeVar("Compiled", bound=Callable[..., object])


def compiled(function: Compiled) -> Compiled:
    """The same function, compiled at its first call; a division by zero gives inf or nan as numpy does."""
    return cast(Compiled, _compiled(function, nogil=True, error_model="numpy"))


def compiled_fast(function: Compiled) -> Compiled:
    """The same, with sums taken in whatever order is quickest: the last digits may differ from machine to machine."""
    return cast(Compiled, _compiled(function, nogil=True, error_model="numpy", fastmath={"reassoc", "contract"}))


def _compiled(function: Callable[..., object], **how: Any) -> Any:  # noqa: ANN401  (numba's own types are of no help)
    compiler: Any = numba.njit
    try:
        return compiler(cache=True, **how)(function)
    except RuntimeError:  # no folder to keep it in
        return compiler(**how)(function)
