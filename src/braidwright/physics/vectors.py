"""vectors: arithmetic of points in space, as compiled functions of plain triples."""

from math import sqrt

from braidwright.physics.compiled import compiled
from braidwright.physics.state import Floats

Vector = tuple[float, float, float]


@compiled
def row(table: Floats, index: int) -> Vector:
    """One row of a table of points."""
    return table[index, 0], table[index, 1], table[index, 2]


@compiled
def put(table: Floats, index: int, a: Vector) -> None:
    """Write one row of a table."""
    table[index, 0] = a[0]
    table[index, 1] = a[1]
    table[index, 2] = a[2]


@compiled
def pile(table: Floats, index: int, a: Vector, share: float) -> None:
    """Add a share of a vector to one row of a table."""
    table[index, 0] += share * a[0]
    table[index, 1] += share * a[1]
    table[index, 2] += share * a[2]


@compiled
def minus(a: Vector, b: Vector) -> Vector:
    """The difference a - b."""
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


@compiled
def along(a: Vector, b: Vector, t: float) -> Vector:
    """The sum a + t b."""
    return a[0] + t * b[0], a[1] + t * b[1], a[2] + t * b[2]


@compiled
def middle(a: Vector, b: Vector) -> Vector:
    """The point half-way between two points."""
    return 0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1]), 0.5 * (a[2] + b[2])


@compiled
def dot(a: Vector, b: Vector) -> float:
    """The inner product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


@compiled
def cross(a: Vector, b: Vector) -> Vector:
    """The vector product a x b."""
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


@compiled
def norm(a: Vector) -> float:
    """The length of a vector."""
    return sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])


@compiled
def scaled(a: Vector, t: float) -> Vector:
    """The vector t a."""
    return t * a[0], t * a[1], t * a[2]
