"""The uptake loop against the same physics in numpy, in one run:

  /usr/bin/python3 tests/bench/uptake_ratio.py build/release/bench-uptake

The same draws, hours, steps and stages, the same Newton rounds until every draw has settled. Prints the time of each per draw and step,
their ratio, and by how much the volumes differ; fails where that is more than a millionth. One core, best of several runs.
"""
import json
import pathlib
import subprocess
import sys
import tempfile
import time

import numpy as np

GAMMA = 1.0 - np.sqrt(0.5)
STEPS_PER_HOUR, HOURS = 6, 10
VULNERABILITY, CLOSURE = 2.5, 5.0
LN_2 = np.log(2.0)
OF_TREE = ("base_store crown_store lift per_p50 vulnerability_slope per_psi_half closure_slope port lumens pressure slow_hours fast_hours "
           "fast_share lumens_hours open base crown crown_rate").split()
OF_HOUR = "demand cuticle root backflow soil xylem port_fluidity".split()


def stage(k, h, port, base_inertia, crown_inertia, base_before, crown_before, c):
    """Flows at the end of an implicit stage (src/uptake/flow.h)."""
    for _ in range(25):
        tension = np.maximum(-c, 1e-9)
        x = tension * k["per_p50"]
        loss_slope = x * np.sqrt(x)  # x^(2.5 - 1)
        xylem = h["xylem"] * np.exp(-LN_2 * loss_slope * x)
        xylem_slope = xylem * loss_slope * k["vulnerability_slope"]
        y = tension * k["per_psi_half"]
        y2 = y * y
        closing_slope = y2 * y2  # y^(5 - 1)
        opened = 1.0 / (1.0 + closing_slope * y)
        above = c + k["lift"]
        at_soil = base_inertia * (h["soil"] - base_before) - port * np.maximum(0.0, k["pressure"] - h["soil"]) + xylem * (h["soil"] - above)
        root = np.where(at_soil > 0.0, h["root"], h["backflow"])
        at_pressure = (base_inertia * (k["pressure"] - base_before) + root * (k["pressure"] - h["soil"]) + xylem * (k["pressure"] - above))
        ports = np.where(at_pressure > 0.0, port, 0.0)
        per_base = 1.0 / (base_inertia + root + ports + xylem)
        base = (base_inertia * base_before + root * h["soil"] + ports * k["pressure"] + xylem * above) * per_base
        drive = base - above
        into_crown = xylem - xylem_slope * drive
        base_slope = into_crown * per_base
        xylem_by_crown = xylem * base_slope - into_crown
        demand = h["demand"] * opened
        leaves_by_crown = demand * opened * closing_slope * k["closure_slope"]
        xylem_flow = xylem * drive
        leaves = demand + h["cuticle"]
        residual = crown_inertia * (c - crown_before) - xylem_flow + leaves
        slope = crown_inertia - xylem_by_crown + leaves_by_crown
        move = np.clip(-residual / np.maximum(slope, 0.05 * crown_inertia), -0.5, 0.5)
        settled = np.abs(move) < 1e-3
        if settled.all():
            break
        c = c + np.where(settled, 0.0, move)
    end = base + base_slope * move
    return (root * (h["soil"] - end), xylem_flow + xylem_by_crown * move, leaves + leaves_by_crown * move,
            np.maximum(0.0, ports * (k["pressure"] - end)))


def fatigue(k, hours, step_h):
    """Open share at the two stages and after the step, of a part that was 1 at its beginning."""
    left = np.exp(-step_h / hours)
    early = np.exp(-GAMMA * step_h / hours)
    scale = (1.0 - left) * hours / step_h / ((1.0 - GAMMA) * early + GAMMA * left)
    return scale * early, scale * left, left


def drink(k, hours):
    """Volume taken up by every draw in HOURS hours."""
    base, crown, rate = k["base"], k["crown"], k["crown_rate"]
    filled = volume = np.zeros_like(base)
    slow, fast = k["open"] * (1.0 - k["fast_share"]), k["open"] * k["fast_share"]
    filling = k["pressure"] / 0.1 * k["open"] / k["lumens_hours"]
    usual = 1.0 / STEPS_PER_HOUR
    opening = [usual / 32 * p for p in (1, 1, 2, 4, 8, 16)]
    for i, h in enumerate(hours):
        fresh = k["port"] * h["port_fluidity"]
        known = None
        for step_h in opening + [usual / 3] * (3 * (STEPS_PER_HOUR - 1)) if i == 0 else [usual] * STEPS_PER_HOUR:
            if step_h != known:
                slow_part, fast_part = fatigue(k, k["slow_hours"], step_h), fatigue(k, k["fast_hours"], step_h)
                emptied = 1.0 - np.exp(-step_h * filling * h["port_fluidity"])
                stage_h, first_h = GAMMA * step_h, (1.0 - GAMMA) * step_h
                base_inertia, crown_inertia = k["base_store"] / stage_h, k["crown_store"] / stage_h
                known = step_h
            early = stage(k, h, fresh * (slow * slow_part[0] + fast * fast_part[0]), base_inertia, crown_inertia, base, crown,
                          crown + stage_h * rate)
            early_rate = (early[1] - early[2]) / k["crown_store"]
            base_between = base + first_h * (early[0] + early[3] - early[1]) / k["base_store"]
            crown_between = crown + first_h * early_rate
            late = stage(k, h, fresh * (slow * slow_part[1] + fast * fast_part[1]), base_inertia, crown_inertia, base_between,
                         crown_between, crown_between + stage_h * early_rate)
            slow, fast = slow * slow_part[2], fast * fast_part[2]
            root, xylem, leaves, ports = ((1.0 - GAMMA) * a + GAMMA * b for a, b in zip(early, late))
            base = base + step_h * (root + ports - xylem) / k["base_store"]
            crown = crown + step_h * (xylem - leaves) / k["crown_store"]
            rate = (late[1] - late[2]) / k["crown_store"]
            more = (k["lumens"] - filled) * emptied
            filled = filled + more
            volume = volume + step_h * ports + more
    return volume


def best(run, times):
    shortest = float("inf")
    for _ in range(times):
        begin = time.perf_counter()
        result = run()
        shortest = min(shortest, time.perf_counter() - begin)
    return result, shortest


def main(program):
    wrong = False
    print(f"{'draws':>6} {'ours, ns':>9} {'numpy, ns':>10} {'ratio':>6}  largest difference of volumes")
    for draws in (64, 256, 512, 4096):
        with tempfile.TemporaryDirectory() as folder:
            file = pathlib.Path(folder) / "case"
            subprocess.run([program, "--case", file, str(draws)], check=True)
            rows = np.fromfile(file).reshape(-1, draws)
        k = dict(zip(OF_TREE, rows))
        hours = [dict(zip(OF_HOUR, rows[len(OF_TREE) + i * len(OF_HOUR):])) for i in range(HOURS)]
        assert len(rows) == len(OF_TREE) + HOURS * len(OF_HOUR) + 1
        volume, seconds = best(lambda: drink(k, hours), 7)
        report = subprocess.run(
            [program, f"--benchmark_filter=^drink/{draws}$", "--benchmark_repetitions=7", "--benchmark_format=json"],
            check=True, capture_output=True)
        ours = min(b["ns_per_draw_step"] for b in json.loads(report.stdout)["benchmarks"] if b["run_type"] == "iteration")
        numpys = seconds * 1e9 / (draws * HOURS * STEPS_PER_HOUR)
        off = np.max(np.abs(volume / rows[-1] - 1.0))
        wrong = wrong or not off < 1e-6
        print(f"{draws:>6} {ours:>9.1f} {numpys:>10.1f} {numpys / ours:>6.1f}  {off:.1e}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
