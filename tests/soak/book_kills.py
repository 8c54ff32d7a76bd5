#!/usr/bin/env python3
"""Kills (-9) one of two desks that write into one book, at random moments, again and again:
    python3 tests/soak/book_kills.py build/release/book-desk KILLS SEED
The book is a SQLite file in a scratch folder, or the database at SAPDRAW_TEST_POSTGRESQL (tests/support/with_postgresql.sh). Every change that was
acknowledged must be there, none by half, and the book sound: looked at every 25 kills and at the end. The suite runs a few; by hand 500:
    python3 tests/soak/book_kills.py build/release/book-desk 500 1
    sh tests/support/with_postgresql.sh python3 tests/soak/book_kills.py build/release/book-desk 500 1"""
import os, random, signal, subprocess, sys, tempfile, time

desk, kills, seed = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
dice = random.Random(seed)
with tempfile.TemporaryDirectory() as folder:
    address = os.environ.get("SAPDRAW_TEST_POSTGRESQL") or os.path.join(folder, "book.sqlite")
    told = os.path.join(folder, "acknowledged")
    names = 0
    desks = []

    def fail(why):
        for one in desks:
            one.kill()
        print(why)
        print("0 passed, 1 failed")
        sys.exit(1)

    def start():
        global names
        names += 1
        return subprocess.Popen([desk, "write", address, f"desk{names}"], stdout=open(told, "ab"))

    def look():
        seen = subprocess.run([desk, "verify", address, told], capture_output=True, text=True)
        if seen.returncode != 0:
            fail(seen.stdout[-3000:] + seen.stderr)
        return seen.stdout.strip().splitlines()[-1]

    desks += [start(), start()]
    for kill in range(1, kills + 1):
        time.sleep(dice.uniform(0.002, 0.15))
        victim = dice.randrange(2)
        gone = desks[victim].poll()
        if gone is not None:
            fail(f"a desk ended by itself with {gone}")
        desks[victim].send_signal(signal.SIGKILL)
        desks[victim].wait()
        desks[victim] = start()
        if kill % 25 == 0:
            print(f"{kill} kills: {look()}", flush=True)
    for one in desks:
        one.kill()
        one.wait()
    print(f"{kills} kills, {sum(1 for _ in open(told))} acknowledged changes, {look()}")
print("1 passed, 0 failed")
