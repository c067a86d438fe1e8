"""numba's compiler, with its cache where one can be written: without one it compiles again in every process."""

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba

Function = TypeVar("Function", bound=Callable[..., Any])


def compiled(function: Function) -> Function:
    """Compile on first use, free of the interpreter's lock.

    numba refuses `cache=True` at import where no folder can be written (a read-only install and home): then the
    same function is compiled without a cache.
    """
    try:
        return cast("Function", numba.njit(cache=True, nogil=True)(function))
    except RuntimeError:
        return cast("Function", numba.njit(nogil=True)(function))
