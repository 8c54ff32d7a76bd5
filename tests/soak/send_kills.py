#!/usr/bin/env python3
"""Kills (-9) one of two senders of an outbox at random moments, again and again:
    python3 tests/soak/send_kills.py build/release/sapdraw KILLS SEED [ROAD...]
The book is a SQLite file in a scratch folder, or the database at SAPDRAW_TEST_POSTGRESQL (tests/support/with_postgresql.sh). Roads:
  key     a gateway that knows a repeated key: every message delivered, none to more than one key's worth
  blind   one that does not: no message twice; what was cut is uncertain, and everything else was delivered once
  spool   a folder from which a daemon takes files away: every message in it exactly once
Each round queues messages, starts two senders, kills one; the other ends by itself. The next round is twenty minutes later by --now, beyond the
lease, so that what was lost is found. The suite does a few; by hand 300:
    python3 tests/soak/send_kills.py build/release/sapdraw 300 1
    sh tests/support/with_postgresql.sh python3 tests/soak/send_kills.py build/release/sapdraw 300 1"""
import collections, datetime, http.server, json, os, pathlib, random, signal, subprocess, sys, tempfile, threading, time

sys.path.insert(0, str(pathlib.Path(__file__).parent.parent / "support"))
from child_server import Server  # noqa: E402: it lies beside, not among the packages

program, kills, seed = os.path.abspath(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
roads = sys.argv[4:] or ["key", "blind", "spool"]
models = str(pathlib.Path(__file__).parent.parent.parent / "models")
dice = random.Random(seed)
a_round = 6
began = datetime.datetime(2026, 7, 6, 0, 0)


def fail(why):
    print(why)
    print("0 passed, 1 failed")
    sys.exit(1)


class Gateway(http.server.BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"

    def log_message(self, *arguments):
        pass

    def do_POST(self):
        key = json.loads(self.rfile.read(int(self.headers["Content-Length"])))["key"]
        with self.server.lock:
            self.server.taken[key] += 1
        time.sleep(self.server.slow())
        self.send_response(200)
        self.send_header("Content-Length", "0")
        self.end_headers()
        self.close_connection = True


class Daemon(threading.Thread):
    """Takes files out of a spool as a modem's daemon does."""

    def __init__(self, spool, away):
        super().__init__(daemon=True)
        self.spool, self.away, self.taken, self.wanted = spool, away, collections.Counter(), True

    def run(self):
        while self.wanted:
            self.look()
            time.sleep(0.002)

    def look(self):
        for name in os.listdir(self.spool) if os.path.isdir(self.spool) else []:
            if name.startswith("sapdraw-") and "part" not in name:
                os.rename(os.path.join(self.spool, name), os.path.join(self.away, name))
                text = open(os.path.join(self.away, name)).read()
                self.taken[text.split("\n\n")[1].strip()] += 1


def trial(road, folder, address):
    spool, away = os.path.join(folder, "spool"), os.path.join(folder, "away")
    os.mkdir(away)
    daemon = Daemon(spool, away)
    server = Server(("127.0.0.1", 0), Gateway)
    server.taken, server.lock, server.slow = collections.Counter(), threading.Lock(), lambda: random.uniform(0.0, 0.01)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    daemon.start()
    taken = daemon.taken if road == "spool" else server.taken
    config = os.path.join(folder, "config.toml")
    with open(config, "w") as out:
        out.write('[post]\nsending = "on"\n')
        if road == "spool":
            out.write(f'texts = "spool"\nspool = "{spool}"\n')
        else:
            out.write(f'texts = "http"\n[post.http]\naddress = "http://127.0.0.1:{server.server_address[1]}/"\nbody = "json"\n')
            out.write("json = '{\"key\": \"{key}\", \"to\": \"{to}\", \"text\": \"{text}\"}'\n")
            if road == "key":
                out.write('idempotency_header = "Idempotency-Key"\n')

    def words(minutes, *more):
        return [program, *more, "--models", models, "--book", address, "--now", (began + datetime.timedelta(minutes=minutes)).strftime("%Y-%m-%dT%H:%MZ")]

    def run(minutes, *more):
        ran = subprocess.run(words(minutes, *more), capture_output=True, text=True)
        if ran.returncode not in (0, 1, 4):
            fail(f"{more}: {ran.returncode}: {ran.stdout}{ran.stderr}")
        return ran.stdout

    run(0, "crew", "add", "B", "--name", "Crew B", "--phone", "+15550100", "--texts-agreed-on", "2026-01-01")
    names, killed_busy, requeued = [], 0, 0
    for round in range(kills):
        minutes = 20 * round
        made = (began + datetime.timedelta(minutes=minutes)).strftime("%Y-%m-%dT%H:%MZ")
        rows = os.path.join(folder, "rows.csv")
        with open(rows, "w") as out:
            out.write("id,crew,state,purpose,road,body,zone,day,made_at,next_try_at,not_after,tries\n")
            for _ in range(a_round):
                names.append(f"m{len(names)}")
                out.write(f"{names[-1]},B,queued,evening,text,{names[-1]},America/Chicago,2026-07-07,{made},{made},2026-12-01T00:00Z,0\n")
        run(minutes, "booking", "message", "import", rows)
        began_at = time.monotonic()
        pair = [subprocess.Popen(words(minutes, "text", "send", "--config", config), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) for _ in range(2)]
        time.sleep(dice.uniform(0.0, trial.usual))
        victim = pair[dice.randrange(2)]
        killed_busy += victim.poll() is None
        victim.send_signal(signal.SIGKILL)
        for one in pair:
            one.wait()
        trial.usual = 0.9 * trial.usual + 0.1 * max(0.02, time.monotonic() - began_at)
    for _ in range(3):
        minutes += 20
        run(minutes, "text", "send", "--config", config)
    time.sleep(0.1)
    daemon.wanted = False
    daemon.join()
    daemon.look()
    states = {one["id"]: one for one in json.loads(run(minutes, "text", "status", "--json", "--day", "2026-07-07"))["messages"]}
    count = collections.Counter(one["state"] for one in states.values())
    requests = sum(taken.values())
    for name in names:
        state, times = states[name]["state"], taken[name]
        if road == "key" and not (state == "sent" and times >= 1):
            fail(f"{road}: {name}: {state}, {times} times")
        if road == "spool" and not (state == "sent" and times == 1):
            fail(f"{road}: {name}: {state}, {times} times")
        if road == "blind" and not ((state == "sent" and times == 1) or (state == "uncertain" and times <= 1)):
            fail(f"{road}: {name}: {state}, {times} times")
    if set(taken) - set(names):
        fail(f"{road}: delivered what nobody queued: {sorted(set(taken) - set(names))[:5]}")
    if "sound" not in run(minutes, "book", "check"):
        fail(f"{road}: the book is not sound")
    lost = sum(1 for one in states.values() if one["tries"] > 1)
    maybe = sum(1 for one in states.values() if one["state"] == "uncertain" and taken[one["id"]] == 1)
    print(f"{road}: {kills} kills, {killed_busy} of a sender at work; {len(names)} messages: {dict(count)}, {requests} handed over; "
          f"{lost} found again after a kill; of those uncertain {maybe} had arrived", flush=True)
    server.shutdown()


for road in roads:
    trial.usual = 0.15
    with tempfile.TemporaryDirectory() as folder:
        address = os.environ.get("SAPDRAW_TEST_POSTGRESQL") or os.path.join(folder, "book.sqlite")
        os.environ["XDG_DATA_HOME"] = os.environ["XDG_CONFIG_HOME"] = os.environ["XDG_CACHE_HOME"] = os.path.join(folder, "own")
        if "://" in address and road != roads[0]:
            # A book of its own for each road.
            subprocess.run(["psql", address, "-qc", "SET client_min_messages = error; DROP SCHEMA public CASCADE; CREATE SCHEMA public"], check=True)
        trial(road, folder, address)
print("1 passed, 0 failed")
