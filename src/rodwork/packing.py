"""The files of a pack, one after another, as names and bytes: what cli.py writes and the tests read."""

import json
from collections.abc import Callable, Iterator
from typing import Literal

from rodwork.documents.pack import pack_drawings
from rodwork.model.rod import Rod
from rodwork.writers.pdf import pdf


def pack_files(
    rod: Rod, dxf: Literal["R12", "R2010"], say: Callable[[str], None] = lambda what: None
) -> Iterator[tuple[str, bytes]]:
    """(file name, content) of every file of the pack, the PDF first."""
