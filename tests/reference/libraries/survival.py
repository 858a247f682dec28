"""Refusals by age, censored on both sides, by two survival libraries: what src/shelf_life/survival is held to.

The data are ../survival-data.csv and samples that are drawn here with a fixed seed, laid out as tasters are: each looks on
days of its own, and some never refuse. Weibull by maximum likelihood and Turnbull's masses: lifelines and surpyval. A third
library, `reliability`, fits nothing that is censored in an interval.
"""

import csv
import warnings
from importlib.metadata import version

import numpy as np
import surpyval
from lifelines import WeibullFitter
from lifelines.fitters.npmle import npmle

warnings.filterwarnings("ignore")


def published():
    lines = [line for line in open("../survival-data.csv", encoding="utf-8") if not line.startswith("#")]
    return [(float(row["left_month"]), float(row["right_month"])) for row in csv.DictReader(lines)]


def drawn(seed, count, scale, shape, looks):
    random = np.random.default_rng(seed)
    for time in scale * random.weibull(shape, count):
        own = [look for look in looks if random.random() < 0.6]
        edges = [0.0, *own, np.inf]
        yield next((float(a), float(b)) for a, b in zip(edges, edges[1:]) if time <= b)


sets = {
    "published": published(),
    "few": list(drawn(6, 12, 30.0, 2.5, (7, 14, 21, 28, 35))),
    "weekly": list(drawn(2, 60, 45.0, 3.0, range(7, 70, 7))),
    "early": list(drawn(3, 40, 9.0, 1.2, (2, 5, 9, 14))),
}


def masses_of_lifelines(left, right):
    # its intervals are closed: (after, up to] begins just behind `after`
    masses, intervals = npmle(left + 1e-6, right, tol=1e-12, optimize=False)
    return [(round(float(i.left), 3), float(i.right), float(m)) for m, i in zip(masses, intervals) if m > 1e-9]


def survival_of_surpyval(left, right):
    model = surpyval.Turnbull.fit(xl=left, xr=right, turnbull_estimator="Kaplan-Meier", tol=1e-12, max_iter=100_000)
    return dict(zip(model.x, model.R))


if __name__ == "__main__":
    versions = ", ".join(f"{name} {version(name)}" for name in ("numpy", "lifelines", "surpyval"))
    print(f"# survival.py: {versions}. S(t) = exp(-(t/scale)^shape).")
    print("# intervals are (after, up to]; a mass is after, up to, share by lifelines, and S(up to) by surpyval where it gives one")
    print("set,intervals,scale_lifelines,scale_surpyval,shape_lifelines,shape_surpyval,loglik_lifelines,loglik_surpyval,masses")
    for name, of in sets.items():
        left, right = (np.array(side) for side in zip(*of))
        one = WeibullFitter().fit_interval_censoring(left, right)
        two = surpyval.Weibull.fit(xl=left, xr=right)
        s = survival_of_surpyval(left, right)
        masses = ";".join(f"{a:g} {b:g} {m:.7f} {s.get(b, 0.0):.7f}" for a, b, m in masses_of_lifelines(left, right))
        pairs = [(one.lambda_, two.params[0]), (one.rho_, two.params[1]), (one.log_likelihood_, -two.neg_ll())]
        numbers = ",".join(f"{value:.8g}" for pair in pairs for value in pair)
        print(f"{name},{';'.join(f'{a:g} {b:g}' for a, b in of)},{numbers},{masses}")
