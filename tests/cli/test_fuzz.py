"""Whatever a job file holds, it is set out or it is refused in words: never a traceback, never nonsense."""

import math
import random
from pathlib import Path

from rodwork.job.faults import JobFaults
from rodwork.pipeline import set_out
from tests.mutations import mutated

EXAMPLES = [p.read_text(encoding="utf-8") for p in sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))]


def outcome(raw: bytes) -> str:
    """ "refused" or "set out"; anything else that happens is a fault of ours."""
    try:
        rod = set_out(raw, "job.toml")
    except JobFaults as refused:
        faults = refused.faults
        assert len(faults) > 0
        for fault in faults:
            assert str(fault).startswith("job.toml:")
            assert fault.what
            assert fault.mend
        return "refused"
    for cabinet in rod.cabinets:
        for part in cabinet.parts:
            assert all(math.isfinite(s) and s > 0 for s in part.size)
    assert not [f for f in rod.findings if f.code == "proof"], "the proof disagrees with the set-out"
    return "set out"


def test_mutated_job_files_are_set_out_or_refused_in_words():
    rng = random.Random(20261125)
    seen = [outcome(mutated(rng.choice(EXAMPLES), rng)) for _ in range(360)]
    assert seen.count("refused") > 36
    assert seen.count("set out") > 36
