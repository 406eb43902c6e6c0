"""How long binding the sample takes and how much memory, cold and again unchanged.

Run as `python -m tests.bench.bind_sample`; each binding is a program of its own, as a maker runs it.
"""

import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

SAMPLE = Path(__file__).resolve().parents[2] / "sample_job"


def measure(book: Path) -> tuple[float, float]:
    """Seconds of wall time, and the peak resident memory in MB of the largest child so far."""
    start = time.perf_counter()
    command = [sys.executable, "-m", "buildbook", "bind", str(SAMPLE), "--to", str(book)]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    peak_kb = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    return time.perf_counter() - start, peak_kb / 1024


def main() -> None:
    with tempfile.TemporaryDirectory() as place:
        book = Path(place) / "book"
        for what in ("cold", "again, unchanged"):
            seconds, peak_mb = measure(book)
            print(f"{what:18} {seconds:6.2f} s   peak {peak_mb:6.1f} MB so far")
        handover = sum(p.stat().st_size for p in (book / "handover").rglob("*") if p.is_file())
        print(f"handover with all its pictures: {handover / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
