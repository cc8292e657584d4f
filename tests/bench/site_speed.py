"""How long the site takes to build, beside its peers; what an edit costs; how both grow with places.

usage: site_speed.py FOLDER_OF_THE_PROGRAM [PART...]     parts: peers edits places large

Prints one line a figure: name, value, ratio, peer or limit. Times are of the wall clock, each the best of several
runs, since other work on the machine only ever adds; `cpu` is what the process itself used.
"""
import json
import os
import pathlib
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

from figures import keep_figure

ROUNDS = 5
PLACES = (10, 20, 40, 80, 100)
LARGE_PLACES, LARGE_CULTIVARS = 200, 500

folder = pathlib.Path(sys.argv[1]).resolve()
program = folder / "tenwinters"
parts = sys.argv[2:] or ["peers", "edits", "places", "large"]
root = pathlib.Path(__file__).resolve().parents[2]


def say(name, value, ratio="", peer=""):
    print(f"{name:<44} {value:>14} {ratio:>8} {peer}", flush=True)


def run(arguments, cwd):
    """Seconds, seconds of processor time, peak memory in MB."""
    start = time.perf_counter()
    process = subprocess.Popen([str(each) for each in arguments], cwd=cwd, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    told = process.stderr.read()
    _, status, usage = os.wait4(process.pid, 0)
    took = time.perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode != 0:
        sys.exit(f"{' '.join(map(str, arguments))} failed: {told}")
    return took, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def best(runs):
    return tuple(min(column) for column in zip(*runs))


def size_of(path):
    files = [each for each in path.rglob("*") if each.is_file()]
    return len(files), sum(each.stat().st_size for each in files) / 1e6


def project(scratch):
    for name in ("catalog", "site-templates"):
        shutil.copytree(root / name, scratch / name)
    return scratch


def in_memory():
    """A folder in memory for what is set beside peers: a disk is several times slower for a while after it has removed files."""
    shared = "/dev/shm"
    return shared if os.path.isdir(shared) and shutil.disk_usage(shared).free > 1e9 else None


def build(scratch, out, rounds=1):
    runs = []
    for _ in range(rounds):
        shutil.rmtree(scratch / out, ignore_errors=True)
        runs.append(run([program, "site", "--out", out], scratch))
    return best(runs)


def peers(scratch):
    ours, cpu, memory = build(scratch, "ours", ROUNDS)
    files, size = size_of(scratch / "ours")
    say("full build", f"{1000 * ours:.0f} ms", "", f"{files} files, {size:.1f} MB; cpu {1000 * cpu:.0f} ms, peak {memory:.0f} MB")
    copies = []
    for _ in range(ROUNDS):
        shutil.rmtree(scratch / "copy", ignore_errors=True)
        copies.append(run(["cp", "-r", "ours", "copy"], scratch))
    copy = best(copies)[0]
    say("full build beside cp -r of its output", f"{1000 * ours:.0f} ms", f"{ours / copy:.1f}", f"cp -r {1000 * copy:.0f} ms; wish: at most 4")
    keep_figure("site: full build", 1000 * ours, 1000 * copy, "ms", "cp -r of its output, at most 4")
    with open(scratch / "models.json", "w") as out:
        subprocess.run([folder / "tenwinters_models", folder], check=True, stdout=out)
    answer = subprocess.run(["node", root / "tests/bench/site_peer.mjs", scratch / "models.json", root / "site-templates", scratch / "ours", scratch / "theirs"],
                            capture_output=True, text=True)
    if answer.returncode != 0:
        sys.exit(f"site_peer.mjs: {answer.stderr or answer.stdout}")
    node = json.loads(answer.stdout)
    say("mustache and commonmark: pages the same", f"{node['pages']}", "", "to the byte")
    say("full build beside theirs, rendering alone", f"{1000 * ours:.0f} ms", f"{node['best'] / 1000 / ours:.2f}",
        f"node {node['best']:.0f} ms, without the engine's and the models' work; wish: at least 10")
    say("full build beside theirs, reading to writing", f"{1000 * ours:.0f} ms", f"{node['whole'] / 1000 / ours:.2f}", f"node {node['whole']:.0f} ms, from the models on")
    printed = json.loads(subprocess.run([folder / "tenwinters_models", folder, "--time"], check=True, capture_output=True, text=True).stdout)
    say("rendering from the models beside theirs", f"{printed['one']:.1f} ms", f"{node['best'] / printed['one']:.1f}", f"node {node['best']:.0f} ms; like with like, one thread each; wish: at least 10")
    keep_figure("site: full build beside Node's", 1000 * ours, node["whole"], "ms", "mustache and commonmark from the models on, at most 0.1")
    keep_figure("site: pages from models", printed["one"], node["best"], "ms", "mustache and commonmark, at most 0.1")
    say("rendering from the models, all cores", f"{printed['all']:.1f} ms", f"{node['best'] / printed['all']:.1f}", f"node {node['best']:.0f} ms")


def append(path, text):
    path.write_text(path.read_text() + text)


def set_figure(path, key, figure):
    text, count = re.subn(rf"({key}: {{best: )[-\d.]+", rf"\g<1>{figure}", path.read_text(), count=1)
    assert count == 1, key
    path.write_text(text)


def set_word(at, found, number):
    path = at / "catalog/words/en.yaml"
    text, count = re.subn(found, rf"\1 {number}", path.read_text())
    assert count == 1, found
    path.write_text(text)


EDIT_LIMIT_MS = 100
EDITS = (
    ("prose", lambda at, n: append(at / "catalog/prose/en/cultivars/owari.md", f"\nEdit {n}.\n")),
    ("a page's template", lambda at, n: append(at / "site-templates/cultivar.mustache", f"<!-- {n} -->\n")),
    ("every page's template", lambda at, n: append(at / "site-templates/foot.mustache", f"<!-- {n} -->\n")),
    ("style sheet", lambda at, n: append(at / "site-templates/assets/style.css", f"\np {{ --n: {n} }}\n")),
    ("a word of every page", lambda at, n: set_word(at, r'(site_title: "Which citrus)[^"\n]*', n)),
    ("a word of a few pages", lambda at, n: set_word(at, r'(taste_as_wished: "[^"\n]*?)(?: \d+)?(?=")', n)),
    ("a type's line, on pages and sheets", lambda at, n: set_word(at, r'(  trifoliate: \{[^\n]*?line: "[^"\n]*?)(?: \d+)?(?=")', n)),
    ("a cultivar's figure", lambda at, n: set_figure(at / "catalog/cultivars/owari.yaml", "heat_units_c", 2000 + n)),
    ("a type's figure", lambda at, n: set_figure(at / "catalog/types/satsuma.yaml", "hardened", -9 - n / 100)),
)


def edits(scratch):
    log = scratch / "log"
    with open(log, "w") as out:
        process = subprocess.Popen([program, "site", "--out", "watched", "--watch"], cwd=scratch, stdout=out, stderr=out)
    builds = lambda: re.findall(r"shown after (\d+) ms, (\d+) of \d+ files written after (\d+) ms", log.read_text())

    def wait_for(count):
        end = time.monotonic() + 60
        while len(builds()) < count:
            if time.monotonic() > end:
                sys.exit(f"no build {count}: {log.read_text()}")
            time.sleep(0.02)
        return builds()[-1]

    def used():
        fields = pathlib.Path(f"/proc/{process.pid}/stat").read_text().rsplit(")", 1)[1].split()
        return (int(fields[11]) + int(fields[12])) * 1000 / os.sysconf("SC_CLK_TCK")

    wait_for(1)
    number = 0
    for name, edit in EDITS:
        shown, written, cpus = [], [], []
        for _ in range(ROUNDS):
            number += 1
            before = used()
            edit(scratch, number)
            one = wait_for(number + 1)
            shown.append(int(one[0])), written.append(int(one[2])), cpus.append(used() - before)
        keep_figure(f"watch: edit of {name}", min(shown), EDIT_LIMIT_MS, "ms", "limit")
        say(f"watch: edit of {name}, shown", f"{min(shown)} ms", f"{min(shown) / EDIT_LIMIT_MS:.2f}",
            f"limit {EDIT_LIMIT_MS} ms; median {sorted(shown)[ROUNDS // 2]} ms; {one[1]} files written after {min(written)} ms; cpu with noticing {min(cpus):.0f} ms")
    before, start = used(), time.perf_counter()
    time.sleep(3)
    say("watch: processor while nothing changes", f"{(used() - before) / 10 / (time.perf_counter() - start):.1f} %")
    process.send_signal(signal.SIGINT)
    if process.wait() != 0:
        sys.exit("the watch did not end well")
    for name, edit in EDITS:
        runs = []
        for _ in range(3):
            number += 1
            edit(scratch, number)
            runs.append(run([program, "site", "--out", "watched"], scratch))
        took, cpu, _ = best(runs)
        say(f"fresh process: edit of {name}", f"{1000 * took:.0f} ms", "", f"cpu {1000 * cpu:.0f} ms")


def with_places(scratch, count):
    """The demo office's two places again and again, under invented names."""
    text = (root / "catalog/offices/demo/office.yaml").read_text()
    head, rest = text.split("\nplaces:\n")
    blocks, tail = rest.split("\nrules:\n")
    blocks = re.split(r"\n(?=- id: )", blocks)
    places = []
    for i in range(count):
        block = blocks[i % len(blocks)]
        block = re.sub(r"- id: (\w+)", rf"- id: invented_{i}", block)
        block = re.sub(r"name: \{en: [^,]*, es: [^}]*\}", f"name: {{en: Invented {i}, es: Inventado {i}}}", block)
        places.append(re.sub(r"share: [0-9.]+", f"share: {1 / count:.6f}", block))
    (scratch / "catalog/offices/demo/office.yaml").write_text(head + "\nplaces:\n" + "\n".join(places) + "\nrules:\n" + tail)


def with_cultivars(scratch, count):
    cultivars = sorted((root / "catalog/cultivars").glob("*.yaml"))
    for i in range(count - len(cultivars)):
        original = cultivars[i % len(cultivars)]
        text = re.sub(r"^id: .*", f"id: invented_{i}", original.read_text(), flags=re.M)
        text = re.sub(r"^name: .*", f"name: Invented {i}", text, flags=re.M)
        text = re.sub(r"^(synonyms|misspellings|look_alikes): .*", r"\1: []", text, flags=re.M)
        (scratch / f"catalog/cultivars/invented_{i}.yaml").write_text(text)


def places(scratch):
    last = None
    for count in PLACES:
        with_places(scratch, count)
        took, cpu, memory = build(scratch, "many", 2 if count < 80 else 1)
        files, size = size_of(scratch / "many")
        ratio = f"{cpu / last[0]:.2f}" if last else ""
        say(f"{count} places", f"{took:.1f} s", ratio,
            f"cpu {cpu:.1f} s, peak {memory:.0f} MB{' (%.2f times)' % (memory / last[1]) if last else ''}, {files} files, {size:.0f} MB; "
            + (f"{count / last[2]:.2f} times the places; in proportion or less" if last else ""))
        if last:
            keep_figure(f"site: {count} places, a place", cpu / count, last[0] / last[2], "s", f"a place of {last[2]}, in proportion 1")
        last = (cpu, memory, count)
        shutil.rmtree(scratch / "many")


def large(scratch):
    with_places(scratch, LARGE_PLACES)
    with_cultivars(scratch, LARGE_CULTIVARS)
    took, cpu, memory = build(scratch, "large")
    files, size = size_of(scratch / "large")
    keep_figure(f"site: {LARGE_PLACES} places, {LARGE_CULTIVARS} cultivars", memory, 4096, "MB at its peak", "our own limit")
    say(f"{LARGE_PLACES} places, {LARGE_CULTIVARS} cultivars, two languages", f"{took:.1f} s", "", f"cpu {cpu:.1f} s on {os.cpu_count()} cores, peak {memory:.0f} MB, {files} files, {size:.0f} MB")


print(f"# load of the machine at the start: {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores")
for part in parts:
    with tempfile.TemporaryDirectory(dir=in_memory() if part == "peers" else None) as name:
        {"peers": peers, "edits": edits, "places": places, "large": large}[part](project(pathlib.Path(name)))
