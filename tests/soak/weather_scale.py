#!/usr/bin/env python3
"""300 sites in 120 cells against a server that takes 80 ms an answer: calls as planned, time near what the rates allow, nothing asked twice.

  python3 tests/soak/weather_scale.py [BUILD_DIR]

The National Weather Service is asked for a place, a grid, alerts, stations and a station's week for every cell, MET Norway for a forecast, NCEI for
the gauges around; each service by its own rate. The floor is the slowest service's calls over its rate. Prints each figure beside its bar.
"""
import json
import pathlib
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / "build/release").resolve()
SITES, CELLS = 300, 120
RATES = {"nws": 20, "met-norway": 10, "daily-rain": 10}


def routes(scratch, samples, modified):
    """One grid and one station a cell, so that nothing is shared by chance."""
    api = "https://api.weather.gov"
    for n in range(CELLS):
        at = point_of(n)
        lat, lon = (float(x) for x in at.split(","))
        (scratch / f"points-{at}.json").write_text(json.dumps({"properties": {
            "gridId": "MAP", "gridX": n, "gridY": 1, "timeZone": "America/New_York", "forecastGridData": f"{api}/gridpoints/MAP/{n},1",
            "observationStations": f"{api}/gridpoints/MAP/{n},1/stations"}}))
        (scratch / f"stations-{n}.json").write_text(json.dumps(
            {"features": [{"geometry": {"coordinates": [lon, lat]}, "properties": {"stationIdentifier": f"K{n:03}"}}]}))
    report = {"geometry": {"coordinates": [-72.6, 42.4]}, "properties": {"station": "K", "timestamp": "2026-07-15T12:53:00Z", "rawMessage": "coded",
              "temperature": {"unitCode": "wmoUnit:degC", "value": 21.0}, "dewpoint": {"unitCode": "wmoUnit:degC", "value": 12.0}}}
    geo = "application/geo+json"
    return [
        {"path": r"/points/(.*)$", "file": str(scratch / "points-{0}.json"), "type": geo},
        {"path": r"/gridpoints/MAP/(\d+),1/stations", "file": str(scratch / "stations-{0}.json"), "type": geo},
        {"path": r"/gridpoints/MAP/\d+,1$", "file": str(samples / "nws-grid.json"), "type": geo, "modified": modified},
        {"path": "/alerts/", "body": json.dumps({"features": []}), "type": geo},
        {"path": "/stations/", "body": json.dumps({"features": [report]}), "type": geo},
        {"path": "/complete", "file": str(samples / "met-forecast.json"), "modified": modified},
        {"path": "/search/", "body": json.dumps({"results": []})},
    ]


def point_of(cell):
    """The middle of the cell as the program writes it: twentieths of a degree."""
    lat, lon = (40 * 20 + cell % 12) / 20, -(73 * 20 + cell // 12) / 20
    return f"{lat:g},{lon:g}"


def main():
    samples = ROOT / "weather-samples"
    failed = False
    with tempfile.TemporaryDirectory() as scratch:
        scratch = pathlib.Path(scratch)
        (scratch / "routes.json").write_text(json.dumps(routes(scratch, samples, "Wed, 15 Jul 2026 12:29:00 GMT")))
        (scratch / "asked.log").write_text("")
        server = subprocess.Popen(["python3", str(ROOT / "tests/support/weather_server.py"), "--control", str(scratch / "routes.json"), "--log",
                                   str(scratch / "asked.log"), "--latency-ms", "80"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
        at = f'"http://127.0.0.1:{server.stdout.readline().strip()}"'
        (scratch / "config.toml").write_text(
            f'contact = "office@trees.example"\n[weather.address]\nnws = {at}\nmet-norway = {at}\ndaily-rain = {at}\n[weather.calls_per_second]\n'
            + "".join(f"{service} = {rate}\n" for service, rate in RATES.items()))
        rows = []
        for n in range(SITES):
            lat, lon = (float(x) for x in point_of(n % CELLS).split(","))
            rows.append(f"t{n},,Ulmus americana,60,{lat + 0.002 * (n // CELLS):.4f},{lon:.4f},100,America/New_York,loam\n")
        (scratch / "trees.csv").write_text("tree,name,species,dbh_cm,lat,lon,elevation_m,zone,soil\n" + "".join(rows))

        def run(now):
            (scratch / "asked.log").write_text("")
            began = time.monotonic()
            ran = subprocess.run([str(BUILD / "sapdraw"), "weather", "--json", "--trees", "trees.csv", "--config", "config.toml", "--cache", "cache",
                                  "--history", "history", "--models", str(ROOT / "models"), "--now", now], cwd=scratch, capture_output=True, text=True)
            seconds = time.monotonic() - began
            asked = [json.loads(line)["path"] for line in (scratch / "asked.log").read_text().splitlines()]
            places = json.loads(ran.stdout)["places"]
            came = [told["came"] for place in places for told in place["services"]]
            return seconds, asked, came, ran.returncode

        def say(what, figure, bar, good):
            nonlocal failed
            failed = failed or not good
            print(f"{what:<44} {figure:>12}   {bar}{'' if good else '   MISSED'}")

        seconds, asked, came, code = run("2026-07-15T13:30Z")
        of_nws = sum(not path.startswith(("/complete", "/search")) for path in asked)
        plan = {"nws": 5 * CELLS, "met-norway": CELLS, "daily-rain": CELLS}
        floor = max(plan[service] / RATES[service] for service in plan)
        say("exit", code, "0", code == 0)
        say("calls of the first morning", len(asked), f"{sum(plan.values())} planned", len(asked) == sum(plan.values()))
        say("of them National Weather Service", of_nws, f"{plan['nws']} planned", of_nws == plan["nws"])
        say("seconds", f"{seconds:.1f}", f"at most 1.15 x {floor:.1f}, which the rates allow", seconds <= 1.15 * floor)
        seconds, asked, came, code = run("2026-07-15T13:31Z")
        say("calls straight after", len(asked), "0", not asked)
        print(f"  in {seconds:.1f} s")
        seconds, asked, came, code = run("2026-07-16T09:30Z")
        say("calls of the next morning", len(asked), f"at most {3 * CELLS + 2 * CELLS} (grid, alerts, station, MET Norway, gauges)", len(asked) <= 5 * CELLS)
        say("of them answered 'nothing new'", came.count("unchanged"), f"{2 * CELLS}", came.count("unchanged") == 2 * CELLS)
        say("a station's hours asked for anew", sum("observations?start=2026-07-15" in path for path in asked), f"{CELLS}: since yesterday only",
            sum("observations?start=2026-07-15" in path for path in asked) == CELLS)
        server.kill()
    sys.exit(failed)


if __name__ == "__main__":
    main()
