"""Routes, some addresses to a file: to add some, add a file that defines ROUTE: parse, call one use case, answer."""

from braidwright.registry import family
from braidwright.web.route import Route

ROUTES = family(__name__, "ROUTE", Route)
