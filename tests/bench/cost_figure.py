"""How the cost of `sapdraw days` grows with trees, days and draws: measured, drawn as an SVG.

  python3 tests/bench/cost_figure.py build/release/sapdraw FIGURE.svg

Each row doubles one thing and keeps the others. Times are of one run of this script on one thread, best of three, as multiples of the
row's first. A straight line through the first and last point is drawn with each row, and the largest departure from it is printed.
"""
import pathlib
import subprocess
import sys
import tempfile
import time

from stand import lay_out

ROWS = [
    ("trees", [2, 4, 8, 16, 32], lambda n: dict(trees=n, days=6, draws=256)),
    ("days", [2, 4, 6, 8, 12], lambda n: dict(trees=8, days=n, draws=256)),
    ("draws", [256, 512, 1024, 2048, 4096], lambda n: dict(trees=4, days=6, draws=n)),
]
WIDTH, HEIGHT, LEFT, BOTTOM, TOP = 300, 240, 46, 40, 28


def seconds(program, trees, days, draws):
    with tempfile.TemporaryDirectory() as folder:
        command = [program, *lay_out(pathlib.Path(folder), trees, 2, days), "--draws", str(draws), "--threads", "1", "--json"]
        shortest = float("inf")
        for _ in range(3):
            begin = time.perf_counter()
            subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
            shortest = min(shortest, time.perf_counter() - begin)
        return shortest


def panel(offset, name, values, multiples):
    """One row as a small chart; x from 0, y from 0."""
    x = lambda v: offset + LEFT + (WIDTH - LEFT - 14) * v / values[-1]
    y = lambda m: HEIGHT - BOTTOM - (HEIGHT - BOTTOM - TOP) * m / multiples[-1]
    parts = [f'<path d="M{x(0):.1f},{y(multiples[-1]):.1f} V{y(0):.1f} H{x(values[-1]):.1f}" fill="none" stroke="black"/>',
             f'<path d="M{x(values[0]):.1f},{y(multiples[0]):.1f} L{x(values[-1]):.1f},{y(multiples[-1]):.1f}" stroke="gray" '
             'stroke-dasharray="4 3"/>',
             f'<text x="{offset + WIDTH / 2:.0f}" y="{HEIGHT - 8}" text-anchor="middle">{name}</text>',
             f'<text x="{offset + LEFT - 6:.0f}" y="{TOP - 12}">times the cost of {values[0]} {name}</text>']
    for value, multiple in zip(values, multiples):
        parts.append(f'<circle cx="{x(value):.1f}" cy="{y(multiple):.1f}" r="3.5"/>')
        parts.append(f'<text x="{x(value):.1f}" y="{HEIGHT - BOTTOM + 14}" text-anchor="middle" font-size="10">{value}</text>')
        parts.append(f'<text x="{offset + LEFT - 6}" y="{y(multiple) + 3:.1f}" text-anchor="end" font-size="10">{multiple:.1f}</text>')
    return parts


def main(program, figure):
    parts = []
    for index, (name, values, setting) in enumerate(ROWS):
        times = [seconds(program, **setting(n)) for n in values]
        multiples = [t / times[0] for t in times]
        slope = (times[-1] - times[0]) / (values[-1] - values[0])
        off = max(abs(t / (times[0] + slope * (n - values[0])) - 1.0) for n, t in zip(values, times))
        print(f"{name}: " + ", ".join(f"{n}: {m:.2f}" for n, m in zip(values, multiples)) + f"; off the straight line by {100 * off:.0f} % at most")
        parts += panel(index * WIDTH, name, values, multiples)
    svg = (f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH * len(ROWS)} {HEIGHT}" font-family="sans-serif" font-size="12">\n'
           f'<rect width="100%" height="100%" fill="white"/>\n' + "\n".join(parts) + "\n</svg>\n")
    pathlib.Path(figure).write_text(svg)


if __name__ == "__main__":
    main(*sys.argv[1:3])
