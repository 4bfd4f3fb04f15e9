"""Pens, one to a file: to add one, add a file that defines PEN."""

from braidwright.drawings.pen import PenKind
from braidwright.registry import family

PENS = family(__name__, "PEN", PenKind)
