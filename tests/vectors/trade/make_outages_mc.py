"""Draws planned tasks at random, places each draw on working days one quarter hour at a time, and counts how often a
service is off.

The rules are those of the calendar: a task's PERT time is rounded to the nearest quarter hour, work goes on from day
to day, a trade that follows another starts the next morning where the case says so, and a task counts for each night
it spans. Every draw is one calendar. Writes outages_mc.json beside this file. Needs numpy; the seed is fixed.

    python make_outages_mc.py
"""

import json
import pathlib

import numpy as np

DRAWS = 200_000
SEED = 20260611

# name, trade, (low, likely, high), off, after, earliest day. Invented plans.
CASES = {
    # One trade, one chain.
    "chain": (8.0, 16.5, False, [
        ("cap", "plumber", (0.5, 1, 2.5), ["water"], [], 1),
        ("risers", "plumber", (3, 6, 10), ["water"], ["cap"], 1),
        ("drain", "plumber", (2, 6, 16), ["kitchen drain"], ["risers"], 1),
        ("stops", "plumber", (0.5, 1, 2), ["water"], ["drain"], 1),
    ]),
    # Trades in turn, each the next morning; gas stays off overnight.
    "mornings": (8.0, 16.0, True, [
        ("gas", "gas fitter", (1, 2.5, 6), ["gas"], [], 1),
        ("panel", "electrician", (4, 8, 14), ["power"], ["gas"], 1),
        ("range", "gas fitter", (2, 5, 24), ["gas", "power:range"], ["panel"], 3),
    ]),
    # Two independent trades side by side, then one that waits for both.
    "side by side": (7.5, 15.5, False, [
        ("a", "plumber", (2, 5, 12), ["water"], [], 1),
        ("b", "electrician", (3, 4, 9), ["power:kitchen", "water"], [], 1),
        ("c", "builder", (4, 6, 10), ["kitchen"], ["a", "b"], 1),
    ]),
    # Both middle tasks wait for the first and are late together.
    "shared": (8.0, 16.5, False, [
        ("first", "builder", (8, 16, 40), ["kitchen"], [], 1),
        ("left", "plumber", (3, 6, 10), ["water"], ["first"], 1),
        ("right", "electrician", (4, 8, 14), ["power"], ["first"], 1),
        ("last", "builder", (4, 6, 12), ["kitchen"], ["left", "right"], 1),
    ]),
}


def pert(rng, low, likely, high):
    if high == low:
        return np.full(DRAWS, float(low))
    alpha, beta = 1 + 4 * (likely - low) / (high - low), 1 + 4 * (high - likely) / (high - low)
    return low + (high - low) * rng.beta(alpha, beta, DRAWS)


def run(rng, start, end, next_morning, tasks):
    day = round((end - start) * 4)
    begins, ends, exact = {}, {}, {}
    trade = {name: who for name, who, *_ in tasks}
    for name, who, hours, _, after, from_day in tasks:
        drawn = pert(rng, *hours)
        length = np.floor(drawn * 4 + 0.5).astype(np.int64)
        begin = np.full(DRAWS, (from_day - 1) * day, dtype=np.int64)
        loose = begin.astype(float)
        for other in after:
            done, done_loose = ends[other], exact[other]
            if next_morning and trade[other] != who:
                done = -(-done // day) * day
                done_loose = np.ceil(done_loose / day) * day
            begin, loose = np.maximum(begin, done), np.maximum(loose, done_loose)
        begins[name], ends[name], exact[name] = begin, begin + length, loose + drawn * 4
    last = np.max(list(ends.values()), axis=0)
    days = int(-(-last.max() // day))
    services = {}
    for word in dict.fromkeys(w for *_, off, _, _ in tasks for w in off):
        whole = word.split(":")[0]
        mine = [name for name, _, _, off, _, _ in tasks if word in off or (whole == "power" and "power" in off)]
        total = np.zeros(DRAWS)
        quarters = []
        for q in range(days * day):
            off = np.zeros(DRAWS, dtype=bool)
            for name in mine:
                off |= (begins[name] <= q) & (q < ends[name])
            total += off
            quarters.append(int(off.sum()))
        nights = []
        for n in range(1, days + 1):
            off = np.zeros(DRAWS, dtype=bool)
            for name in mine:
                off |= (begins[name] < n * day) & (ends[name] > n * day)
            nights.append(int(off.sum()))
        over = np.max([ends[name] for name in mine], axis=0)
        services[word] = {
            "quarters": quarters,
            "nights": nights,
            "mean_hours": float(total.mean() / 4),
            "sd_hours": float(total.std() / 4),
            "hours_p50_p90": [float(np.quantile(total, p, method="inverted_cdf") / 4) for p in (0.5, 0.9)],
            "over_p50_p90": [int(np.quantile(over, p, method="inverted_cdf")) for p in (0.5, 0.9)],
        }
    unrounded = np.max(list(exact.values()), axis=0)
    return {
        "days": days,
        "done_by_day": [int((last <= n * day).sum()) for n in range(1, days + 1)],
        "done_p50_p90": [int(np.quantile(last, p, method="inverted_cdf")) for p in (0.5, 0.9)],
        "unrounded_p50_p90": [float(np.quantile(unrounded, p)) for p in (0.5, 0.9)],
        "services": services,
    }


def main():
    rng = np.random.default_rng(SEED)
    cases = []
    for name, (start, end, next_morning, tasks) in CASES.items():
        rows = [
            {"name": n, "who": w, "hours": list(h), "off": o, "after": a, "from_day": d} for n, w, h, o, a, d in tasks
        ]
        cases.append({
            "id": name,
            "start": start,
            "end": end,
            "next_morning": next_morning,
            "tasks": rows,
            **run(rng, start, end, next_morning, tasks),
        })
    out = {
        "source": "make_outages_mc.py beside this file; every draw is one calendar placed quarter hour by quarter hour",
        "numpy": np.__version__,
        "draws": DRAWS,
        "seed": SEED,
        "cases": cases,
    }
    path = pathlib.Path(__file__).with_name("outages_mc.json")
    path.write_text(json.dumps(out) + "\n")


if __name__ == "__main__":
    main()
