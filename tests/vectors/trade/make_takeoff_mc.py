"""Draws the sides of measured parts at random and takes the spread of their summed length, area or volume.

Every side gets its own independent normal error and each draw multiplies and adds anew. Lengths are inches. Writes
takeoff_mc.json beside this file. Needs numpy; the seed is fixed.

    python make_takeoff_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260512

# kind, parts: sides with their sigmas, and how many of it
CASES = [
    ("length", [([(150.5, 0.125)], 3), ([(96, 0.25)], 1)]),
    ("area", [([(144, 0.25), (96, 0.125)], 2), ([(126, 0.5), (96, 0.125)], 1)]),
    ("area", [([(48, 1), (25.5, 0.0625)], 1)]),
    ("volume", [([(144, 0.5), (120, 0.5), (4, 0.125)], 1)]),
    ("volume", [([(36, 0.25), (24, 0.25), (12, 0.25)], 6), ([(96, 0.5), (12, 0.25), (8, 0.25)], 2)]),
]


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for kind, parts in CASES:
        total = np.zeros(DRAWS)
        for sides, times in parts:
            one = np.ones(DRAWS)
            for mean, sigma in sides:
                one *= rng.normal(mean, sigma, DRAWS)
            total += times * one
        cases.append({
            "kind": kind,
            "parts": [{"sides": [list(side) for side in sides], "times": times} for sides, times in parts],
            "sigma": float(np.std(total)),
        })
    out = {
        "source": "make_takeoff_mc.py beside this file; independent normal errors, products drawn anew each time",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": cases,
    }
    path = pathlib.Path(__file__).with_name("takeoff_mc.json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
