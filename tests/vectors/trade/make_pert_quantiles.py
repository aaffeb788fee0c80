"""Quantiles of PERT estimates (shape 4) on the range 0 to 1, by scipy's beta distribution.

alpha = 1 + 4m, beta = 1 + 4(1 - m) for the likely value m. Shapes at both ends and between, probabilities out to one in
a trillion; the upper tail by the survival function, so that it keeps its digits. Writes pert_quantiles.json beside this
file. Needs scipy.

    python make_pert_quantiles.py
"""

import json
import pathlib

import scipy
from scipy.stats import beta

LIKELY = [0.0, 1e-9, 1e-3, 1 / 29, 0.1, 0.2, 0.25, 1 / 3, 0.44, 0.5, 0.6, 0.75, 0.9, 0.999, 1 - 1e-9, 1.0]
LOWER = [1e-12, 1e-9, 1e-7, 1e-5, 1e-4, 2.4e-4, 2.5e-4, 1e-3, 0.01, 0.05, 0.1, 0.2, 0.25, 1 / 3, 0.4, 0.499]


def case(m):
    shape = beta(1 + 4 * m, 1 + 4 * (1 - m))
    return {
        "likely": m,
        # [probability, quantile], then [probability above, quantile] counted from the high end
        "lower": [[u, float(shape.ppf(u))] for u in [*LOWER, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95, 0.99, 0.999]],
        "upper": [[u, float(shape.isf(u))] for u in LOWER],
    }


out = {
    "source": f"scipy {scipy.__version__}, scipy.stats.beta ppf and isf, tests/vectors/trade/make_pert_quantiles.py",
    "cases": [case(m) for m in LIKELY],
}
path = pathlib.Path(__file__).with_name("pert_quantiles.json")
lines = ",\n  ".join(json.dumps(one) for one in out["cases"])
path.write_text(f'{{"source": {json.dumps(out["source"])},\n "cases": [\n  {lines}\n]}}\n', encoding="utf-8")
