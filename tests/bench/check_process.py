#!/usr/bin/env python3
"""`tenwinters check` as a whole process beside `cat` of the same files into nothing, by turns.

  python3 tests/bench/check_process.py build/bench/tenwinters

Prints the quickest of each and their ratio: the quickest, because other work on the machine only ever adds.
"""
import os
import subprocess
import sys
import time

from figures import keep_figure

ROUNDS = 21


def seconds(command):
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


def main():
    program = os.path.abspath(sys.argv[1])
    files = [os.path.join(folder, name) for folder, _, names in os.walk('catalog') for name in names
             if name.endswith(('.yaml', '.md', '.csv'))]
    check, read = [], []
    for _ in range(ROUNDS):
        check.append(seconds([program, 'check']))
        read.append(seconds(['cat'] + files))
    keep_figure('check, whole process', min(check) * 1000, 50, 'ms', 'limit')
    keep_figure('check, whole process, beside reading', min(check) * 1000, min(read) * 1000, 'ms', 'cat of its files')
    print(f'tenwinters check: {min(check) * 1000:.1f} ms; cat of its {len(files)} files: {min(read) * 1000:.1f} ms; '
          f'ratio {min(check) / min(read):.1f}')


if __name__ == '__main__':
    main()
