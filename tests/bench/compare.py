"""The kernels of src/air against numpy and a plain loop over libm, in one run on one core:

  /usr/bin/python3 tests/bench/compare.py [build/release/sapdraw-bench]

Same inputs, same outputs, processor time, best of several rounds in which the three take turns. Prints nanoseconds an element, the ratios, and how far
the three are apart; fails where that is more than a millionth. Needs python3-numpy.
"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import time

os.environ.update({name: "1" for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS")})
try:
    import numpy as np
except ImportError:
    sys.exit("compare.py: numpy is not here: install python3-numpy and run this with /usr/bin/python3")
import numpy_air

SIZES, ROUNDS, CLOSE = (2016, 4000008), 5, 1e-6  # whole solar days: hours in multiples of 24


def seconds_an_element(run, size):
    """Best of some runs that last a tenth of a second together, after one that warms up."""
    run()
    best, end = float("inf"), time.process_time() + 0.1
    while True:
        begin = time.process_time()
        run()
        now = time.process_time()
        best = min(best, now - begin)
        if now > end:
            return best / size


def benched(program, what, size):
    report = subprocess.run(
        [program, f"--benchmark_filter=^run/{what}_(kernel|plain)/{size}$", "--benchmark_repetitions=3", "--benchmark_min_time=0.03",
         "--benchmark_format=json"], check=True, capture_output=True)
    best = {"kernel": float("inf"), "plain": float("inf")}
    for row in json.loads(report.stdout)["benchmarks"]:
        if row["run_type"] == "iteration":
            who = row["name"].split("/")[1].removeprefix(what + "_")
            best[who] = min(best[who], row["cpu_time"] * 1e-9 / size)
    return best


def main(program):
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, {max(os.sched_getaffinity(0))})
    wrong = False
    print(f"{'':4}{'elements':>9} {'kernel ns':>10} {'numpy ns':>9} {'libm ns':>8} {'x numpy':>8} {'x libm':>7}  apart from numpy, libm")
    for size in SIZES:
        with tempfile.TemporaryDirectory() as folder:
            file = pathlib.Path(folder) / "case"
            subprocess.run([program, "--case", file, str(size)], check=True)
            columns = np.fromfile(file).reshape(13, size)
        weather, kernel, plain = columns[:5].copy(), columns[5:9], columns[9:]
        for what, run, rows in (("et", lambda: numpy_air.evapotranspiration(*weather), slice(0, 2)),
                                ("vpd", lambda: numpy_air.vapour(weather[0], weather[1]), slice(2, 4))):
            off = [float(np.max(np.abs(kernel[rows] - other))) for other in (np.array(run()), plain[rows])]
            wrong = wrong or not max(off) <= CLOSE
            ns = {"kernel": float("inf"), "plain": float("inf"), "numpy": float("inf")}
            for _ in range(ROUNDS):
                for who, seconds in benched(program, what, size).items():
                    ns[who] = min(ns[who], seconds * 1e9)
                ns["numpy"] = min(ns["numpy"], seconds_an_element(run, size) * 1e9)
            print(f"{what:4}{size:>9} {ns['kernel']:>10.2f} {ns['numpy']:>9.1f} {ns['plain']:>8.1f} {ns['numpy'] / ns['kernel']:>8.1f} "
                  f"{ns['plain'] / ns['kernel']:>7.1f}  {off[0]:.0e}, {off[1]:.0e}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1] if len(sys.argv) > 1 else "build/release/sapdraw-bench"))
