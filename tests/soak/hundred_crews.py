#!/usr/bin/env python3
"""A hundred crews told their day through servers of this machine: how long `morning --evening` takes, and that everybody was told once.
    /usr/bin/python3 tests/soak/hundred_crews.py build/release/sapdraw
Seventy crews by a gateway over HTTPS, thirty by mail with TLS, login, set-up sheets and calendar; 150 bookings in the fair week of
weather-samples, on SQLite. Needs openssl and python3-aiosmtpd. It prints seconds; nothing but the counts is checked."""
import csv, io, json, os, pathlib, subprocess, sys, tempfile, time

program = os.path.abspath(sys.argv[1])
top = pathlib.Path(__file__).resolve().parents[2]
crews, mailed, jobs = 100, 30, 150
now, day = "2026-07-13T23:00Z", "2026-07-14"


def run(*arguments, **more):
    return subprocess.run(arguments, check=True, capture_output=True, text=True, **more)


def certificates(folder):
    ec = ["-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes"]
    run("openssl", "req", "-x509", *ec, "-days", "2", "-subj", "/CN=Tests", "-keyout", "ca.key", "-out", "ca.pem", cwd=folder)
    run("openssl", "req", *ec, "-subj", "/CN=localhost", "-keyout", "server.key", "-out", "server.csr", cwd=folder)
    (pathlib.Path(folder) / "names").write_text("subjectAltName=DNS:localhost,IP:127.0.0.1\n")
    run("openssl", "x509", "-req", "-in", "server.csr", "-CA", "ca.pem", "-CAkey", "ca.key", "-CAcreateserial", "-days", "2", "-extfile", "names", "-out",
        "server.pem", cwd=folder)


def peer(script, folder, *arguments):
    child = subprocess.Popen(["/usr/bin/python3", "-B", "-W", "ignore", str(top / "tests" / "post" / script), "--log", f"{folder}/{script}.log", "--certificate",
                              f"{folder}/server.pem", "--key", f"{folder}/server.key", *arguments], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    return child, int(child.stdout.readline())


def table(header, rows):
    out = io.StringIO()
    csv.writer(out).writerows([header.split(","), *rows])
    return out.getvalue()


def fill(book, folder):
    def bring(words, header, rows):
        file = pathlib.Path(folder) / "rows.csv"
        file.write_text(table(header, rows))
        run(program, *words, "import", str(file), "--book", book, "--now", "2026-07-12T15:00Z")

    bring(["crew"], "id,name,phone,email,road,texts_agreed_on",
          [[f"C{i}", f"Crew {i}", f"555-{1000 + i}", f"c{i}@crews.example", "email" if i < mailed else "text", "2026-05-01"] for i in range(crews)])
    bring(["site"], "id,name,lat,lon,elevation_m,zone,soil,water,address",
          [[f"S{i}", f"Place {i}", 43.62 + 0.001 * i, -91.98 + 0.001 * i, 320, "America/Chicago", "loam", "none" if i % 3 else "tap", f"{i} Elm St"] for i in range(jobs)])
    bring(["tree"], "id,site,name,species,dbh_cm,measured_on,dose_l",
          [[f"T{i}", f"S{i}", "north elm", "American elm", 60 + i % 80, "2026-05-04", 1.78 * (60 + i % 80)] for i in range(jobs)])
    bring(["booking"], "id,tree,crew,day,start,state",
          [[f"J{i}", f"T{i}", f"C{i % crews}", day, "07:00" if i < crews else "13:00", "confirmed"] for i in range(jobs)])


def main():
    with tempfile.TemporaryDirectory() as folder:
        certificates(folder)
        gateway, gateway_port = peer("gateway.py", folder)
        mail, mail_port = peer("mail_server.py", folder, "--tls", "starttls")
        book = f"{folder}/book.sqlite"
        fill(book, folder)
        config = pathlib.Path(folder) / "config.toml"
        config.write_text(f"""[post]
sending = "on"
texts = "http"
[post.http]
address = "https://localhost:{gateway_port}/ok"
body = "json"
json = '{{"to": "{{to}}", "text": "{{text}}", "key": "{{key}}"}}'
idempotency_header = "Idempotency-Key"
ca_file = "{folder}/ca.pem"
[post.smtp]
host = "localhost"
port = {mail_port}
user = "office"
secret_variable = "MAIL_PASSWORD"
from = "office@crews.example"
ca_file = "{folder}/ca.pem"
""")
        os.environ["MAIL_PASSWORD"] = "right"
        seconds = []
        for _ in range(2):  # the second time everybody has been told
            began = time.monotonic()
            done = subprocess.run([program, "morning", "--evening", "--book", book, "--config", str(config), "--weather", str(top / "weather-samples/fair-week.json"),
                                   "--now", now], capture_output=True, text=True)
            seconds.append(time.monotonic() - began)
            if done.returncode:
                print(done.stdout[-2000:], done.stderr[-2000:])
        texts = [json.loads(json.loads(line)["body"])["to"] for line in open(f"{folder}/gateway.py.log")]
        mails = [json.loads(line) for line in open(f"{folder}/mail_server.py.log")]
        gateway.stdin.close()
        mail.stdin.close()
        print(f"{len(texts)} texts to {len(set(texts))} crews, {len(mails)} mails; {seconds[0]:.1f} s, once more {seconds[1]:.1f} s")
        good = len(texts) == len(set(texts)) == crews - mailed and len(mails) == mailed and done.returncode == 0
        print(f"{int(good)} passed, {int(not good)} failed")
        sys.exit(not good)


main()
