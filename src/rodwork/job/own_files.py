"""How the files of a maker's own families come to the job: fetched by whoever may touch files."""

from collections.abc import Callable
from dataclasses import dataclass

from rodwork.model.own_family import OwnFamily


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnFiles:
    """What fetches a file that stands beside the job file, and what a job file may say of a family in it.

    `beside` raises OSError where there is no such file.
    """

    beside: Callable[[str], bytes]
    settings_of: Callable[[OwnFamily], type]


def _no_file(name: str) -> bytes:
    raise FileNotFoundError(2, "no files are read here", name)


NO_OWN_FILES = OwnFiles(beside=_no_file, settings_of=type)
