"""Places recessed lights at random and counts how often one meets a joist or does not find its height.

Every size gets its own independent normal error, "±x" read as two standard deviations; each draw is laid out anew.
Lights are marked Type IC, so only the joists beside them and the height of the bay count. Writes light_mc.json
beside this file. Needs numpy; the seed is fixed.

    python make_light_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260512
JOIST, CLIP = 1.5, 0.25

# name, from the joist ±, spacing ±, cut-out ±, body ±, board ±, bay ±
CASES = [
    ("middle-of-the-bay", (8, 1 / 2), (16, 1 / 4), (6.25, 1 / 16), (6, 1 / 8), (0.5, 1 / 16), (5.5, 1 / 8)),
    ("by-the-near-joist", (4.25, 1 / 2), (16, 1 / 4), (6.25, 1 / 16), (6.5, 1 / 8), (0.5, 1 / 16), (7.25, 1 / 8)),
    ("by-the-far-joist", (12, 1 / 4), (16, 1 / 2), (6.25, 1 / 8), (6, 1 / 8), (0.625, 1 / 16), (7.25, 1 / 8)),
    ("narrow-bay", (6, 1), (12, 1 / 2), (9.5, 1 / 16), (5, 1 / 8), (0.5, 1 / 16), (5.5, 1 / 4)),
    ("low-bay", (8, 1 / 2), (16, 1 / 4), (4.25, 1 / 16), (6, 1 / 4), (0.5, 1 / 16), (5.375, 1 / 4)),
]


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for name, offset, spacing, cut_out, body, board, bay in CASES:
        def around(reading):
            return rng.normal(reading[0], reading[1] / 2, DRAWS)

        at, wide, hole = around(offset), around(spacing), around(cut_out)
        half = hole / 2 + CLIP + JOIST / 2
        meets = (at < half) | (wide - at < half)
        high = around(body) - around(board) > around(bay)
        cases.append({
            "id": name,
            "offset": offset,
            "spacing": spacing,
            "cut_out": cut_out,
            "body": body,
            "board": board,
            "bay": bay,
            "beyond": float(np.mean(meets | high)),
        })
    out = {
        "source": "make_light_mc.py beside this file; independent normal errors, each draw laid out anew",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": cases,
    }
    path = pathlib.Path(__file__).with_name("light_mc.json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
