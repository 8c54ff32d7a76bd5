#!/usr/bin/env python3
"""What each part of the demand model buys on the open sap-flow sites: the table of docs/model/tree.md.

  evidence.py sapdraw-skill

Every line leaves one choice of the shipped model out or takes another. Needs SAPDRAW_OUTSIDE_DATA. Standard library only.
"""
import os, statistics, sys, tempfile

import sapflow_skill as skill

TRIALS = [(f"{name}, {coupling}", ("--vpd", vpd, "--coupling", coupling))
          for name, vpd in (("Oren, cap and floor", "oren"), ("Medlyn", "medlyn"), ("Jarvis with exponent", "jarvis")) for coupling in ("stirred", "big-leaf")]
TRIALS = [(name, (*options, "--one-level")) for name, options in TRIALS] + [
    ("shipped: Jarvis, big-leaf, drifting level", ()),
    ("Oren, stirred, drifting level", ("--vpd", "oren", "--coupling", "stirred")),
    ("shipped, soil water followed in a loam", ("--soil", "balance")),
    ("shipped, no soil water", ("--no-soil-water",)),
    ("shipped, no storage lag", ("--no-lag",)),
]


def main():
    data = os.environ.get("SAPDRAW_OUTSIDE_DATA", "")
    if not os.path.exists(os.path.join(data, "sapflow", "score.py")):
        print("skipped: SAPDRAW_OUTSIDE_DATA does not point to a folder with sapflow/score.py")
        return 0
    print("| model | weeks R2 | by daylight | worst site | years shape, worst | R2 gain7, worst | daily error, worst | Spearman | quantile score, weeks |")
    print("|---|---|---|---|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as folder:
        for name, options in TRIALS:
            got = {(s, p): skill.trial(sys.argv[1], data, s, p, options, True, folder) for s in skill.BARRED for p in ("weeks", "years")}
            of = lambda split, key: [r[key] for (s, p), r in got.items() if p == split and r]
            rank = [r["rank_spearman"] for r in got.values() if r]
            print(f"| {name} | {statistics.median(of('weeks', 'r2')):.3f} | {statistics.median(of('weeks', 'r2_daylight')):.3f} | {min(of('weeks', 'r2')):.3f} | "
                  f"{min(of('years', 'shape_r2')):.3f} | {min(of('years', 'r2_gain7')):.3f} | {max(of('years', 'median_daily_error_gain7')):.3f} | {statistics.median(rank):.2f} | "
                  f"{statistics.fmean(of('weeks', 'quantile_score')):.4f} |", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main())
