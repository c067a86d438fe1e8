"""Rodwork: one description of a carcass job, and everything that is made from it."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from os import PathLike

    from rodwork.model.rod import Rod

__version__ = "0.1.0"


def set_out(path: "str | PathLike[str]") -> "Rod":
    """The set-out of a job file: `rodwork.set_out("kitchen.toml").to_dict()`.

    Raises rodwork.job.faults.JobFaults with every fault in the file, and OSError where it cannot be read.
    """
    from pathlib import Path

    from rodwork.pipeline import set_out as from_text

    job = Path(path)
    return from_text(job.read_bytes(), str(path), lambda name: (job.parent / name).read_bytes())
