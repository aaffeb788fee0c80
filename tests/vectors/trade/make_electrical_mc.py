"""Draws floor areas and clear distances at random and counts how often a limit is passed.

Panel: the floor area gets a normal error, and every draw runs the whole load again, step and all; nothing of the
inverted formula is used. Working space: depth, width and height get independent normal errors, and a draw is beyond
when any of them is short. Writes electrical_mc.json beside this file. Needs numpy; the seed is fixed.

    python make_electrical_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260511
LIGHTING, CIRCUIT = 3.0, 1500.0
# name, method, area, two sigma of it, circuits, appliances, cooling, heating, service amperes, volts
PANELS = [
    ("existing", "A", 1500, 150, 3, 23_500, 0, 0, 74, 240),
    ("at the step", "A", 800, 200, 3, 1_100, 0, 0, 34, 240),
    ("added cooling", "B", 1800, 300, 3, 20_000, 5_000, 3_000, 91, 240),
    ("added heat, 208 V", "B", 1200, 120, 3, 14_000, 2_000, 9_600, 112, 208),
    ("optional", "82", 2000, 400, 3, 22_700, 5_760, 15_000, 122, 240),
]
# name, depth, width, height with two sigma each
SPACES = [
    ("at two limits", (36, 0.5), (30, 0.5), (84, 0.5)),
    ("a little more", (36.25, 0.5), (30.125, 0.5), (78.5, 1.0)),
    ("hasty", (37, 2.0), (31, 2.0), (79, 2.0)),
    ("short", (35, 1.0), (36, 1.0), (80, 1.0)),
]


def loads(method, area, circuits, appliances, cooling, heating):
    connected = LIGHTING * area + CIRCUIT * circuits + appliances
    first, climate = 8_000.0, max(cooling, heating)
    if method == "A":
        climate = 0.0
    if method == "82":
        # one heated zone beside the air conditioner: 65 % of the heat
        first, climate = 10_000.0, max(cooling, 0.65 * heating)
    return np.where(connected > first, first + 0.4 * (connected - first), connected) + climate


def main():
    rng = np.random.default_rng(SEED)
    panels, spaces = [], []
    for name, method, area, two, circuits, appliances, cooling, heating, amperes, volts in PANELS:
        drawn = rng.normal(area, two / 2, DRAWS)
        load = loads(method, drawn, circuits, appliances, cooling, heating)
        panels.append({
            "id": name,
            "load": float(loads(method, np.array(float(area)), circuits, appliances, cooling, heating)),
            "over": float(np.mean(load > amperes * volts)),
        })
    for name, *readings in SPACES:
        short = np.zeros(DRAWS, dtype=bool)
        for (mean, two), least in zip(readings, (36, 30, 78)):
            short |= rng.normal(mean, two / 2, DRAWS) < least
        spaces.append({"id": name, "over": float(np.mean(short))})
    out = {
        "source": "make_electrical_mc.py beside this file; normal errors, the whole load drawn anew each time",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "panels": panels,
        "spaces": spaces,
    }
    path = pathlib.Path(__file__).with_name("electrical_mc.json")
    path.write_text(json.dumps(out, indent=1) + "\n")


if __name__ == "__main__":
    main()
