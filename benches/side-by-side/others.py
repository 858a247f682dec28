"""The same work as ours, written as one would in numpy and scipy, in a spreadsheet, and asked of CoolProp.

The equations are those of src/mixture and src/shelf_life (their sources stand there), without what ours add: doubts, ranges,
refusals and sentences.
"""

import tomllib
from functools import partial

import numpy as np
from scipy.optimize import brentq

# OIML R 22 at 20 °C: density of ethanol and water by the mass fraction of ethanol
A = [9.982012300e2, -1.929769495e2, 3.891238958e2, -1.668103923e3, 1.352215441e4, -8.829278388e4, 3.062874042e5,
     -6.138381234e5, 7.470172998e5, -5.478461354e5, 2.234460334e5, -3.903285426e4]
WATER, ETHANOL, SUCROSE, GLUCOSE, FRUCTOSE, CITRIC, GLYCEROL, OTHER = range(8)
LIQUEUR = np.array([677.0, 142.0, 240.0, 5.0, 5.0, 4.0, 0.0, 0.0])
polynomial = np.polynomial.polynomial.polyval


def spirit_kg_m3(p):
    return polynomial(p, A)


def volume_ml(g):
    sugars = g[SUCROSE] + g[GLUCOSE] + g[FRUCTOSE] + g[CITRIC] + g[OTHER]
    w = sugars / (sugars + g[WATER])
    spirit = g[WATER] + g[ETHANOL]
    return (1000 * spirit / spirit_kg_m3(g[ETHANOL] / spirit)
            + (g[SUCROSE] + g[CITRIC] + g[OTHER]) * polynomial(w, [0.6168, 0.0194, 0.0087])
            + g[GLUCOSE] * polynomial(w, [0.61895516, 0.02541750, 0.00347579])
            + g[FRUCTOSE] * polynomial(w, [0.61001042, 0.02617013, 0.00698380])
            + g[GLYCEROL] * 0.78)


def density(g):
    return 1000 * g.sum() / volume_ml(g)


def abv(g):
    return 100 * g[ETHANOL] / 0.78924 / volume_ml(g)


def water_activity(g):
    moles = g / np.array([18.015, 46.068, 342.297, 180.156, 180.156, 192.12, 92.094, 180.156])
    x = moles[2:] / (moles.sum() - moles[ETHANOL])
    return (1 - x.sum()) * np.exp(-(np.array([6.47, 2.25, 2.15, 6.0, 1.16, 2.25]) * x * x).sum())


def boils_c(g):
    antoine = lambda t, a, b, c: 10 ** (a - b / (c + t)) / 7.50062
    moles = g[ETHANOL] / 46.068, g[WATER] / 18.015
    x = moles[0] / sum(moles)
    a, b = 1.6798, 0.9227
    ge = np.exp(a / (1 + a * x / (b * (1 - x))) ** 2)
    gw = np.exp(b / (1 + b * (1 - x) / (a * x)) ** 2)
    return brentq(lambda t: x * ge * antoine(t, 8.20417, 1642.89, 230.300)
                  + (1 - x) * gw * antoine(t, 8.07131, 1730.63, 233.426) - 101.325, 60, 110)


def reading(g):
    lorentz = lambda n: (n * n - 1) / (n * n + 2)
    refraction = 0.2063 * (g[GLUCOSE] + g[FRUCTOSE] + g[SUCROSE] + g[CITRIC]) + 0.2061 * g[WATER] + 0.2805 * g[ETHANOL]
    l = refraction / volume_ml(g)
    n = np.sqrt((1 + 2 * l) / (1 - l))

    def index(w):
        l = (0.2063 * w + 0.2061 * (1 - w)) / (w * polynomial(w, [0.6168, 0.0194, 0.0087]) + (1 - w) / 0.9982)
        return np.sqrt((1 + 2 * l) / (1 - l))

    return 100 * brentq(lambda w: index(w) - n, 0.0, 0.85)


def property_set(g):
    v = volume_ml(g)
    return (density(g), abv(g), 100 * g[2:].sum() / g.sum(), 1000 * g[SUCROSE:CITRIC].sum() / v, reading(g),
            water_activity(g), boils_c(g), brentq(lambda t: 63.8 + 0.136 * t + 0.0009 * t * t - 66.7, -10, 60))


# Twelve parts in two stages, as the card of benches/solve.rs: rows are parts, columns what a gram of them is.
SPICED = np.array([0.45, 0.55, 0, 0, 0, 0, 0, 0])
PARTS = np.array([
    SPICED,                                # the maceration, strained
    [0, 0, 1, 0, 0, 0, 0, 0],              # white sugar
    [0, 0, 0, 0, 0, 1, 0, 0],              # citric acid
    [0.17, 0, 0.01, 0.36, 0.41, 0, 0, 0.05],
    [0.005, 0, 0, 0, 0, 0, 0.995, 0],
    [0.90, 0, 0, 0.01, 0.01, 0.06, 0, 0.02],
    [1, 0, 0, 0, 0, 0, 0, 0],
])
MAKES_ML, HONEY_G_L, LIME_ML_L = 8 * 700 / 0.98, 30.0, 20.0


def maceration():
    """A litre of rum on five spices that are strained out and hold of it."""
    rum = 1000 * spirit_kg_m3(0.5515) / 1000
    return rum - 1.5 * np.array([12.0, 8.0, 6.0, 60.0]).sum()


def solve(makes_ml=MAKES_ML):
    """For a density every rule is a linear row in the masses; the density is closed by a bracketed root."""
    held = maceration()

    def masses(rho):
        total = makes_ml * rho / 1000
        rows = np.zeros((7, 7))
        right = np.zeros(7)
        rows[0], right[0] = 1.0, total
        rows[1], right[1] = PARTS[:, ETHANOL] / 0.78924, 0.18 * makes_ml
        rows[2], right[2] = PARTS[:, SUCROSE] + PARTS[:, GLUCOSE] + PARTS[:, FRUCTOSE], 0.250 * makes_ml
        rows[3], right[3] = PARTS[:, CITRIC], 0.004 * makes_ml
        rows[4, 3], right[4] = 1.0, HONEY_G_L / 1000 * makes_ml
        rows[5, 4], right[5] = 1.0, 0.01 * total
        rows[6, 5], right[6] = 1.0, 1.03 * LIME_ML_L / 1000 * makes_ml
        return np.linalg.solve(rows, right)

    rho = brentq(lambda rho: density(masses(rho) @ PARTS) - rho, 750, 1650, xtol=1e-9)
    m = masses(rho)
    return m, m[0] / held


def organisms():
    with open("../../src/shelf_life/data/organisms.toml", "rb") as file:
        table = tomllib.load(file)
    return table["model"], table["uncertainty"], list(table["organism"].values())[:4]


def draws(count, stores=(4.0, 12.0, 21.0, 25.0), ph=3.0, aw=0.8645, model=organisms()):
    """Days until the first of four organisms spoils a syrup, in each store: all draws of a step at once."""
    table, u, four = model
    z = np.random.Generator(np.random.Philox(20261125)).standard_normal((count, 28))
    v = lambda organism, key: organism[key]["v"]
    n0 = 0.0 + z[:, 3] * u["log10_n0_sd"]
    level = np.minimum(table["log10_ncrit"] + z[:, 4] * u["log10_ncrit_sd"], table["log10_nmax"] - 0.1)
    h0 = 2.0 * np.exp(z[:, 5] * u["ln_h0_sd"])
    grown = np.log(10) * (level - n0) + np.log1p(-(10 ** (n0 - table["log10_nmax"]))) - np.log1p(-(10 ** (level - table["log10_nmax"])))
    work = grown + np.log(np.exp(h0) - 1 + np.exp(-np.minimum(grown, 50)))
    bias = np.exp(z[:, 6] * u["ln_model_bias_sd"])
    ph, aw = ph + z[:, 1] * u["ph_sd"], np.minimum(aw + z[:, 2] * 0.008, 1.0)
    rates, t_mins = [], []
    for place, organism in enumerate(four):
        own = z[:, 7 + 5 * place:12 + 5 * place]
        low, opt, high = v(organism, "ph_min") + own[:, 2] * u["ph_min_sd"], v(organism, "ph_opt"), v(organism, "ph_max")
        inside = (ph - low) * (ph - high)
        g_ph = np.where(ph <= low, 0.0, np.where(ph >= opt, 1.0, inside / (inside - (ph - opt) ** 2)))
        aw_min = v(organism, "aw_min") + own[:, 3] * organism["aw_min"].get("sd", 0.01)
        g_aw = np.where(aw <= aw_min, 0.0, np.minimum(1.0, ((aw - aw_min) / (v(organism, "aw_opt") - aw_min)) ** 2))
        rates.append(v(organism, "mu_opt") * np.exp(own[:, 0] * u["ln_mu_opt_sd"]) * bias * g_ph * g_aw)
        t_mins.append(v(organism, "t_min") + own[:, 1] * u["t_min_sd"])
    tenths = []
    for store in stores:
        t = store + z[:, 0] * np.interp(store, [5, 20], [u["storage_t_sd_fridge"], u["storage_t_sd_room"]])
        fastest = np.zeros(count)
        for organism, rate, low in zip(four, rates, t_mins):
            opt, high = v(organism, "t_opt"), v(organism, "t_max")
            above = (opt - low) * (t - opt) - (opt - high) * (opt + low - 2 * t)
            g_t = np.clip((t - high) * (t - low) ** 2 / ((opt - low) * above), 0.0, 1.0)
            fastest = np.maximum(fastest, rate * np.where(t <= low, 0.0, np.where(t >= opt, 1.0, g_t)))
        with np.errstate(divide="ignore"):
            days = np.where(work <= 0, 0.0, work / fastest / 24)
        tenths.append(np.partition(days, count // 10)[count // 10])
    return tenths


def spreadsheet(parts):
    """A sheet as a bar has one, of so many parts: what each brings, sums, shares. Returns what recalculates it."""
    import formulas
    import openpyxl
    from pathlib import Path
    from tempfile import mkdtemp

    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Card"
    for row in range(1, parts + 1):
        sheet[f"A{row}"], sheet[f"B{row}"], sheet[f"C{row}"], sheet[f"D{row}"] = 10 + row, 0.3, 0.1, 1.1
        sheet[f"E{row}"], sheet[f"F{row}"], sheet[f"G{row}"] = f"=A{row}*B{row}", f"=A{row}*C{row}", f"=A{row}/D{row}"
    end = parts + 1
    for column in "AEFG":
        sheet[f"{column}{end}"] = f"=SUM({column}1:{column}{parts})"
    sheet[f"H{end}"], sheet[f"I{end}"] = f"=100*E{end}/A{end}", f"=100*F{end}/0.78924/G{end}"
    path = Path(mkdtemp()) / "card.xlsx"
    book.save(path)
    model = formulas.ExcelModel().loads(str(path)).finish()
    return partial(model.calculate, inputs={"'[card.xlsx]CARD'!A1": 12.5})


def coolprop(p=0.2):
    from CoolProp.CoolProp import PropsSI

    return partial(PropsSI, "D", "T", 293.15, "P", 101325.0, f"INCOMP::MEA[{p}]")
