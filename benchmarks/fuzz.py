"""20,000 mutated job files: `.venv/bin/python benchmarks/fuzz.py [number] [seed]` prints every one that goes wrong."""

import random
import sys
import traceback
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
from tests.cli.test_fuzz import EXAMPLES, outcome
from tests.mutations import mutated


def main(number: int, seed: int) -> int:
    rng = random.Random(seed)
    seen: Counter[str] = Counter()
    for n in range(number):
        raw = mutated(rng.choice(EXAMPLES), rng)
        try:
            seen[outcome(raw)] += 1
        except Exception:
            seen["wrong"] += 1
            where = Path(f"/tmp/fuzz-{seed}-{n}.toml")
            where.write_bytes(raw)
            print(f"{where}\n{traceback.format_exc()}", flush=True)
    print(dict(seen))
    return 1 if seen["wrong"] else 0


if __name__ == "__main__":
    sys.exit(main(int((sys.argv[1:] or ["20000"])[0]), int((sys.argv[2:] or ["1"])[0])))
