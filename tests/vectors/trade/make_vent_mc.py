"""Draws vents and upright drains at random and counts how often each lies beyond what it is held against.

Every reading gets its own independent normal error, half its tolerance wide; each draw compares the drawn pipe with
the table value, so nothing of the closed formula is used. What is shared, such as the new floor under sill and vent,
is drawn once. Writes vent_mc.json beside this file. Needs numpy; the seed is fixed.

    python make_vent_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260511
FOOT = 12.0
PIPE = 1.9  # outside of 1-1/2 in plastic drain pipe


class Readings:
    """Draws a reading and keeps how it is written for the calculation: value ± two standard deviations."""

    def __init__(self, rng):
        self.rng = rng
        self.answers = []

    def words(self, **answers):
        self.answers += [[name.replace("_", "-"), text] for name, text in answers.items()]

    def draw(self, name, value, tolerance, unit=1.0):
        # Lengths asked in feet state their tolerance in inches.
        self.answers.append([name, f"{value} ± {tolerance}{' in' if unit == FOOT else ''}"])
        return self.rng.normal(value * unit, tolerance / 2, DRAWS)


def vent(r, drain, units, existing, length, flat, most, most_flat):
    r.words(drain=drain, units=units, existing=existing)
    beyond = r.draw("length", *length, FOOT) > most * FOOT
    if flat:
        beyond |= r.draw("horizontal", *flat, FOOT) > most_flat * FOOT
    return beyond


def six_inches(r, rim, flat, build_up=None):
    lowest = r.draw("flood-rim", *rim) + 6
    height = r.draw("flat-height", *flat)
    if build_up:
        r.words(read_from="old-floor")
        height = height - r.draw("build-up", *build_up)
    return height < lowest


def under_window(r, rim, sill, framing):
    lowest = r.draw("flood-rim", *rim) + 6
    return lowest + PIPE > r.draw("sill", *sill) - r.draw("sill-framing", *framing)


def under_window_from_the_old_floor(r, rim, flat, sill, framing, build_up):
    r.draw("flood-rim", *rim)
    r.words(read_from="old-floor")
    new_floor = r.draw("build-up", *build_up)
    height = r.draw("flat-height", *flat) - new_floor
    return height + PIPE > r.draw("sill", *sill) - new_floor - r.draw("sill-framing", *framing)


def squeezed(r, rim, flat, sill, framing):
    height = r.draw("flat-height", *flat)
    too_low = height < r.draw("flood-rim", *rim) + 6
    return too_low | (height + PIPE > r.draw("sill", *sill) - r.draw("sill-framing", *framing))


def trap_arm(r, length, slope, drain, diameter, longest, rim=None, flat=None):
    if rim is None:
        r.words(flood_rim="36")
    r.words(flat_slope=str(slope), drain=drain)
    arm = r.draw("flat-length", *length)
    beyond = (arm > longest) | (arm * slope / FOOT > diameter) | (arm < 2 * diameter)
    return beyond if rim is None else beyond | six_inches(r, rim, flat)


def valve(r, above):
    r.words(flood_rim="36", valve_adopted="yes")
    return r.draw("valve-height", *above) < 4


def upright(r, height, most):
    r.words(fixtures="lavatory", part="vertical", existing="1-1/2")
    return r.draw("height", *height, FOOT) > most * FOOT


# name, calculation, book, what is drawn
CASES = [
    ("40 ft, short of it", "vent-size", "ipc-2021", lambda r: vent(r, "2", "2", "1-1/4", (38, 36), None, 40, None)),
    ("40 ft, past it", "vent-size", "ipc-2021", lambda r: vent(r, "3", "9", "1-1/2", (40.5, 18), None, 40, None)),
    ("two limits", "vent-size", "upc-2012", lambda r: vent(r, "2", "8", "1-1/2", (57, 72), (19, 24), 60, 20)),
    ("third of 45 ft", "vent-size", "upc-2012", lambda r: vent(r, "1-1/2", "1", "1-1/4", (40, 30), (14.5, 20), 45, 15)),
    ("six inches", "vent-route", "ipc-2021", lambda r: six_inches(r, (36, 0.25), (42.25, 0.5))),
    ("new floor", "vent-route", "upc-2012", lambda r: six_inches(r, (36, 0.25), (42.5, 0.5), (0.75, 0.5))),
    ("window", "vent-route", "ipc-2021", lambda r: under_window(r, (36, 0.25), (47.25, 0.5), (3, 0.75))),
    (
        "window, floor cancels",
        "vent-route",
        "ipc-2021",
        lambda r: under_window_from_the_old_floor(r, (30, 0.25), (42, 0.5), (47, 0.5), (3, 0.5), (1, 2)),
    ),
    ("arm by its fall", "vent-route", "ipc-2021", lambda r: trap_arm(r, (58, 4), 0.3, "1-1/2", 1.5, 72)),
    ("valve", "vent-route", "ipc-2021", lambda r: valve(r, (4.25, 0.5))),
    ("upright drain", "drain-size", "upc-2012", lambda r: upright(r, (64, 36), 65)),
    ("arm by its length", "vent-route", "upc-2012", lambda r: trap_arm(r, (59, 4), 0.25, "2", 2, 60)),
    ("arm too short", "vent-route", "upc-2012", lambda r: trap_arm(r, (3.5, 2), 0.25, "1-1/2", 1.5, 42)),
    (
        "arm and six inches",
        "vent-route",
        "upc-2012",
        lambda r: trap_arm(r, (41, 4), 0.25, "1-1/2", 1.5, 42, (36, 0.25), (42.125, 0.5)),
    ),
    (
        "between rim and sill",
        "vent-route",
        "ipc-2021",
        lambda r: squeezed(r, (36, 0.5), (42.25, 1), (47.5, 0.5), (3, 0.5)),
    ),
]


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for name, calculation, book, drawn in CASES:
        readings = Readings(rng)
        beyond = float(np.mean(drawn(readings)))
        cases.append(
            {"id": name, "calculation": calculation, "book": book, "answers": readings.answers, "beyond": beyond}
        )
    out = {
        "source": "make_vent_mc.py beside this file; independent normal errors, every comparison drawn anew each time",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": cases,
    }
    path = pathlib.Path(__file__).with_name("vent_mc.json")
    path.write_text(json.dumps(out, indent=1, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    main()
