"""Finds the steps of the lattice whose points stand for the possible courses of a plan: component by component, each
step the one that makes the worst-case error least (Sloan and Reztsov, Mathematics of Computation 71, 2002), by fast
Fourier transform (Nuyens and Cools, Mathematics of Computation 75, 2006). Kernel 2π²(x² − x + 1/6), all tasks weighted
alike. Writes outages_lattice.json beside this file. Needs numpy; there is nothing random in it.

    python make_outages_lattice.py
"""

import json
import pathlib

import numpy as np

POINTS = 65_521  # the largest prime under 2^16
TASKS = 60
WEIGHT = 0.1


def primitive_root(prime):
    factors, rest, p = set(), prime - 1, 2
    while rest > 1:
        while rest % p == 0:
            factors.add(p)
            rest //= p
        p += 1
    root = 2
    while any(pow(root, (prime - 1) // f, prime) == 1 for f in factors):
        root += 1
    return root


def steps():
    n = POINTS
    root = primitive_root(n)
    powers = np.empty(n - 1, dtype=np.int64)  # root^i
    power = 1
    for i in range(n - 1):
        powers[i] = power
        power = power * root % n
    inverse = np.concatenate([powers[:1], powers[:0:-1]])  # root^-i
    x = np.arange(n) / n
    kernel = 2 * np.pi**2 * (x * x - x + 1 / 6)
    transformed = np.fft.fft(kernel[powers])
    product = np.ones(n)
    found = []
    for task in range(TASKS):
        error = np.real(np.fft.ifft(np.fft.fft(product[inverse]) * transformed))[: (n - 1) // 2]
        step = int(powers[int(np.argmin(error))]) if task else 1
        step = min(step, n - step)
        while step in found:  # the same step twice would tie two tasks together
            error[int(np.argmin(error))] = np.inf
            step = int(powers[int(np.argmin(error))])
            step = min(step, n - step)
        found.append(step)
        product *= 1 + WEIGHT * kernel[np.arange(n) * step % n]
    return found


if __name__ == "__main__":
    out = {"source": "make_outages_lattice.py beside this file", "points": POINTS, "weight": WEIGHT, "steps": steps()}
    pathlib.Path(__file__).with_name("outages_lattice.json").write_text(json.dumps(out) + "\n")
