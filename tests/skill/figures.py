#!/usr/bin/env python3
"""Pictures of docs/model from the open sap-flow sites: flow by hour and by dryness of air, measured and said; how often ranges hold.

  figures.py BUILD_FOLDER SOURCE_FOLDER

Needs python3-matplotlib (Debian) and SAPDRAW_OUTSIDE_DATA; hours shown are those kept from the fit.
"""
import contextlib, csv, importlib.util, io, os, subprocess, sys, tempfile

import matplotlib

matplotlib.use("Agg")
matplotlib.rcParams.update({"svg.hashsalt": "sapdraw", "svg.fonttype": "none", "font.size": 9, "axes.spines.top": False, "axes.spines.right": False})
import matplotlib.pyplot as plt

import sapflow_skill as skill

MEASURED, SAID, BAND = "#222222", "#b5541c", "#e8c3a8"


def scoring(data):
    """The scoring program's own reading of a record, so that a picture shows what a score counts."""
    spec = importlib.util.spec_from_file_location("score", os.path.join(data, "sapflow", "score.py"))
    module = importlib.util.module_from_spec(spec)
    argv, sys.argv = sys.argv, ["score.py"]
    with contextlib.redirect_stderr(io.StringIO()), contextlib.suppress(SystemExit):
        spec.loader.exec_module(module)  # ends in its own usage message; its functions are there by then
    sys.argv = argv
    return module


def unseen_hours(build, data, score, site, split, folder):
    """Rows of the test part with p10, p50, p90."""
    lat, lon, elevation, season, label = skill.SITES[site]
    record, fit, out = os.path.join(data, "sapflow", f"{site}_hourly.csv"), os.path.join(folder, "fit.csv"), os.path.join(folder, "out.csv")
    skill.scorer(data, "prepare", record, f"--lon={lon}", "--season", season, "--split", split, "--out", fit)
    subprocess.run([os.path.join(build, "sapdraw-skill"), fit, f"--lat={lat}", f"--lon={lon}", f"--elevation-m={elevation}", "--label", label, "--out", out], check=True)
    with open(out, newline="") as f:
        said = {r["time_utc"]: [float(r[k]) for k in ("p10", "p50", "p90")] for r in csv.DictReader(f)}
    rows = score.read(record, lon, season.split("..") if season != "all" else None)
    score.target(rows)
    score.fill_swc(rows)
    _, test = score.parts(rows, split)
    return [{**rows[i], "said": said[f"{rows[i]['t']:%Y-%m-%dT%H:%MZ}"]} for i in test if f"{rows[i]['t']:%Y-%m-%dT%H:%MZ}" in said]


def binned(rows, key, edges):
    mid, measured, said = [], [], []
    for low, high in zip(edges, edges[1:]):
        part = [r for r in rows if low <= r[key] < high]
        if len(part) >= 10:
            mid.append((low + high) / 2)
            measured.append(sum(r["y"] for r in part) / len(part))
            said.append([sum(r["said"][k] for r in part) / len(part) for k in range(3)])
    return mid, measured, said


def flow_picture(hours, path):
    figure, axes = plt.subplots(2, len(hours), figsize=(10, 5), sharey=True)
    for column, (site, rows) in enumerate(hours.items()):
        bright = [r for r in rows if r["sw"] > 300]
        for row, (part, key, edges, name) in enumerate(((rows, "lst", list(range(25)), "hour of the sun's day"),
                                                       (bright, "vpd", [0.25 * k for k in range(17)], "vapour pressure deficit, kPa, sun above 300 W/m2"))):
            x, measured, said = binned(part, key, edges)
            ax = axes[row][column]
            ax.fill_between(x, [s[0] for s in said], [s[2] for s in said], color=BAND, label="said, p10 to p90")
            ax.plot(x, [s[1] for s in said], color=SAID, label="said, p50")
            ax.plot(x, measured, "o", color=MEASURED, markersize=3, label="measured")
            if row == 0:
                ax.set_title(site, fontsize=9)
            if column == 0:
                ax.set_ylabel("relative sap flow")
            ax.set_xlabel(name if column == 0 else "")
    axes[0][0].legend(frameon=False, fontsize=7, loc="upper left")
    axes[0][0].set_ylim(0, None)
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None})


def calibration_picture(hours, path):
    figure, ax = plt.subplots(figsize=(5, 4))
    ax.plot([0, 1], [0, 1], color="#aaaaaa", linewidth=1)
    for (site, rows), mark in zip(hours.items(), "os^D"):
        below = [sum(r["y"] <= r["said"][k] for r in rows) / len(rows) for k in range(3)]
        ax.plot((0.1, 0.5, 0.9), below, mark, markersize=6, label=site, fillstyle="none", color=SAID if site.startswith("USA") else MEASURED)
    ax.set_xlabel("said to lie below")
    ax.set_ylabel("share of unseen hours that did")
    ax.set_xlim(0, 1)
    ax.set_ylim(0, 1)
    ax.legend(frameon=False, fontsize=8, loc="upper left")
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None})


def main():
    build, source = sys.argv[1:3]
    data = os.environ.get("SAPDRAW_OUTSIDE_DATA", "")
    if not os.path.exists(os.path.join(data, "sapflow", "score.py")):
        print("skipped: SAPDRAW_OUTSIDE_DATA does not point to a folder with sapflow/score.py")
        return 0
    score = scoring(data)
    with tempfile.TemporaryDirectory() as folder:
        hours = {site: unseen_hours(build, data, score, site, "weeks", folder) for site in skill.BARRED}
    flow_picture(hours, os.path.join(source, "docs/figures/sapflow.svg"))
    calibration_picture(hours, os.path.join(source, "docs/figures/sapflow-calibration.svg"))
    return 0


if __name__ == "__main__":
    sys.exit(main())
