"""Small plans of one product and what the cheapest of them costs, for the planner of batches.

Each case is laid out with a fixed seed, shaped as a bar's weeks are: closed weekdays, a use that is shared out over the open
ones, a life of a few days, a par that the doors open with, work that every batch takes, and what a millilitre costs. The
model is exact: every open day may bring batches, what is used comes from batches that are not past their date, the par stands
at every opening, nothing that is left at the end is worth anything. It is solved to proven optimality by HiGHS (Q. Huangfu,
J. A. J. Hall, Mathematical Programming Computation 10 (2018) 119) through scipy.optimize.milp.
Run: python3 plans.py > plans.csv
"""

import random

import numpy as np
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp

random.seed(20261129)


def shares(week, closed):
    """What is used on each weekday: shares of whole millilitres that add up to the week."""
    open_days = [day for day in range(7) if day not in closed]
    count = len(open_days)
    return [
        ((open_days.index(day) + 1) * week // count - open_days.index(day) * week // count) if day in open_days else 0
        for day in range(7)
    ]


def cheapest(days, closed, life, par, week, largest, each_batch, each_unit):
    """The first day is a Monday."""
    use = shares(week, closed)
    demand = [use[day % 7] for day in range(days)]
    ready = [day for day in range(days) if day % 7 not in closed]
    taken = [(r, d) for r in ready for d in range(r, min(r + life, days - 1) + 1) if demand[d] > 0]
    count = len(ready)
    made = {r: k for k, r in enumerate(ready)}
    takes = {pair: 2 * count + k for k, pair in enumerate(taken)}
    size = 2 * count + len(taken)
    cost = np.zeros(size)
    cost[:count] = each_unit
    cost[count : 2 * count] = each_batch
    most = min(largest or 10**9, sum(demand) + 2 * par)
    rows, low, high = [], [], []

    def rule(factors, least, greatest):
        row = np.zeros(size)
        for place, factor in factors:
            row[place] += factor
        rows.append(row)
        low.append(least)
        high.append(greatest)

    for r in ready:
        rule([(made[r], 1), (count + made[r], -most)], -np.inf, 0)
        rule([(made[r], 1)] + [(takes[p], -1) for p in taken if p[0] == r], 0, np.inf)
    for day, wanted in enumerate(demand):
        if wanted > 0:
            rule([(takes[p], 1) for p in taken if p[1] == day], wanted, wanted)
    for day in ready if par > 0 else []:
        there = [r for r in ready if r <= day <= r + life]
        used = [(takes[p], -1) for p in taken if p[0] in there and p[1] < day]
        rule([(made[r], 1) for r in there] + used, par, np.inf)
    whole = np.zeros(size)
    whole[count : 2 * count] = 1
    answer = milp(
        cost,
        constraints=LinearConstraint(np.array(rows), low, high),
        integrality=whole,
        bounds=Bounds(0, np.inf),
        options={"mip_rel_gap": 1e-6, "time_limit": 60},
    )
    return answer.fun if answer.status == 0 else None


print(f"# scipy {scipy.__version__}, milp (HiGHS), gap 1e-6; from a Monday; amounts in ml, closed as weekdays from Monday 0")
print("days,closed,life,par,week,largest,each_batch,each_unit,least")
cases = 0
while cases < 60:
    days = random.choice([14, 21, 28])
    closed = random.choice([[], [0], [0], [0, 1], [6, 0]])
    life = random.randint(2, 10)
    week = random.randrange(1000, 12001, 250)
    daily = week / (7 - len(closed))
    par = random.choice([0, 0.5, 1, 1.5]) * daily // 50 * 50
    largest = random.choice([0, 0, 0, 5000])
    each_batch = round(random.uniform(3, 14), 2)
    each_unit = round(random.choice([0.003, 0.006, 0.012, 0.025]) * random.uniform(0.8, 1.2), 5)
    least = cheapest(days, closed, life, par, week, largest, each_batch, each_unit)
    if least is None:
        continue
    cases += 1
    weekdays = " ".join(map(str, closed))
    print(f"{days},{weekdays},{life},{par:.0f},{week},{largest},{each_batch},{each_unit},{least:.4f}", flush=True)
