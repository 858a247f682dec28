"""Small linear programs and their best answers, for the solver of cards with room.

Each is laid out with a fixed seed, shaped as blends are (shares of a batch, ranges, bounds, now and then ranges that cannot
be met together), and solved by HiGHS (Q. Huangfu, J. A. J. Hall, Mathematical Programming Computation 10 (2018) 119)
through scipy.optimize.linprog. Run: python3 linear-programs.py > linear-programs.csv
"""

import random

import scipy
from scipy.optimize import linprog

random.seed(20261129)
print(f"# scipy {scipy.__version__}, method highs; all variables at 0 or above, the least of cost")
print("# rows are parted by |, each: factors, sense, right side")
print("cost,rows,least")
for case in range(60):
    n, ranges = random.randint(2, 12), random.randint(1, 4)
    cost = [round(random.uniform(0, 9), 3) for _ in range(n)]
    rows = [([1.0] * n, "=", 1.0)]
    for _ in range(ranges):
        own = [round(random.choice([0.0, 1.0]) * random.uniform(0, 1), 3) for _ in range(n)]
        low = round(random.uniform(0, 0.4), 3)
        rows.append((own, ">=", low))
        rows.append((own, "<=", round(low + random.uniform(0, 0.3), 3)))
    for i in range(n):
        if random.random() < 0.3:
            rows.append(([1.0 if i == j else 0.0 for j in range(n)], "<=", round(random.uniform(0.05, 0.6), 3)))
    signs = {">=": -1, "<=": 1}
    upper = [[signs[s] * x for x in own] for own, s, _ in rows if s != "="]
    right = [signs[s] * r for _, s, r in rows if s != "="]
    answer = linprog(cost, A_ub=upper, b_ub=right, A_eq=[rows[0][0]], b_eq=[1.0], method="highs")
    assert answer.status in (0, 2), answer
    least = repr(answer.fun) if answer.status == 0 else "infeasible"
    text = "|".join(" ".join(map(str, own)) + f" {s} {r}" for own, s, r in rows)
    print(f"{' '.join(map(str, cost))},{text},{least}")
