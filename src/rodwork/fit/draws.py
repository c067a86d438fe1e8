"""Random errors, each source from a stream of its own: an edit to one joint leaves all the others as they were.

A stream is Philox, keyed by the seed and the source's key, with one counter per chunk: chunks may be drawn in any
order, on any number of cores. Source: Salmon, Moraes, Dror and Shaw, Parallel random numbers:
as easy as 1, 2, 3 (2011).
"""

from collections.abc import Sequence
from hashlib import blake2b

import numpy as np

from rodwork.fit.arrays import Array
from rodwork.fit.linear import Source

CHUNK = 2000  # samples: the violations of one chunk stay in the cache; 100,000 at once take 3 to 4 times as long each


def draw(sources: Sequence[Source], samples: int, seed: int, chunk: int = 0) -> Array:
    """(samples, p) unit normals of one chunk."""
    z = np.empty((len(sources), samples))
    for i, source in enumerate(sources):
        digest = blake2b(source.key.encode(), digest_size=8, key=seed.to_bytes(8, "little")).digest()
        key = np.array([int.from_bytes(digest, "little"), seed], dtype=np.uint64)
        stream = np.random.Generator(np.random.Philox(key=key, counter=[0, 0, 0, chunk]))
        stream.standard_normal(out=z[i])
    return np.ascontiguousarray(z.T)


def chunks(samples: int) -> list[tuple[int, int]]:
    """(number, size) of every chunk; all but the last are CHUNK long, however many samples there are."""
    return [(i, min(CHUNK, samples - i * CHUNK)) for i in range((samples + CHUNK - 1) // CHUNK)]
