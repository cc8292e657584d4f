"""The table of RESULTS.md: every figure of ours as a ratio to a peer measured in the same run, or to its limit.

A benchmark appends lines to the file that TENWINTERS_FIGURES names: name, ours, beside, unit, what it stands
beside, by tabs. The less the better, so a ratio above that of the last kept table is slower or larger.

  figures.py FIGURES RESULTS.md           prints the table, and what is over a fifth worse than the one kept
  figures.py FIGURES RESULTS.md --keep    the same, and keeps it

Figures that were not measured this time are kept as they were. Exit status 1 if anything is over a fifth worse.
"""
import datetime
import os
import pathlib
import platform
import re
import sys

WORSE = 1.2
HEADS = ["figure", "ours", "beside", "what it stands beside", "ratio", "kept before", "measured"]


def keep_figure(name, ours, beside, unit, what):
    path = os.environ.get("TENWINTERS_FIGURES")
    if path:
        with open(path, "a") as out:
            out.write(f"{name}\t{ours:.6g}\t{beside:.6g}\t{unit}\t{what}\n")


def kept_rows(results):
    """The rows of a table that was kept, by name."""
    rows = {}
    if results.exists():
        for line in results.read_text().splitlines():
            cells = [cell.strip() for cell in line.strip("|").split("|")]
            if line.startswith("| ") and len(cells) == len(HEADS) and re.fullmatch(r"[0-9.e+-]+", cells[4]):
                rows[cells[0]] = cells
    return rows


def machine():
    model = re.search(r"model name\s*: (.*)", pathlib.Path("/proc/cpuinfo").read_text())
    return f"{model.group(1) if model else platform.machine()}, {os.cpu_count()} cores"


def main():
    figures, results = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    before, rows, worse = kept_rows(results), {}, []
    today = f"{datetime.date.today()}, load {os.getloadavg()[0]:.1f}"
    for line in figures.read_text().splitlines():
        name, ours, beside, unit, what = line.split("\t")
        ratio = float(ours) / float(beside)
        last = before[name][4] if name in before else ""
        rows[name] = [name, f"{float(ours):.4g} {unit}", f"{float(beside):.4g} {unit}", what, f"{ratio:.3g}", last, today]
        if last and ratio > WORSE * float(last):
            worse.append(f"{name}: {ratio:.3g} of its peer or limit, {float(last):.3g} when last kept")
    kept = {**before, **rows}
    widths = [max(len(row[i]) for row in [HEADS, *kept.values()]) for i in range(len(HEADS))]
    lines = ["| " + " | ".join(cell.ljust(width) for cell, width in zip(row, widths)) + " |"
             for row in [HEADS, ["-" * width for width in widths], *kept.values()]]
    text = (f"# What tools/bench measured\n\nOn {machine()}. Made by `tools/bench --keep`; not edited by hand. A ratio is ours to what it stands\n"
            "beside, a peer in the same run or a limit that the project set itself: the less the better.\n\n" + "\n".join(lines) + "\n")
    print(text)
    if "--keep" in sys.argv:
        results.write_text(text)
    if worse:
        sys.exit("Over a fifth worse than when last kept:\n" + "\n".join(worse))


if __name__ == "__main__":
    if len(sys.argv) < 3:
        sys.exit(__doc__)
    main()
