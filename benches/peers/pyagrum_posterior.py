#!/usr/bin/env python3
"""Median CPU milliseconds per evidence set of pyAgrum, one thread, engine built once per network.

    pip install pyagrum
    python benches/peers/pyagrum_posterior.py bench_evidence.json NETS_DIR [--sets 20] [network ...]

Timed: set the evidence, propagate, read the posterior of every node. NETS_DIR holds NAME.json or
NAME.json.gz, as `underlath reckon` reads networks.
"""
import argparse
import gzip
import json
import pathlib
import statistics
import time

import pyagrum as gum


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


def medians(bn, sets, engine):
    names = list(bn.names())
    times = []
    for evidence in sets:
        start = time.process_time()
        engine.setEvidence(evidence)
        engine.makeInference()
        for name in names:
            engine.posterior(name)
        times.append((time.process_time() - start) * 1000.0)
    return statistics.median(times)


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("evidence", type=pathlib.Path)
    ask.add_argument("nets", type=pathlib.Path)
    ask.add_argument("network", nargs="*")
    ask.add_argument("--sets", type=int, default=20)
    given = ask.parse_args()
    bench = read(given.evidence)["nets"]
    gum.setNumberOfThreads(1)
    for name in given.network or bench:
        bn = network(read(given.nets / f"{name}.json")["nodes"])
        for kind in (gum.LazyPropagation, gum.ShaferShenoyInference):
            engine = kind(bn)
            engine.setNumberOfThreads(1)
            ms = medians(bn, bench[name][: given.sets], engine)
            print(f"{name}: pyAgrum {gum.__version__} {kind.__name__} median {ms:.3f} ms CPU", flush=True)


if __name__ == "__main__":
    main()
