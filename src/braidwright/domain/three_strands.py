"""three_strands: braids of three strands as matrices, where a full turn of all three vanishes.

The matrices are those of PSL(2, Z). Source: W. Magnus and A. Peluso, On knot groups, Communications on Pure and Applied
Mathematics 20 (1967), from memory.
"""

from collections.abc import Iterator

# The matrices are kept modulo a prime so large (2^127 - 1) that no trace is taken for +-2 by chance.
PRIME = 2**127 - 1

Matrix = tuple[int, int, int, int]
ONE: Matrix = (1, 0, 0, 1)
PARABOLIC = 2
FIRST: Matrix = (1, 1, 0, 1)
FIRST_BACK: Matrix = (1, -1, 0, 1)
GENERATORS: dict[int, Matrix] = {
    1: FIRST,
    -1: FIRST_BACK,
    2: (1, 0, -1, 1),
    -2: (1, 0, 1, 1),
    3: FIRST,  # of four strands: the homomorphism onto the braids of three
    -3: FIRST_BACK,
}


def kind_of(matrix: Matrix) -> str:
    """What the matrix of a pure braid of three strands says."""
    if trace_size(matrix) != PARABOLIC:
        return "braided"
    return "turned" if matrix[1] == matrix[2] == 0 else "pair"


def trace_size(matrix: Matrix) -> int:
    """The trace, whatever its sign."""
    trace = (matrix[0] + matrix[3]) % PRIME
    return min(trace, PRIME - trace)


def matrix_of(letters: Iterator[int]) -> Matrix:
    """The matrix of a braid word of three strands."""
    matrix = ONE
    for letter in letters:
        matrix = product_of(matrix, GENERATORS[letter])
    return matrix


def product_of(one: Matrix, two: Matrix) -> Matrix:
    """One after the other."""
    a, b, c, d = one
    e, f, g, h = two
    return (
        (a * e + b * g) % PRIME,
        (a * f + b * h) % PRIME,
        (c * e + d * g) % PRIME,
        (c * f + d * h) % PRIME,
    )


def power(matrix: Matrix, times: int) -> Matrix:
    """So many times after itself."""
    result = ONE
    while times:
        if times % 2:
            result = product_of(result, matrix)
        matrix, times = product_of(matrix, matrix), times // 2
    return result
