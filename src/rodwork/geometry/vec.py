"""Points and directions as plain tuples, mm: small, exact, hashable, quick."""

from math import sqrt

Vec = tuple[float, float, float]
Matrix = tuple[Vec, Vec, Vec]

IDENTITY: Matrix = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def add(a: Vec, b: Vec) -> Vec:
    """a + b."""
    return (a[0] + b[0], a[1] + b[1], a[2] + b[2])


def sub(a: Vec, b: Vec) -> Vec:
    """a - b."""
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def scale(a: Vec, k: float) -> Vec:
    """k a."""
    return (a[0] * k, a[1] * k, a[2] * k)


def neg(a: Vec) -> Vec:
    """-a, without a minus nought."""
    return (0.0 - a[0], 0.0 - a[1], 0.0 - a[2])


def dot(a: Vec, b: Vec) -> float:
    """a . b."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Vec, b: Vec) -> Vec:
    """a x b."""
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def norm(a: Vec) -> float:
    """Length of a."""
    return sqrt(dot(a, a))


def along(origin: Vec, *steps: tuple[Vec, float]) -> Vec:
    """Origin plus each direction times its distance."""
    x, y, z = origin
    for d, k in steps:
        x += d[0] * k
        y += d[1] * k
        z += d[2] * k
    return (x, y, z)


def apply(m: Matrix, v: Vec) -> Vec:
    """m v (rows times column)."""
    return (dot(m[0], v), dot(m[1], v), dot(m[2], v))


def transpose(m: Matrix) -> Matrix:
    """Rows become columns; of a rotation, its inverse."""
    return (
        (m[0][0], m[1][0], m[2][0]),
        (m[0][1], m[1][1], m[2][1]),
        (m[0][2], m[1][2], m[2][2]),
    )


def clean(v: Vec, digits: int = 6) -> Vec:
    """v without the dust of floating arithmetic, nor a minus nought."""
    return (
        round(v[0], digits) + 0.0,
        round(v[1], digits) + 0.0,
        round(v[2], digits) + 0.0,
    )
