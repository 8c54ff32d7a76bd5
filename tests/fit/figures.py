#!/usr/bin/env python3
"""Pictures of docs/model/uptake.md and days.md from what fact-curves says: hours by size beside the facts, a day with its band, what drives hours.

  figures.py BUILD_FOLDER SOURCE_FOLDER

Needs python3-matplotlib (Debian).
"""
import json, os, subprocess, sys

import matplotlib

matplotlib.use("Agg")
matplotlib.rcParams.update({"svg.hashsalt": "sapdraw", "svg.fonttype": "none", "font.size": 9, "axes.spines.top": False, "axes.spines.right": False})
import matplotlib.pyplot as plt

CLEAR, CLEAR_BAND, DULL, DULL_BAND, DRY, FACT = "#b5541c", "#f0d8c8", "#3d5a73", "#ccd7e0", "#7a6a2a", "#222222"


def save(figure, source, name):
    figure.tight_layout()
    figure.savefig(os.path.join(source, "docs/figures", name), metadata={"Date": None})


def size_picture(said, facts, source):
    rows = said["by_size"]
    sizes = [r["dbh_cm"] for r in rows]
    figure, ax = plt.subplots(figsize=(8, 4.6))
    ax.fill_between(sizes, [r["good_band"][0] for r in rows], [r["good_band"][2] for r in rows], color=CLEAR_BAND, label="clear, trees of one size, p10 to p90")
    for key, color, name in (("overcast", DULL, "overcast, middle tree"), ("dry", DRY, "clear, a fifth of the soil's water, middle tree"), ("good", CLEAR, "clear, middle tree")):
        known = [(r["dbh_cm"], r[key]) for r in rows if r[key] is not None]
        ax.plot(*zip(*known), color=color, label=name)
    good = {r["dbh_cm"]: r["good"] for r in rows}
    for fold, until, name in (("sizes_25_95", 95, "to 95 cm and 140 cm: at most 1.6 and 1.8 times the shortest"), ("sizes_25_140", 140, None)):
        height = facts[fold]["bar"][1] * min(h for d, h in good.items() if 25 <= d <= until)
        ax.plot([25, until], [height] * 2, color=FACT, linewidth=1, linestyle=(0, (4, 3)), label=name)

    def bar(at, low, high, color, mark):
        ax.errorbar([at], [(low + high) / 2], yerr=[[(high - low) / 2]] * 2, color=color, capsize=4, linewidth=1.2, fmt="none", label=mark)

    bar(142, *facts["hours_very_large"]["bar"], CLEAR, "bars of the facts (clear: practice)")
    bar(145, *[good[140] * f for f in facts["overcast_140"]["bar"]], DULL, None)
    bar(52, *[good[50] * f for f in facts["overcast_50"]["bar"]], DULL, None)
    bar(148, *[good[140] * f for f in facts["dry_soil"]["bar"]], DRY, None)
    ax.set_xlabel("trunk diameter at breast height, cm")
    ax.set_ylabel("hours until the dose is in, valves open at 9 o'clock")
    ax.set_xlim(18, 162)
    ax.set_ylim(0, 18)
    ax.legend(frameon=False, fontsize=8, loc="upper right")
    save(figure, source, "uptake-size.svg")


def day_picture(said, facts, source):
    figure, (rate, share) = plt.subplots(1, 2, figsize=(9, 3.8))
    for key, color, band, name in (("overcast_140", DULL, DULL_BAND, "overcast"), ("good_140", CLEAR, CLEAR_BAND, "clear")):
        rows = said[key]["half_hours"]
        middle = [9 + r["hour"] - 0.25 for r in rows]
        ends = [9.0] + [9 + r["hour"] for r in rows]
        rate.fill_between(middle, [r["rate_l_h"][0] for r in rows], [r["rate_l_h"][2] for r in rows], color=band, alpha=0.7, linewidth=0)
        rate.plot(middle, [r["rate_l_h"][1] for r in rows], color=color, label=f"{name}, p50 of trees, band p10 to p90")
        low, mid, high = ([0.0] + [100 * r["share"][k] for r in rows] for k in range(3))
        share.fill_between(ends, low, high, color=band, alpha=0.7, linewidth=0)
        share.plot(ends, mid, color=color)
    rate.set_ylabel("uptake of all ports, L/h")
    share.set_ylabel(f"taken up, % of {said['good_140']['dose_l']:.0f} L")
    low, high = (100 * x for x in facts["share_first_55_min"]["bar"])
    share.errorbar([9 + 55 / 60], [(low + high) / 2], yerr=[[(high - low) / 2]] * 2, color=FACT, capsize=4, fmt="none")
    share.annotate("practice: a fifth to a third\nin 55 minutes", (9 + 55 / 60, high), xytext=(12.3, 12), fontsize=7, arrowprops={"arrowstyle": "-", "linewidth": 0.6})
    share.errorbar([9 + sum(facts["hours_very_large"]["bar"]) / 2], [101], xerr=[[1.5], [1.5]], color=FACT, capsize=4, fmt="none")
    share.text(9 + sum(facts["hours_very_large"]["bar"]) / 2, 104, "practice: whole in 3 to 6 h", ha="center", fontsize=7)
    share.set_ylim(0, 110)
    rate.set_ylim(0, None)
    for ax in (rate, share):
        ax.set_xlim(9, 19)
        ax.set_xlabel("o'clock, sun's time")
    rate.legend(frameon=False, fontsize=8, loc="upper right")
    save(figure, source, "uptake-day.svg")


def drivers_picture(said, source):
    cases = said["drivers"]
    names = sorted(next(iter(cases.values()))["shares"], key=lambda name: max(c["shares"][name] for c in cases.values()))
    names = [n for n in names if max(c["shares"][n] for c in cases.values()) >= 0.015]
    figure, ax = plt.subplots(figsize=(8, 0.42 * len(names) + 1.6))
    height = 0.8 / len(cases)
    for i, ((case, c), color) in enumerate(zip(cases.items(), (CLEAR, DULL, "#d9a27f", DRY))):
        at = [row + 0.4 - height * (i + 0.5) for row in range(len(names))]
        together = 1 - sum(max(0.0, s) for s in c["shares"].values())
        ax.barh(at, [100 * max(0.0, c["shares"][n]) for n in names], height=0.9 * height, color=color,
                label=f"{case}: sd of ln hours {c['ln_sd']:.2f}; {100 * max(0.0, together):.0f} % by several together")
    ax.set_yticks(range(len(names)), names)
    ax.set_xlabel("share of the variance of ln hours between trees that one parameter makes alone, %")
    ax.set_xlim(0, None)
    ax.legend(frameon=False, fontsize=8, loc="lower right")
    save(figure, source, "uptake-drivers.svg")


def main():
    build, source = sys.argv[1:3]
    said = json.loads(subprocess.run([os.path.join(build, "fact-curves"), os.path.join(source, "models")], check=True, capture_output=True, text=True).stdout)
    with open(os.path.join(source, "models/facts.json"), encoding="utf-8") as f:
        facts = json.load(f)["facts"]
    size_picture(said, facts, source)
    day_picture(said, facts, source)
    drivers_picture(said, source)
    return 0


if __name__ == "__main__":
    sys.exit(main())
