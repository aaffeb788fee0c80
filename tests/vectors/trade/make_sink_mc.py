"""Draws sink drains at random where one cause enters twice: a new floor under counter and stub, two bowls on one trap.

Every quantity gets one normal error; each draw measures, lays the floor, hangs the bowls and looks where the stub then
lies, so nothing of the closed formula is used. Writes sink_mc.json beside this file. Needs numpy; the seed is fixed.

    python make_sink_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 400_000
SEED = 20260714
SLOPE, TRAP, SEAL, SEAL_MOST, TO_WEIR = 0.25, 1.5, 2.25, 4.0, 24.0
# One standard deviation in inches: measured, or of a strainer that nobody chooses beforehand.
COUNTER, THICK, DEPTH, SHELL, STRAINER, TRAP_DROP, FALL = 1 / 8, 1 / 16, 1 / 16, 1 / 16, 3 / 8, 3 / 8, 1 / 16
DISPOSER, TOE, CABINET = 1 / 8, 1 / 8, 1 / 16
STRAINER_DROP, STRAINER_TRAP, DISPOSER_TRAP, STEEL = 3.0, 1.5, 3.0, 1 / 16

# Tolerances ("plus_minus") are two standard deviations. A bowl is its depth and the drop of its disposer, if any.
ONE = dict(counter=36, counter_from_old_floor=False, thick=1.25, run=18, stub=16.5, stub_plus_minus=0.25,
           from_cabinet_floor=False, buildup=0.75, buildup_plus_minus=1.0, bowls=[[8.5, 6.5]], apart=0,
           apart_plus_minus=0)
CASES = [
    dict(ONE, id="new counter on a doubtful new floor"),
    dict(ONE, id="old counter on the same floor", counter_from_old_floor=True),
    dict(ONE, id="old counter, read from the cabinet floor", counter_from_old_floor=True, from_cabinet_floor=True,
         stub=11.0),
    dict(ONE, id="new counter, read from the cabinet floor", from_cabinet_floor=True, stub=11.75),
    dict(ONE, id="disposer and a deeper strainer bowl", bowls=[[7.0, 6.5], [10.75, None]], apart=16, apart_plus_minus=4,
         stub=18),
    dict(ONE, id="two strainers of one product", bowls=[[9.0, None], [9.0, None]], apart=24, apart_plus_minus=2,
         stub=21.5, buildup=0, buildup_plus_minus=0),
    dict(ONE, id="two disposers", bowls=[[8.0, 6.5], [7.5, 6.75]], apart=14, apart_plus_minus=2, stub=17.25),
    dict(ONE, id="two bowls over a low stub", bowls=[[6.0, None], [5.75, None]], apart=16, apart_plus_minus=2, stub=7.0),
]


def main():
    rng = np.random.default_rng(SEED)
    out = []
    for case in CASES:
        def around(mean, sigma):
            return rng.normal(mean, sigma, DRAWS)

        buildup = around(case["buildup"], case["buildup_plus_minus"] / 2)
        counter = around(case["counter"], COUNTER)
        if case["counter_from_old_floor"]:
            counter = counter - buildup
        stub = around(case["stub"], case["stub_plus_minus"] / 2)
        if case["from_cabinet_floor"]:
            stub = stub + around(4.5, TOE) + around(0.75, CABINET)
        stub = stub - buildup
        plane = counter - around(case["thick"], THICK)
        shell = around(STEEL, SHELL)
        trap_error = around(0, TRAP_DROP)
        strainer = around(STRAINER_DROP, STRAINER)
        fall = around(SLOPE * case["run"] / 12, FALL)
        apart = around(case["apart"], case["apart_plus_minus"] / 2)
        over_practical = np.zeros(DRAWS, bool)
        over_seal = np.zeros(DRAWS, bool)
        too_low = np.zeros(DRAWS, bool)
        for at, (depth, disposer) in enumerate(case["bowls"]):
            outlet = plane - around(depth, DEPTH)
            below = strainer if disposer is None else around(disposer, DISPOSER)
            trap = (STRAINER_TRAP if disposer is None else DISPOSER_TRAP) + trap_error
            waste = SLOPE * apart / 12 if at == 1 else 0
            practical = outlet - shell - below - waste - trap - fall
            over_practical |= stub > practical
            over_seal |= stub > practical + SEAL_MOST - SEAL
            too_low |= stub < outlet - TO_WEIR + TRAP / 2 - fall
        out.append({
            **case,
            "over_practical": float(np.mean(over_practical)),
            "over_seal": float(np.mean(over_seal)),
            "too_low": float(np.mean(too_low)),
        })
    path = pathlib.Path(__file__).with_name("sink_mc.json")
    path.write_text(json.dumps({
        "source": "make_sink_mc.py beside this file; one normal error for each cause, the whole sink drawn anew each time",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": out,
    }, indent=1) + "\n")


if __name__ == "__main__":
    main()
