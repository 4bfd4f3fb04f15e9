"""Sheets, one to a file: to add one, add a file that defines SHEET."""

from braidwright.drawings.sheet import Sheet
from braidwright.registry import family

SHEETS = {sheet.name: sheet for sheet in family(__name__, "SHEET", Sheet).values()}
