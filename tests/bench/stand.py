"""An invented stand of trees for timing: TREES trees over SITES sites, each site with weather of its own, in a folder.

  python3 tests/bench/stand.py FOLDER --trees 200 --sites 20 [--days N]

Made from weather-samples/demo-fortnight.json: places are moved by a hundredth of a degree and more, temperatures by tenths, so that no
two sites share a computation. Prints the command that asks for all of them.
"""
import argparse
import json
import pathlib

ROOT = pathlib.Path(__file__).resolve().parents[2]
SOILS = ["loam", "clay loam", "silt loam", "sandy loam"]
NOW = "2026-07-06T10:30Z"
FIRST_MIDNIGHT = 1783400400  # of the first day that can be asked about: 2026-07-07 in Chicago


def lay_out(folder, trees, sites, days=None):
    """Writes the files; returns the arguments of `sapdraw` that use them."""
    folder.mkdir(parents=True, exist_ok=True)
    sample = json.loads((ROOT / "weather-samples/demo-fortnight.json").read_text())
    if days is not None:
        keep = sample["hourly"]["time"].index(FIRST_MIDNIGHT) + 24 * days + 1
        sample["hourly"] = {name: values[:keep] for name, values in sample["hourly"].items()}
    latitude, longitude, temperature = sample["latitude"], sample["longitude"], list(sample["hourly"]["temperature_2m"])
    arguments = ["days", "--now", NOW, "--trees", str(folder / "trees.csv")]
    for site in range(sites):
        sample["latitude"] = latitude + 0.03 * (site % 5)
        sample["longitude"] = longitude + 0.03 * (site // 5)
        sample["hourly"]["temperature_2m"] = [None if t is None else round(t + 0.1 * (site % 7), 2) for t in temperature]
        file = folder / f"site-{site}.json"
        file.write_text(json.dumps(sample))
        arguments += ["--weather", str(file)]
    rows = ["tree,name,species,dbh_cm,lat,lon,elevation_m,zone,soil"]
    for tree in range(trees):
        site = tree % sites
        rows.append(
            f"t{tree},Tree {tree},Ulmus americana,{40 + tree * 7 % 100},{latitude + 0.03 * (site % 5):.4f},"
            f"{longitude + 0.03 * (site // 5):.4f},{300 + site},America/Chicago,{SOILS[tree // sites % 4]}")
    (folder / "trees.csv").write_text("\n".join(rows) + "\n")
    return arguments


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("--trees", type=int, default=200)
    parser.add_argument("--sites", type=int, default=20)
    parser.add_argument("--days", type=int)
    given = parser.parse_args()
    print("build/release/sapdraw", *lay_out(given.folder, given.trees, given.sites, given.days))
