"""Draws the eight worked sink drains at random and counts how often the stub lies beyond its limits.

Every term gets its own independent normal error; each draw runs the whole chain again, so nothing of the closed
formula is used. Writes drain_mc.json beside this file. Needs numpy; the seed is fixed.

    python make_drain_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260509
MEASURED = dict(counter=1 / 8, thick=1 / 16, depth=1 / 16, shell=1 / 16, conn=1 / 8, trap=3 / 8, fall=1 / 16, stub=1 / 8)
NOT_CHOSEN = dict(counter=1 / 4, thick=1 / 8, depth=3 / 4, shell=1 / 8, conn=3 / 4, trap=1 / 2, fall=1 / 8, stub=1 / 4)

# name, counter, offset, depth, shell, connection drop, trap drop, run, stub, spread
CASES = [
    ("EX1", 36, 1.25, 10, 0.75, 6.5, 3, 18, 18, MEASURED),
    ("EX2", 36, -0.25, 8, 1 / 16, 3, 1.5, 18, 20, MEASURED),
    ("EX3", 36, 1.1875, 9, 1 / 16, 6.5, 3, 15, 16, MEASURED),
    ("EX4", 36, -0.25, 6, 1 / 16, 3, 1.5, 12, 6, MEASURED),
    ("EX5", 36, 1.1875, 8.5, 1 / 16, 6.5, 3, 20, 15.75, MEASURED),
    ("EX6", 34, 1.5, 6.5, 1 / 16, 3, 1.5, 24, 17, MEASURED),
    ("EX7", 36, 1.25, 9, 1 / 16, 6.5, 3, 18, 17, NOT_CHOSEN),
    ("EX8", 36, 1.25, 10, 0.75, 3, 1.5, 18, 18.5, MEASURED),
]
SLOPE, TRAP, SEAL, SEAL_MOST, TO_WEIR = 0.25, 1.5, 2.25, 4.0, 24.0


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for name, counter, offset, depth, shell, drop, trap, run, stub, spread in CASES:
        def around(mean, term):
            return rng.normal(mean, spread[term], DRAWS)

        outlet = around(counter, "counter") - around(offset, "thick") - around(depth, "depth")
        fall = around(SLOPE * run / 12, "fall")
        practical = outlet - around(shell, "shell") - around(drop, "conn") - around(trap, "trap") - fall
        there = around(stub, "stub")
        cases.append({
            "id": name,
            "over_practical": float(np.mean(there > practical)),
            "over_seal": float(np.mean(there > practical + SEAL_MOST - SEAL)),
            "too_low": float(np.mean(there < outlet - TO_WEIR + TRAP / 2 - fall)),
        })
    out = {
        "source": "make_drain_mc.py beside this file; independent normal errors, the whole chain drawn anew each time",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": cases,
    }
    path = pathlib.Path(__file__).with_name("drain_mc.json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
