"""Bores studs and joists at random and counts how often a hole is larger than share and edges leave.

Every size gets its own independent normal error, "±x" read as two standard deviations; each draw is held against
the rules themselves (IRC R602.6 for studs, R502.8.1 for joists), so nothing of the summed formula is used. Writes
bore_mc.json beside this file. Needs numpy; the seed is fixed.

    python make_bore_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260511
MIDDLE_SIGMA = 1 / 16  # a hole aimed at the middle of the member

# kind, share of the depth, depth ±, pipe ±, clearance ±, middle of the hole from an edge ± or None
CASES = [
    ("bearing-at-the-limit", "stud-bearing", (3.5, 1 / 8), (1.3125, 1 / 16), (0.0625, 1 / 16), None),
    ("bearing-near", "stud-bearing", (5.5, 1 / 8), (2.125, 1 / 16), (0.0625, 1 / 16), None),
    ("doubled-in-the-middle", "stud-doubled", (3.5, 1 / 16), (1.9, 1 / 16), (0.125, 1 / 16), None),
    ("doubled-off-the-middle", "stud-doubled", (3.5, 1 / 8), (1.9, 1 / 16), (0.0625, 1 / 16), (1.625, 1 / 8)),
    ("both-limits", "stud-doubled", (3.25, 1 / 8), (1.875, 1 / 8), (0.0625, 1 / 16), (1.5625, 1 / 8)),
    ("not-bearing-old-stud", "stud-not-bearing", (3.625, 1 / 4), (1.9, 1 / 8), (0.125, 1 / 8), (1.75, 1 / 4)),
    ("joist-by-edges", "joist", (5.5, 1 / 8), (1.375, 1 / 16), (0.0625, 1 / 16), None),
    ("joist-by-share", "joist", (7.25, 1 / 4), (2.375, 1 / 16), (0.0625, 1 / 16), (3.5, 1 / 8)),
]
RULES = {  # share of the depth, wood kept at an edge
    "stud-bearing": (0.40, 0.625),
    "stud-doubled": (0.60, 0.625),
    "stud-not-bearing": (0.60, 0.625),
    "joist": (1 / 3, 2.0),
}


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for name, kind, depth, pipe, clearance, center in CASES:
        def around(reading):
            return rng.normal(reading[0], reading[1] / 2, DRAWS)

        share, edge = RULES[kind]
        deep = around(depth)
        hole = around(pipe) + around(clearance)
        middle = deep / 2 + rng.normal(0, MIDDLE_SIGMA, DRAWS) if center is None else around(center)
        thin = np.minimum(middle - hole / 2, deep - middle - hole / 2) < edge
        cases.append({
            "id": name,
            "kind": kind,
            "depth": depth,
            "pipe": pipe,
            "clearance": clearance,
            "center": center,
            "beyond": float(np.mean((hole > share * deep) | thin)),
        })
    out = {
        "source": "make_bore_mc.py beside this file; independent normal errors, each draw held against the rules",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": cases,
    }
    path = pathlib.Path(__file__).with_name("bore_mc.json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
