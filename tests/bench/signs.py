"""Times one run of `tenwinters signs` over a stock list of 500 rows, as HTML and as PDF, by the sign printed.

usage: signs.py PROGRAM
"""
import csv
import pathlib
import re
import subprocess
import sys
import tempfile
import time

from figures import keep_figure

ROWS = 500
program = pathlib.Path(sys.argv[1]).resolve()
root = pathlib.Path(__file__).resolve().parents[2]
names = [re.search(r"^name: *\"?([^\"\n]*)", path.read_text(), re.M).group(1) for path in sorted((root / "catalog/cultivars").glob("*.yaml"))]
with tempfile.TemporaryDirectory() as folder:
    stock = pathlib.Path(folder, "stock.csv")
    with stock.open("w", newline="") as out:
        table = csv.writer(out)
        table.writerow(["cultivar", "pot size", "price", "quantity"])
        for row in range(ROWS):
            table.writerow([names[row % len(names)], "5 gal", f"${20 + row % 60}.95", 1 + row % 9])
    took_html = None
    for label, extra in (("HTML", []), ("HTML and PDF", ["--pdf"])):
        start = time.perf_counter()
        run = subprocess.run([program, "signs", "--stock", stock, "--out", f"{folder}/out", *extra], cwd=root, capture_output=True, text=True)
        took = time.perf_counter() - start
        if run.returncode != 0:
            sys.exit(f"signs failed: {run.stderr}")
        if took_html:
            keep_figure("500 signs with PDF", took, took_html, "s", "the same without")
        took_html = took
        print(f"signs: {ROWS} pot tags, {label}: {took:.1f} s, {1000 * took / ROWS:.1f} ms a sign")
