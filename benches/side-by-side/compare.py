"""Times both sides and prints the table, as Markdown, with the machine and the day."""

import argparse
import datetime
import math
import os
import platform
import re
import subprocess
import sys
import tempfile
import time
from importlib.metadata import version
from pathlib import Path
from statistics import median

import others

ROOT = Path("../..")
UNITS = {"ns": 1e-9, "µs": 1e-6, "ms": 1e-3, "s": 1.0}


def seconds(run, least=0.5):
    """The median time of a run, of as many as fit into the time, five at least."""
    run()
    taken, end = [], time.perf_counter() + least
    while len(taken) < 5 or time.perf_counter() < end:
        begin = time.perf_counter()
        run()
        taken.append(time.perf_counter() - begin)
    return median(taken)


def of_benches(path):
    """Medians of divan by the name of the bench, and of its argument."""
    found, parent = {}, ""
    for line in open(path, encoding="utf-8") if path else ():
        name = re.match(r"^(│? *)[├╰]─ (\S+)", line)
        if not name:
            continue
        cells = [cell.strip() for cell in line[name.end():].split("│")]
        inner = bool(name[1].strip() or len(name[1]) > 1)
        parent = parent if inner else name[2]
        value = re.match(r"([\d.]+) (ns|µs|ms|s)", cells[2]) if len(cells) > 2 else None
        if value:
            found[f"{parent} {name[2]}" if inner else name[2]] = float(value[1]) * UNITS[value[2]]
    return found


def process(arguments, folder="."):
    return lambda: subprocess.run(arguments, cwd=folder, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def house_of(count):
    folder = Path(tempfile.mkdtemp())
    (folder / "house.toml").write_text('[house]\nname = "Many"\n')
    for n in range(count):
        (folder / f"card-{n}.toml").write_text(
            f'name = "Card {n}"\nmakes = "{500 + n} ml"\n[target]\nbrix = {40 + n % 25}\n[parts]\n'
            '"white sugar" = "as needed"\nwater = "as needed"\n')
    return folder


def grows(run, sizes):
    """The exponent by which the time of a run grows with its size."""
    first, last = (seconds(run(size)) for size in sizes)
    return math.log(last / first) / math.log(sizes[1] / sizes[0])


def written(value):
    if value is None:
        return "not measured"
    unit = next(unit for unit in ("s", "ms", "µs", "ns") if value >= UNITS[unit] or unit == "ns")
    return f"{value / UNITS[unit]:.3g} {unit}"


def times(ratio):
    return f"{ratio:.0f}" if ratio >= 10 else f"{ratio:.1f}"


def main():
    arguments = argparse.ArgumentParser()
    arguments.add_argument("--binary", required=True)
    arguments.add_argument("--benches")
    given = arguments.parse_args()
    binary = str(Path(given.binary).resolve())
    ours, liqueur = of_benches(given.benches), others.LIQUEUR
    sheet = others.spreadsheet(12)
    numpy = f"numpy {version('numpy')}, scipy {version('scipy')}"
    engine = f"formulas {version('formulas')}"
    alone = [sys.executable, "-c", "import others; others.solve()"]
    rows = [
        ("density of a liqueur", ours.get("density_of_a_liqueur 20"), others.partial(others.density, liqueur), numpy),
        ("density of a spirit", ours.get("density_of_a_liqueur 20"), others.coolprop(), f"CoolProp {version('CoolProp')}"),
        ("eight properties of a liqueur", ours.get("full_set liqueur"), others.partial(others.property_set, liqueur), numpy),
        ("a card of 12 parts in two stages", ours.get("solves_twelve_parts"), others.solve, numpy),
        ("the sums of 12 parts, no solving", ours.get("solves_twelve_parts"), sheet, engine),
        ("20,000 draws in four stores", ours.get("four_stores"), others.partial(others.draws, 20_000), numpy),
        ("from the command to the answer", seconds(process([binary, "solve", "lime-and-clove-liqueur.toml"], ROOT / "formulas")),
         process(alone), numpy),
    ]
    print("| work | ours | theirs | times as fast | theirs is |")
    print("|---|---:|---:|---:|---|")
    for what, own, run, by in rows:
        their = seconds(run)
        print(f"| {what} | {written(own)} | {written(their)} | {times(their / own) if own else ''} | {by} |")
    own = grows(lambda n: process([binary, "check", "."], house_of(n)), (100, 400))
    many = lambda n: lambda: [others.solve(1000.0 + i) for i in range(n)]
    print("\nTime grows with size to the power of: "
          f"ours {own:.2f} (checking 100 to 400 cards, the process with it), "
          f"numpy {grows(many, (10, 40)):.2f} (solving 10 to 40 cards) and "
          f"{grows(lambda n: others.partial(others.draws, n), (5_000, 20_000)):.2f} (5,000 to 20,000 draws), "
          f"the spreadsheet {grows(others.spreadsheet, (12, 48)):.2f} (12 to 48 parts).")
    model = next((line.split(":")[1].strip() for line in open("/proc/cpuinfo") if line.startswith("model name")), platform.machine()) \
        if os.path.exists("/proc/cpuinfo") else platform.machine()
    print(f"\n{model}, {os.cpu_count()} cores, Python {platform.python_version()}, {datetime.date.today():%-d %B %Y}.")


if __name__ == "__main__":
    main()
