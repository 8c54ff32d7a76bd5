#!/usr/bin/env python3
"""How long a book of many trees takes to be asked: python3 tests/soak/large_book.py build/release/sapdraw [TREES]
An invented town: one treatment a tree, a twentieth of the sites near a diseased tree. Prints seconds of wall clock and megabytes of each question, the
median of five, of whole commands, start of the program included. The book is a SQLite file in a scratch folder, or the database at
SAPDRAW_TEST_POSTGRESQL (tests/support/with_postgresql.sh)."""
import os, random, resource, statistics, subprocess, sys, tempfile, time

program, trees = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 100_000
dice = random.Random(1)
with tempfile.TemporaryDirectory() as folder:
    os.environ.update(XDG_DATA_HOME=folder, XDG_CACHE_HOME=folder, HOME=folder)
    book = os.environ.get("SAPDRAW_TEST_POSTGRESQL") or os.path.join(folder, "book.sqlite")
    now = ["--now", "2026-07-06T10:30Z", "--book", book]

    def run(*arguments):
        before = time.perf_counter()
        child = subprocess.Popen([program, *arguments, *now], stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
        said = child.stdout.read()
        _, status, usage = os.wait4(child.pid, 0)
        if status != 0:
            sys.exit(f"{arguments}: {said[-500:]!r}")
        return time.perf_counter() - before, usage.ru_maxrss / 1024, said.decode()

    def table(name, header, rows):
        path = os.path.join(folder, name)
        with open(path, "w") as out:
            out.write(header + "\n")
            out.writelines(row + "\n" for row in rows)
        return path

    sites = max(1, trees // 50)
    lists = [("site", table("sites.csv", "id,name,lat,lon,elevation_m,zone,soil,disease_near_on",
                            (f"s{i},Site {i},{43 + dice.random():.4f},{-91 - dice.random():.4f},300,America/Chicago,loam,{'2026-05-01' if i % 200 == 0 else ''}" for i in range(sites)))),
             ("tree", table("trees.csv", "id,site,name,species,dbh_cm,measured_on",
                            (f"t{i},s{i % sites},Tree {i},American elm,{dice.uniform(20, 150):.1f},2025-05-01" for i in range(trees)))),
             ("record", table("treatments.csv", "tree,outcome,day", (f"t{i},done,{dice.randint(2018, 2025)}-07-{dice.randint(1, 28):02}" for i in range(trees))))]
    for kind, path in lists:
        seconds, megabytes, said = run(kind, "import", path)
        print(f"{kind} import: {said.strip()}, {seconds:.1f} s, {megabytes:.0f} MB", flush=True)
    worst_seconds = worst_megabytes = 0
    for question in (["tree", "due"], ["tree", "due", "--json"], ["tree", "show", "t777"], ["tree", "list"], ["tree", "list", "--where", "site=s7"], ["tree", "list", "--holds", "name=77777"],
                     ["record", "list", "--where", "tree=t777"], ["site", "show", "s7"], ["record", "find", "--from", "2025-07-09", "--to", "2025-07-09", "--client", "none"][:6],
                     ["book", "history"]):
        answers = [run(*question) for _ in range(5)]
        seconds, megabytes = statistics.median(a[0] for a in answers), max(a[1] for a in answers)
        worst_seconds, worst_megabytes = max(worst_seconds, seconds), max(worst_megabytes, megabytes)
        print(f"{' '.join(question)}: {seconds:.3f} s, {megabytes:.0f} MB", flush=True)
    print(f"slowest {worst_seconds:.3f} s, largest {worst_megabytes:.0f} MB")
