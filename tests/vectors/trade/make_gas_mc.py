"""Draws the length of gas runs at random and counts how often the load lies beyond what the pipe carries.

Each draw works out anew what the pipe carries at the length drawn, by the power of the length that the 2313 form has,
hung on the table's cell; nothing of the closed formula for the chance is used. Writes gas_mc.json beside this file.
Needs numpy; the seed is fixed.

    python make_gas_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260511

# size, length in feet, sigma of the length, cell of IFGC Table 402.4(2), load in cubic feet an hour
CASES = [
    ("3/4", 60, 1.5, 137, 135),
    ("3/4", 60, 1.5, 137, 137),
    ("3/4", 60, 3.0, 137, 140),
    ("3/4", 60, 3.0, 137, 130),
    ("1/2", 60, 2.0, 65, 65),
    ("1/2", 30, 2.0, 95, 90),
    ("1", 80, 4.0, 220, 215),
    ("1", 100, 5.0, 195, 200),
    ("1-1/4", 50, 2.5, 583, 600),
    ("3/4", 60, 1.5, 137, 200),
    ("3/4", 40, 2.0, 170, 135),
]


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for size, feet, sigma, cell, load in CASES:
        drawn = rng.normal(feet, sigma, DRAWS)
        carries = cell * (drawn / feet) ** -0.541
        cases.append({
            "size": size,
            "feet": feet,
            "sigma_feet": sigma,
            "cell_cfh": cell,
            "load_cfh": load,
            "beyond": float(np.mean(load > carries)),
            "sigma_cfh": float(np.std(carries)),
        })
    out = {
        "source": "make_gas_mc.py beside this file; normal error of the length, the capacity drawn anew each time",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": cases,
    }
    path = pathlib.Path(__file__).with_name("gas_mc.json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
