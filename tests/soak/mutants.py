#!/usr/bin/env python3
"""Breaks the science one small way at a time and sees whether the tests notice.

  python3 tests/soak/mutants.py [--count 96] [--seed 1] [--jobs 2] [--minutes 40] [--only TEXT] [--report FILE]

A mutant changes one token of src/{air,soil,tree,uptake,days}: a constant by a tenth, a sign, a comparison, min for max, a factor or a
summand dropped. Mutants are sampled over the folders by their lines. Each is built in a copy of the tree and met by the tests of its own
folder, then by those of the folders that use it and by the facts; it dies when one of them fails, does not end, or does not run. What
does not compile is drawn anew. Prints a line for each mutant and the score; survivors with their line, for somebody to look at.
"""
import argparse
import concurrent.futures
import pathlib
import random
import re
import shutil
import subprocess
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDERS = ["air", "soil", "tree", "uptake", "days"]
# Tests in the order in which they are asked: those of the folder first.
ASKED = {
    "air": ["air", "reference", "days"],
    "soil": ["soil", "reference", "uptake", "days"],
    "tree": ["tree", "uptake", "days", "app"],
    "uptake": ["uptake", "days", "app"],
    "days": ["days", "app"],
}
SUM = re.compile(r" [+-] [A-Za-z_][\w.\->]*(?:\([^()]*\))?(?=[;,) ])")
FACTOR = re.compile(r"(?<=[\w)]) \* [A-Za-z_][\w.\->]*(?:\([^()]*\))?(?=[;,) ])")


def places(line):
    """Every (begin, end, replacement, kind) that makes a mutant of a line of code."""
    code = re.sub(r'"(?:[^"\\]|\\.)*"', lambda m: "~" * len(m.group()), line.split("//")[0])
    if not code.strip() or code.lstrip().startswith(("#", "using", "namespace", "template", "typedef", "static_assert")):
        return []
    # A member's zero before it is filled is no statement: a test of its own holds that every parameter is filled.
    if re.match(r"\s*(?:[\w:<>]+ )+\w+ = 0\.0(?:, \w+ = 0\.0)*;\s*$", code):
        return []
    found = []
    for m in re.finditer(r"(?<![\w.])(\d+\.\d+(?:e-?\d+)?|\d+e-?\d+)(?![\w.])", code):
        value = float(m.group())
        found.append((m.start(), m.end(), repr(value * 1.1 if value else 0.1), "constant"))
    for one, other, kind in ((" + ", " - ", "sign"), (" - ", " + ", "sign"), (" * ", " / ", "sign"), (" / ", " * ", "sign"),
                             (" < ", " > ", "comparison"), (" > ", " < ", "comparison"), (" <= ", " > ", "comparison"),
                             (" >= ", " < ", "comparison"), (" == ", " != ", "comparison"), (" && ", " || ", "comparison")):
        for m in re.finditer(re.escape(one), code):
            found.append((m.start(), m.end(), other, kind))
    for m in re.finditer(r"\b(min|max)\(", code):
        found.append((m.start(1), m.end(1), "max" if m.group(1) == "min" else "min", "comparison"))
    for pattern in (SUM, FACTOR):
        for m in re.finditer(pattern, code):
            found.append((m.start(), m.end(), "", "dropped term"))
    return found


def all_mutants():
    mutants = []
    for folder in FOLDERS:
        for file in sorted((ROOT / "src" / folder).glob("*.*")):
            if file.suffix not in (".h", ".cpp"):
                continue
            for number, line in enumerate(file.read_text().splitlines()):
                for begin, end, new, kind in places(line):
                    mutants.append((folder, file.relative_to(ROOT), number, begin, end, new, kind))
    return mutants


class Worker:
    """A copy of the tree with a build of its own."""

    def __init__(self, folder):
        self.root = folder / "tree"
        shutil.copytree(ROOT, self.root, ignore=shutil.ignore_patterns("build", ".git"))
        flags = "-O1 -DDOCTEST_CONFIG_SUPER_FAST_ASSERTS"
        self.run(["cmake", "-S", ".", "-B", "build", "-G", "Ninja", "-DSAPDRAW_TESTS=ON", "-DCMAKE_BUILD_TYPE=None", f"-DCMAKE_CXX_FLAGS={flags}"])
        targets = sorted({f"test-{name}" for names in ASKED.values() for name in names})
        if self.run(["cmake", "--build", "build", "-j1", "--target", *targets]).returncode != 0:
            raise SystemExit("mutants: the unchanged tree does not build")
        for target in targets:
            if self.run([f"build/{target}"], 600).returncode != 0:
                raise SystemExit(f"mutants: {target} fails on the unchanged tree")

    def run(self, command, seconds=900):
        try:
            return subprocess.run(command, cwd=self.root, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, timeout=seconds, errors="replace")
        except subprocess.TimeoutExpired:
            return subprocess.CompletedProcess(command, 124, "did not end")

    def fate(self, mutant):
        folder, path, number, begin, end, new, _ = mutant
        file = self.root / path
        unchanged = file.read_text()
        lines = unchanged.splitlines(keepends=True)
        lines[number] = lines[number][:begin] + new + lines[number][end:]
        file.write_text("".join(lines))
        try:
            for name in ASKED[folder]:
                if self.run(["cmake", "--build", "build", "-j1", "--target", f"test-{name}"]).returncode != 0:
                    return "does not compile"
                ran = self.run([f"build/test-{name}", "--abort-after=1", "--no-intro=1"], 240)
                if ran.returncode != 0:
                    # Passing cases speak too, in messages: the one meant stands last before the first fault.
                    before = re.split(r"(?:FATAL )?ERROR:", ran.stdout)[0]
                    cases = re.findall(r"TEST CASE: +(.*)", before)
                    return f"killed by {name}: {cases[-1] if cases else ran.stdout.strip()[-80:]}"
            return "SURVIVED"
        finally:
            file.write_text(unchanged)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--count", type=int, default=96)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--minutes", type=float, default=40.0)
    parser.add_argument("--only", default="", help="only mutants whose file holds this text")
    parser.add_argument("--report", type=pathlib.Path)
    given = parser.parse_args()
    dice = random.Random(given.seed)
    queue = [m for m in all_mutants() if given.only in str(m[1])]
    dice.shuffle(queue)
    begun = time.monotonic()
    told = []

    def tell(mutant, fate):
        folder, path, number, begin, end, new, kind = mutant
        line = (ROOT / path).read_text().splitlines()[number]
        text = f"{path}:{number + 1}: {kind}: `{line[begin:end].strip()}` -> `{new.strip()}`  {fate}\n      {line.strip()}"
        told.append((fate, text))
        print(text, flush=True)

    with tempfile.TemporaryDirectory(prefix="mutants-") as scratch:
        def work(index):
            worker = Worker(pathlib.Path(scratch) / str(index))
            while queue and sum(f != "does not compile" for f, _ in told) < given.count and time.monotonic() - begun < 60 * given.minutes:
                mutant = queue.pop()
                fate = worker.fate(mutant)
                if fate != "does not compile":
                    tell(mutant, fate)

        with concurrent.futures.ThreadPoolExecutor(given.jobs) as pool:
            for done in [pool.submit(work, index) for index in range(given.jobs)]:
                done.result()
    killed = sum(fate != "SURVIVED" for fate, _ in told)
    score = f"{killed} of {len(told)} mutants killed ({100.0 * killed / max(1, len(told)):.0f} %) in {(time.monotonic() - begun) / 60:.0f} minutes"
    print(score)
    if given.report:
        given.report.write_text("\n".join(text for _, text in told) + "\n" + score + "\n")


if __name__ == "__main__":
    main()
