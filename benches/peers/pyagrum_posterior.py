#!/usr/bin/env python3
"""Our engine beside pyAgrum, one thread each, taking turns on the same evidence sets in the same run.

    pip install pyagrum
    python benches/peers/pyagrum_posterior.py ENGINE tests/vectors/inference [network ...] [--sets 200]

ENGINE is the measuring program (`cargo bench -p inference --bench engine --no-run` builds it). Printed: median CPU
milliseconds, engines made once for each network. "all": findings of a new set in place of those before, then the
posterior of every node. "answers": the first ten findings of a set one by one, the posterior of every node after
each, together. The last column is the better library over ours. Before anything is timed, all posteriors of the
first sets are compared.
"""
import argparse
import gzip
import itertools
import json
import pathlib
import statistics
import subprocess
import sys
import time

import pyagrum as gum

NETWORKS = [
    "asia", "child", "alarm", "insurance", "hailfinder", "win95pts", "hepar2", "water", "andes", "pigs", "munin",
    "house_s", "house_m", "house_l", "house_sample",
]
ANSWERS = ["house_m", "house_l", "house_sample"]
LIBRARIES = [gum.LazyPropagation, gum.ShaferShenoyInference]
COMPARED = 3


def read(path):
    packed = path.with_name(path.name + ".gz")
    return json.loads(gzip.open(packed).read() if packed.exists() else path.read_bytes())


def noisy_or(weights, leak):
    """P(no), P(yes) for every combination of the parents, last parent fastest."""
    rows = [1.0 - leak]
    for w in weights:
        rows = [q * f for q in rows for f in (1.0, 1.0 - w)]
    return [x for q in rows for x in (q, 1.0 - q)]


def network(nodes):
    bn = gum.BayesNet()
    for n in nodes:
        bn.add(gum.LabelizedVariable(n["name"], n["name"], n["states"]))
    for n in nodes:
        # The first variable of a pyAgrum table runs fastest, so parents are added last first.
        for parent in reversed(n["parents"]):
            bn.addArc(parent, n["name"])
        if "noisy_or" in n:
            flat = noisy_or(n["noisy_or"]["weights"], n["noisy_or"]["leak"])
        else:
            flat = [x for row in n["cpt"] for x in (row if isinstance(row, list) else [row])]
        bn.cpt(n["name"]).fillWith(flat)
    return bn


class Ours:
    """Our engine, at the other end of a pipe; it tells its own CPU time."""

    name = "ours"

    def __init__(self, program):
        self.pipe = subprocess.Popen(
            [program, "beside"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, bufsize=1
        )

    def ask(self, *words):
        self.pipe.stdin.write(" ".join(map(str, words)) + "\n")
        self.pipe.stdin.flush()
        line = self.pipe.stdout.readline()
        return line or sys.exit("the measuring program has gone")

    def open(self, path, evidence, name):
        return float(self.ask("open", path, evidence, name)) / 1000.0

    def all(self, i):
        return float(self.ask("set", i)) / 1000.0

    def answers(self, i):
        return float(self.ask("answers", i)) / 1000.0

    def show(self):
        return json.loads(self.ask("show"))

    def close(self):
        self.pipe.stdin.write("close\n")
        self.pipe.stdin.flush()


class Library:
    """One of pyAgrum's engines."""

    def __init__(self, kind, bn, sets):
        self.name, self.sets = kind.__name__, sets
        self.names = list(bn.names())
        self.engine = kind(bn)
        self.engine.setNumberOfThreads(1)

    def posteriors(self):
        self.engine.makeInference()
        for name in self.names:
            self.engine.posterior(name)

    def all(self, i):
        start = time.process_time()
        self.engine.setEvidence(self.sets[i])
        self.posteriors()
        return (time.process_time() - start) * 1000.0

    def answers(self, i):
        self.engine.setEvidence({})
        self.posteriors()
        first = list(itertools.islice(self.sets[i].items(), 10))
        start = time.process_time()
        for name, state in first:
            self.engine.addEvidence(name, state)
            self.posteriors()
        return (time.process_time() - start) * 1000.0

    def show(self):
        return {name: self.engine.posterior(name).toarray().tolist() for name in self.names}


def compare(name, ours, libraries):
    """All say the same, or the figures are worth nothing."""
    answer = ours.show()
    for library in libraries:
        theirs = library.show()
        worst = max(abs(a - b) for node in answer for a, b in zip(answer[node], theirs[node]))
        if worst > 1e-9:
            sys.exit(f"{name}: {library.name} says otherwise, by {worst}")


def row(name, what, ours, libraries, count):
    times = {contender: [] for contender in [ours, *libraries]}
    for i in range(count):
        for contender in times:
            times[contender].append(getattr(contender, what)(i))
    mine, *others = (statistics.median(list_) for list_ in times.values())
    cells = "".join(f"{ms:>12.3f}" for ms in [mine, *others])
    print(f"{name:<14}{what:<9}{cells}{min(others) / mine:>9.1f}", flush=True)


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("engine", type=pathlib.Path)
    ask.add_argument("vectors", type=pathlib.Path)
    ask.add_argument("network", nargs="*")
    ask.add_argument("--sets", type=int, default=200)
    given = ask.parse_args()
    evidence = given.vectors / "bench_evidence.json"
    bench = read(evidence)["nets"]
    gum.setNumberOfThreads(1)
    print(f"pyAgrum {gum.__version__}, Python {sys.version.split()[0]}, {given.sets} sets each; median CPU ms")
    print(f"{'network':<14}{'':<9}{'ours':>12}{'Lazy':>12}{'Shenoy':>12}{'ratio':>9}")
    ours = Ours(given.engine)
    for name in given.network or NETWORKS:
        places = [given.vectors / place / f"{name}.json" for place in ("published", "nets")]
        path = next(p for p in places if p.exists() or p.with_name(p.name + ".gz").exists())
        sets = bench[name][: given.sets]
        ours.open(path, evidence, name)
        bn = network(read(path)["nodes"])
        libraries = [Library(kind, bn, sets) for kind in LIBRARIES]
        for i in range(min(COMPARED, len(sets))):
            for contender in [ours, *libraries]:
                contender.all(i)
            compare(name, ours, libraries)
        row(name, "all", ours, libraries, len(sets))
        if name in ANSWERS:
            row(name, "answers", ours, libraries, len(sets))
        ours.close()


if __name__ == "__main__":
    main()
