"""Output formats, one to a file: to add one, add a file that defines FORMAT."""

from braidwright.drawings.format import Format
from braidwright.registry import family

FORMATS = {made.name: made for made in family(__name__, "FORMAT", Format).values()}
