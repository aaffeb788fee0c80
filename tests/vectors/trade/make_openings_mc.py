"""Draws holes at random, extends each to framing centers anew, and counts how often the patches exceed an area.

Every reading (left edge, bottom, width, height) gets its own independent normal error of half its tolerance. Areas
of several patches are joined by inclusion and exclusion, not by the sweep the program uses. An edge planned on a
center or at an end of the wall is cut there and is not drawn. Writes openings_mc.json beside this file. Needs
numpy; the seed is fixed.

    python make_openings_mc.py
"""

import itertools
import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260511

# A case: spacing, first stud (None: x from a center), wall width (None: unknown), limit in square feet, and holes as
# x, y, width, height, each with its tolerance (two standard deviations).
CASES = [
    ("one hole, edges far from centers", 16, None, None, 3.5, [((3, 1), (14, 1), (9, 1), (31, 1))]),
    ("right edge half an inch short of a center", 16, None, None, 6.0, [((3, 1), (14, 1), (12.5, 1), (30, 1))]),
    ("both edges near centers", 16, None, None, 4.0, [((0.5, 1), (30, 0.5), (15, 0.5), (24, 0.5))]),
    ("left edge cut on a center", 16, None, None, 3.0, [((16, 1), (30, 1), (15.25, 1), (26, 1))]),
    ("right edge cut on a center", 16, None, None, 5.0, [((16.5, 1), (30, 1), (15.5, 1), (24, 1))]),
    ("both edges cut on centers", 16, None, None, 6.0, [((0, 1), (30, 1), (16, 1), (53.5, 1))]),
    ("wide tolerance over several bays", 16, None, None, 5.0, [((24, 12), (30, 1), (20, 8), (24, 1))]),
    ("two that overlap", 16, None, None, 6.0,
     [((3, 1), (20, 2), (10, 1), (36, 2)), ((5, 1), (50, 2), (9, 1), (24, 2))]),
    ("three, two of them overlapping, one near a center", 16, None, None, 9.0,
     [((3, 1), (20, 2), (10, 1), (36, 2)), ((5, 1), (50, 2), (20, 1), (16, 2)), ((34, 1), (4, 1), (13, 1), (12, 1))]),
    ("a wall that ends", 16, 14.5, 60, 3.6, [((2, 1), (16, 1), (12, 1), (12, 1)), ((47, 1), (16, 1), (12, 1), (12, 1))]),
    ("19.2 in spacing", 19.2, None, None, 4.0, [((18.9, 1), (10, 1), (19, 1), (20, 1))]),
]


def center(n, spacing, first, width):
    x = (first or 0.0) + n * spacing
    if first is not None:
        x = np.maximum(x, 0.0)
        if width is not None:
            x = np.minimum(x, width)
    return x


def on_center(x, spacing, first, width):
    bays = (x - (first or 0.0)) / spacing
    near = abs(bays - round(bays)) < 1e-6
    ends = first is not None and (x < 1e-6 or (width is not None and abs(x - width) < 1e-6))
    return near or ends


def patch(rng, hole, spacing, first, width):
    (x, dx), (y, dy), (w, dw), (h, dh) = hole
    left = rng.normal(x, dx / 2, DRAWS)
    right = left + rng.normal(w, dw / 2, DRAWS)
    zero = first or 0.0
    x0 = center(np.floor((left - zero) / spacing), spacing, first, width)
    x1 = center(np.ceil((right - zero) / spacing), spacing, first, width)
    if on_center(x, spacing, first, width):
        x0 = np.full(DRAWS, float(x))
    if on_center(x + w, spacing, first, width):
        x1 = np.full(DRAWS, float(x + w))
    bottom = rng.normal(y, dy / 2, DRAWS)
    return x0, bottom, x1, bottom + rng.normal(h, dh / 2, DRAWS)


def common(rects):
    wide = np.minimum.reduce([r[2] for r in rects]) - np.maximum.reduce([r[0] for r in rects])
    high = np.minimum.reduce([r[3] for r in rects]) - np.maximum.reduce([r[1] for r in rects])
    return np.maximum(wide, 0) * np.maximum(high, 0)


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for name, spacing, first, width, limit, holes in CASES:
        rects = [patch(rng, hole, spacing, first, width) for hole in holes]
        area = np.zeros(DRAWS)
        for n in range(1, len(rects) + 1):
            for some in itertools.combinations(rects, n):
                area += (-1) ** (n + 1) * common(some)
        area /= 144
        cases.append({
            "id": name,
            "spacing": spacing,
            "first": first,
            "width": width,
            "limit": limit,
            "holes": holes,
            "over": float(np.mean(area > limit)),
            "mean": float(np.mean(area)),
            "sigma": float(np.std(area)),
        })
    out = {
        "source": "make_openings_mc.py beside this file; independent normal errors, every hole extended anew each time",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": cases,
    }
    path = pathlib.Path(__file__).with_name("openings_mc.json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
