"""The measurements of docs/benchmarks.md: run `.venv/bin/python benchmarks/measure.py`, all or by name.

Each figure is the median of several runs, in a process of its own where memory or start-up counts.
"""

import json
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from jobs import job_text

CHILD = """
import json, resource, sys, time
from pathlib import Path
sys.path.insert(0, {here!r})
from jobs import job_text
import rodwork.pipeline, rodwork.packing
text = job_text({number})
rodwork.pipeline.set_out(job_text(1), "warm up")
start = time.perf_counter()
rod = rodwork.pipeline.set_out(text, "job")
took = time.perf_counter() - start
packed, size, pages = 0.0, 0, 0
if {pack}:
    start = time.perf_counter()
    files = list(rodwork.packing.pack_files(rod, "R12"))
    packed, size = time.perf_counter() - start, len(files)
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(json.dumps([took, packed, peak, size]))
"""


def child(number: int, pack: bool = False) -> list[float]:
    """Seconds to set out, seconds to pack, peak memory in MB, files, for a job of so many cabinets."""
    code = CHILD.format(here=str(Path(__file__).parent), number=number, pack=pack)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    return list(json.loads(done.stdout.splitlines()[-1]))


def set_out_20() -> str:
    runs = [child(20)[0] for _ in range(5)]
    return f"set-out of 20 cabinets: median {statistics.median(runs):.3f} s ({min(runs):.3f} to {max(runs):.3f})"


def pack_20() -> str:
    runs = [child(20, pack=True) for _ in range(3)]
    packed = [r[0] + r[1] for r in runs]
    files = int(runs[0][3])
    return f"set-out and whole pack of 20 cabinets, {files} files: median {statistics.median(packed):.1f} s"


COMPARED = """
import json, sys, time
sys.path.insert(0, {here!r})
from jobs import alike_text, job_text
from rodwork.comparing import compare
from rodwork.pipeline import set_out
own = open({family!r}, encoding="utf-8").read()
def beside(name):
    return own.replace('name = "bolt', 'name = "' + name.removesuffix(".toml") + " bolt").encode()
text = alike_text({number}, {own})
compare(alike_text(1, {own}), "warm up", beside)
start = time.perf_counter(), time.process_time()
_, compared = compare(text, "job", beside)
took = time.perf_counter() - start[0], time.process_time() - start[1]
start = time.process_time()
set_out(text, "job", beside)
alone = time.process_time() - start
print(json.dumps([*took, alone, len(compared.all), len(compared.cannot)]))
"""


def compare_20() -> str:
    """Every family, and five written as data, on 20 cabinets, no two alike; beside it one set-out of the same job."""
    here = Path(__file__).parent
    family = here.parent / "examples/families/bolt-and-barrel-nut.toml"
    code = COMPARED.format(here=str(here), number=20, family=str(family), own=5)
    runs = []
    for _ in range(5):
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        runs.append(json.loads(done.stdout.splitlines()[-1]))
    wall, cpu, alone = (statistics.median(r[k] for r in runs) for k in range(3))
    able, unable = runs[0][3:]
    return (
        f"comparison on 20 cabinets, {able} ways that can and {unable} that cannot: median {wall:.2f} s, "
        f"{cpu:.2f} s of one processor, {cpu / alone:.1f} times one set-out and its proof ({alone:.2f} s)"
    )


LOADED = """
import json, sys, time
sys.path.insert(0, {here!r})
from jobs import job_text
from rodwork.pipeline import load, set_out
full = 'edging = {{ with = "birch", on = "fronts" }}\\ncontents = {{ of = "books" }}\\n'
text = job_text({number}).replace('edging = {{ with = "birch", on = "fronts" }}\\n', full)
rod = set_out(text, "job")
start = time.process_time()
loading = load(rod)
print(json.dumps([time.process_time() - start, sum(len(c.shelves) for c in loading.cabinets)]))
"""


def load_20() -> str:
    """Whether 20 cabinets full of books hold, no two alike: shelves, joints, racking, tipping; libraries loaded too."""
    code = LOADED.format(here=str(Path(__file__).parent), number=20)
    runs = []
    for _ in range(5):
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        runs.append(json.loads(done.stdout.splitlines()[-1]))
    cpu = statistics.median(r[0] for r in runs)
    return f"load of 20 cabinets with {runs[0][1]} shelves, all full: median {cpu:.2f} s of one processor"


def growth() -> str:
    rows = []
    for number in (125, 250, 500, 1000):
        took, _, peak, _ = child(number)
        rows.append(f"{number:5d} cabinets  {took:6.2f} s  {1000 * took / number:5.1f} ms each  {peak:5.0f} MB")
    return "growth of the set-out:\n  " + "\n  ".join(rows)


def command() -> str:
    """Whole processes, as a maker waits for them."""
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / "job.toml"
        job.write_text(job_text(20), encoding="utf-8")
        lines = []
        for words in (["--help"], ["set-out", str(job)]):
            runs = []
            for _ in range(7):
                start = time.perf_counter()
                subprocess.run([sys.executable, "-m", "rodwork", *words], capture_output=True)
                runs.append(time.perf_counter() - start)
            name = " ".join(w if not w.startswith("/") else "20-cabinets.toml" for w in words)
            lines.append(f"rodwork {name}: median {statistics.median(runs):.3f} s, best {min(runs):.3f}")
    return "\n".join(lines)


ALL = {f.__name__: f for f in (command, set_out_20, pack_20, compare_20, load_20, growth)}

if __name__ == "__main__":
    print(f"{platform.python_implementation()} {platform.python_version()}, {platform.machine()}")
    for name in sys.argv[1:] or ALL:
        print(ALL[name]())
