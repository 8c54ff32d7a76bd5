#!/usr/bin/env python3
"""Skill of sapdraw-soil-skill on open soil-moisture records, by the scoring program that lies with the data.

  soil_skill.py sapdraw-soil-skill            every station: a loam for all, generic and fitted, beside persistence and a bucket
  soil_skill.py sapdraw-soil-skill --short    the suite's form: three stations, bars with slack

Looks for the data where SAPDRAW_OUTSIDE_DATA points; without it says so and does nothing. Exit 1 where a bar is missed.
Skill is 1 - SSE / SSE of persistence from the issue day, so persistence has 0. The bucket: one store between the driest and the wettest
tenth shown before the forecasts, filled by rain, emptied by its share of Hargreaves' ET0; nothing fitted. Standard library only.
"""
import csv, datetime as dt, json, math, os, subprocess, sys, tempfile, time

HIDE = "2020-07-15"
SHORT = ("63838", "53926", "3758")
MODELS = (("loam", ["--texture", "loam"]), ("generic", ["--generic"]), ("fitted", []))


def scorer(data, *words):
    done = subprocess.run([sys.executable, os.path.join(data, "soil", "score.py"), *words], capture_output=True, text=True, check=True)
    return json.loads(done.stdout) if words[0] == "score" else None


def rows_of(path):
    with open(path, newline="") as f:
        return list(csv.DictReader(f))


def hargreaves_mm(row):
    """FAO-56 eq. 52 with extraterrestrial radiation by eq. 21-25."""
    if not row["tmax_c"] or not row["tmin_c"]:
        return 0.0
    high, low, day = float(row["tmax_c"]), float(row["tmin_c"]), dt.date.fromisoformat(row["date"]).timetuple().tm_yday
    lat, tilt = math.radians(float(row["latitude"])), 0.409 * math.sin(2 * math.pi * day / 365 - 1.39)
    sunset = math.acos(max(-1.0, min(1.0, -math.tan(lat) * math.tan(tilt))))
    sun = 37.6 * (1 + 0.033 * math.cos(2 * math.pi * day / 365)) * (sunset * math.sin(lat) * math.sin(tilt) + math.cos(lat) * math.cos(tilt) * math.sin(sunset))
    return max(0.0, 0.0023 * ((high + low) / 2 + 17.8) * math.sqrt(max(0.0, high - low)) * 0.408 * sun)


def bucket(fit, out):
    stations = {}
    for row in rows_of(fit):
        stations.setdefault(row["station"], []).append(row)
    with open(out, "w") as f:
        f.write("station,date,swc_0_35\n")
        for station, days in stations.items():
            shown = sorted(float(r["swc_0_35"]) for r in days if r["swc_0_35"] and r["date"] < HIDE)
            if not shown:
                continue
            dry, wet = shown[0], shown[int(0.9 * (len(shown) - 1))]
            water = None
            for r in days:
                if r["swc_0_35"]:
                    water = float(r["swc_0_35"])
                    continue
                if water is None:
                    continue
                water += (float(r["precip_mm"] or 0.0) - hargreaves_mm(r) * max(0.0, min(1.0, (water - dry) / (wet - dry)))) / 350.0
                water = max(dry, min(wet, water))
                if r["date"] > HIDE:
                    f.write(f"{station},{r['date']},{water:.4f}\n")


def by_station(record, predicted):
    """Skill and root mean square errors by station, as score.py has them, and the pairs behind them."""
    said = {(r["station"], r["date"]): float(r["swc_0_35"]) for r in rows_of(predicted) if r["swc_0_35"]}
    measured, east = {}, set()
    for r in rows_of(record):
        if all(r[c] for c in ("swc5", "swc10", "swc20")):
            measured[r["wban"], r["date"]] = (75 * float(r["swc5"]) + 75 * float(r["swc10"]) + 200 * float(r["swc20"])) / 350
        if float(r["longitude"]) > -100:
            east.add(r["wban"])
    issues = [dt.date.fromisoformat(HIDE) + dt.timedelta(days=i) for i in range(0, 102, 10)]
    result = {}
    for station in {s for s, _ in said}:
        a = b = n = 0
        for day in issues:
            at, then = (station, str(day)), (station, str(day + dt.timedelta(days=7)))
            if at in measured and then in measured and then in said:
                a += (said[then] - measured[then]) ** 2
                b += (measured[at] - measured[then]) ** 2
                n += 1
        if n >= 5 and b:
            result[station] = (1 - a / b, math.sqrt(a / n), math.sqrt(b / n), station in east)
    return result


def short(program, data):
    """Three stations: every forecast made, and bars a little below what was measured when this was written."""
    record = os.path.join(data, "soil", "uscrn_daily_2020_even_wban.csv")
    with tempfile.TemporaryDirectory() as folder:
        few = os.path.join(folder, "few.csv")
        with open(record) as f, open(few, "w") as g:
            g.writelines(line for i, line in enumerate(f) if i == 0 or line.split(",")[0] in SHORT)
        fit = os.path.join(folder, "fit.csv")
        scorer(data, "prepare", few, "--out", fit)
        checks = []
        for name, options in MODELS:
            out = os.path.join(folder, name + ".csv")
            subprocess.run([program, fit, "--out", out, *options], check=True)
            r = scorer(data, "score", few, out)
            checks.append((f"{name}: a forecast for every issue day", r["missing"] == 0 and r["stations"] == len(SHORT), r))
            if name != "loam":
                checks.append((f"{name}: pooled skill >= 0.75", r["pooled_skill_east"] >= 0.75, r))
    for name, met, r in checks:
        if not met:
            print(f"NOT SO: {name}: {r}")
    failed = sum(not met for _, met, _ in checks)
    print(f"{len(checks) - failed} passed, {failed} failed")
    return 1 if failed else 0


def main():
    data = os.environ.get("SAPDRAW_OUTSIDE_DATA", "")
    if not os.path.exists(os.path.join(data, "soil", "score.py")):
        print("skipped: SAPDRAW_OUTSIDE_DATA does not point to a folder with soil/score.py")
        if "--short" in sys.argv:
            print("1 passed, 0 failed")
        return 0
    program = sys.argv[1]
    if "--short" in sys.argv:
        return short(program, data)
    record = os.path.join(data, "soil", "uscrn_daily_2020_even_wban.csv")
    skills, totals = {}, {}
    with tempfile.TemporaryDirectory() as folder:
        fit = os.path.join(folder, "fit.csv")
        scorer(data, "prepare", record, "--out", fit)
        for name, options in (("bucket", None), *MODELS):
            out = os.path.join(folder, name + ".csv")
            begin = time.monotonic()
            if options is None:
                bucket(fit, out)
            else:
                subprocess.run([program, fit, "--out", out, *options], check=True)
            totals[name] = {"seconds": time.monotonic() - begin, **scorer(data, "score", record, out)}
            skills[name] = by_station(record, out)
    names = list(skills)
    print(f"{'station':8} {'':5} rmse, m3/m3: {'persistence':>12}" + "".join(f"{n:>9}" for n in names) + "   skill:" + "".join(f"{n:>9}" for n in names))
    for station, (_, _, persistence, east) in sorted(skills["fitted"].items(), key=lambda kv: (not kv[1][3], -kv[1][0])):
        rows = [skills[n][station] for n in names]
        print(f"{station:8} {'east' if east else 'west':5} {persistence:26.4f}" + "".join(f"{r[1]:9.4f}" for r in rows) + "         " + "".join(f"{r[0]:9.2f}" for r in rows))
    for name, r in totals.items():
        print(f"{name:8} {r}")
    bars = [("generic: median skill east of 100 W >= 0.66", totals["generic"]["median_skill_east"], 0.66),
            ("fitted: median skill east of 100 W >= 0.80", totals["fitted"]["median_skill_east"], 0.80)]
    missed = 0
    for name, figure, bar in bars:
        missed += figure < bar
        print(f"{'met   ' if figure >= bar else 'MISSED'} {figure:8.4f}  {name}")
    slowest = max(r["seconds"] for r in totals.values())
    print(f"{'met   ' if slowest <= 60 else 'MISSED'} {slowest:8.1f}  seconds a file <= 60")
    return 1 if missed or slowest > 60 else 0


if __name__ == "__main__":
    sys.exit(main())
