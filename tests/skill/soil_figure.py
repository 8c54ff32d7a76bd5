#!/usr/bin/env python3
"""Picture of docs/model/soil.md: the ground's water at four stations, measured, and forecast from each issue day.

  soil_figure.py sapdraw-soil-skill SOURCE_FOLDER

Needs python3-matplotlib (Debian) and SAPDRAW_OUTSIDE_DATA.
"""
import datetime as dt, os, subprocess, sys, tempfile

import matplotlib

matplotlib.use("Agg")
matplotlib.rcParams.update({"svg.hashsalt": "sapdraw", "svg.fonttype": "none", "font.size": 9, "axes.spines.top": False, "axes.spines.right": False})
import matplotlib.pyplot as plt

import soil_skill as skill

# Well and badly followed: median, good, an autumn drier than spring, a silent gauge.
STATIONS = (("53926", "Oklahoma"), ("63838", "Kentucky"), ("54796", "Rhode Island"), ("63850", "Georgia"))
MEASURED, SAID = "#222222", "#b5541c"


def main():
    data = os.environ.get("SAPDRAW_OUTSIDE_DATA", "")
    if not os.path.exists(os.path.join(data, "soil", "score.py")):
        print("skipped: SAPDRAW_OUTSIDE_DATA does not point to a folder with soil/score.py")
        return 0
    record = os.path.join(data, "soil", "uscrn_daily_2020_even_wban.csv")
    with tempfile.TemporaryDirectory() as folder:
        fit, out = os.path.join(folder, "fit.csv"), os.path.join(folder, "out.csv")
        skill.scorer(data, "prepare", record, "--out", fit)
        subprocess.run([sys.argv[1], fit, "--out", out], check=True)
        said = {(r["station"], r["date"]): float(r["swc_0_35"]) for r in skill.rows_of(out)}
    measured = {}
    for r in skill.rows_of(record):
        if all(r[c] for c in ("swc5", "swc10", "swc20")) and r["date"] >= "2020-05-01" and r["date"] <= "2020-11-01":
            measured[r["wban"], r["date"]] = (75 * float(r["swc5"]) + 75 * float(r["swc10"]) + 200 * float(r["swc20"])) / 350
    figure, axes = plt.subplots(2, 2, figsize=(8.5, 5.0), sharex=True)
    for axis, (station, place) in zip(axes.flat, STATIONS):
        days = [dt.date(2020, 5, 1) + dt.timedelta(days=i) for i in range(185)]
        axis.plot(days, [measured.get((station, str(d)), float("nan")) for d in days], color=MEASURED, lw=1.0, label="measured")
        first = True
        for (name, date), theta in sorted(said.items()):
            issue = dt.date.fromisoformat(date) - dt.timedelta(days=7)
            if name != station or (station, str(issue)) not in measured:
                continue
            axis.plot([issue, dt.date.fromisoformat(date)], [measured[station, str(issue)], theta], color=SAID, lw=1.2, marker="o", markevery=[1], ms=4,
                      label="said seven days before" if first else None)
            first = False
        axis.axvline(dt.date(2020, 7, 15), color="#999999", lw=0.8, ls=":")
        axis.set_title(f"{station}, {place}", loc="left", fontsize=9)
        axis.set_ylim(0, 0.5)
        axis.xaxis.set_major_formatter(matplotlib.dates.DateFormatter("%b"))
    for axis in axes[:, 0]:
        axis.set_ylabel("water, 0-35 cm, m3/m3")
    axes[0, 1].legend(frameon=False, fontsize=8, loc="upper right")
    figure.tight_layout()
    figure.savefig(os.path.join(sys.argv[2], "docs", "figures", "soil-probe.svg"), metadata={"Date": None})
    return 0


if __name__ == "__main__":
    sys.exit(main())
