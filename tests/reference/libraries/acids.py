"""pH of acid solutions by PHREEQC: what the charge balance of src/mixture/acidity is held to.

PHREEQC gets the constants of ../acid-pka.csv, from 25 °C to others by the same equation (its analytical expression), and
its own activity coefficients for H+, K+ and OH- (phreeqc.dat); the anions have its default, Davies. Acids without a charge
have an activity of one: its default, log10 = 0.1 x ionic strength for all of them alike, is a rule of thumb, and lowers the pH
of a buffer by as much. So this compares the solver, the balance of charge and the activities, not the constants. Rows of an
ionic strength above 0.5, where Davies has no claim, are left out.
"""

import csv
import itertools
import math
from importlib.metadata import version

from phreeqpython import PhreeqPython

R, T0 = 8.314462618, 298.15


def steps():
    lines = [line for line in open("../acid-pka.csv", encoding="utf-8") if not line.startswith("#")]
    of = {}
    for row in csv.DictReader(lines):
        heat = [float(row[key]) if row[key] else 0.0 for key in ("dh_kj_per_mol", "dcp_j_per_mol_k")]
        of.setdefault(row["acid"], []).append((float(row["pk_25c"]), 1000 * heat[0], heat[1]))
    return of


def expression(pk, dh, dcp):
    """log K = A1 + A3/T + A4 log T of one step: the equation of acidity/charge_balance.rs in PHREEQC's form."""
    a1 = -pk + (dh / (R * T0) - dcp / R * (1 + math.log(T0))) / math.log(10)
    a3 = (-dh / R + dcp * T0 / R) / math.log(10)
    return a1, a3, dcp / R


def database(acids):
    """Each acid as an element of its own (Xa, Xb, ...): its anion is the master species, protons are put on one by one."""
    masters, species = [], []
    for name, (element, of) in acids.items():
        charge = len(of)
        anion = f"{element}-{charge}" if charge > 1 else f"{element}-"
        masters.append(f"{element} {anion} 0 1 1")
        species.append(f"{anion} = {anion}\nlog_k 0")
        total = (0.0, 0.0, 0.0)
        for protons, step in enumerate(reversed(of), 1):
            total = tuple(a - b for a, b in zip(total, expression(*step)))
            left = charge - protons
            sign = "" if left == 0 else "-" if left == 1 else f"-{left}"
            h = "H" if protons == 1 else f"H{protons}"
            # what has no charge has an activity of its molality, as with us
            gamma = "" if left else "-gamma 0 0\n"
            species.append(
                f"{anion} + {protons if protons > 1 else ''}H+ = {h}{element}{sign}\n{gamma}"
                f"-analytical_expression {total[0]:.8f} 0 {total[1]:.6f} {total[2]:.8f}"
            )
    return "SOLUTION_MASTER_SPECIES\n" + "\n".join(masters) + "\nSOLUTION_SPECIES\n" + "\n".join(species) + "\nEND\n"


constants = steps()
names = ["citric", "malic", "tartaric", "acetic", "lactic", "phosphoric", "ascorbic", "succinic"]
acids = {name: (f"X{chr(97 + n)}", constants[name]) for n, name in enumerate(names)}
phreeqc = PhreeqPython(database="phreeqc.dat")
phreeqc.ip.run_string(database(acids))
selected = "SELECTED_OUTPUT\n-reset false\n-pH true\n-ionic_strength true\n-high_precision true\n"
phreeqc.ip.run_string(selected + "END\n")


def ph(mixture, cation, t_c):
    lines = [f"SOLUTION 1\ntemp {t_c}\nunits mol/kgw\npH 3 charge"]
    lines += [f"K {cation}"] if cation else []
    lines += [f"{acids[name][0]} {molality}" for name, molality in mixture]
    phreeqc.ip.run_string("\n".join(lines) + "\nEND\n")
    head, *rest = phreeqc.ip.get_selected_output_array()
    row = dict(zip(head, rest[-1]))
    return row["pH"], row["mu"]


mixtures = [[(name, m)] for name, m in itertools.product(names, (0.003, 0.03, 0.3))]
mixtures += [
    [("citric", 0.25), ("malic", 0.05)],
    [("citric", 0.2082), ("malic", 0.1492)],
    [("tartaric", 0.03), ("malic", 0.02), ("lactic", 0.02)],
    [("acetic", 0.85)],
    [("citric", 0.1), ("phosphoric", 0.05), ("ascorbic", 0.01)],
]
print(f"# acids.py: pH by PHREEQC (phreeqpython {version('phreeqpython')}, phreeqc.dat) with the constants of acid-pka.csv; mol/kg.")
print("acids_molal,strong_cation_eq_per_kg,temperature_c,ph,ionic_strength_molal")
for mixture in mixtures:
    total = sum(m for _, m in mixture)
    for share, t_c in itertools.product((0.0, 0.2, 0.7), (5, 25, 50)):
        cation = round(share * total, 6)
        value, mu = ph(mixture, cation, t_c)
        if mu <= 0.5:
            print(f"{';'.join(f'{n}:{m}' for n, m in mixture)},{cation},{t_c},{value:.4f},{mu:.5f}")
