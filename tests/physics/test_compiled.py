"""Functions are compiled wherever the program runs, also where no machine code can be kept."""

from collections.abc import Callable
from typing import Any

import numba
import pytest

from braidwright.physics.compiled import compiled, compiled_fast


def half(value: float) -> float:
    return value / 2.0


@pytest.mark.parametrize("how", [compiled, compiled_fast])
def test_where_nothing_can_be_kept_it_is_compiled_all_the_same(
    how: Callable[[Callable[[float], float]], Callable[[float], float]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As numba fails when neither the package nor the user's folder can be written to."""
    really: Any = numba.njit

    def nowhere(*arguments: object, **wishes: object) -> object:
        if wishes.get("cache"):
            raise RuntimeError("cannot cache function 'half': no locator available")
        return really(*arguments, **wishes)

    monkeypatch.setattr(numba, "njit", nowhere)
    assert how(half)(3.0) == 1.5


def test_a_division_by_zero_is_no_fault() -> None:
    @compiled
    def inverse(value: float) -> float:
        return 1.0 / value

    assert inverse(0.0) == float("inf")
