"""Spirit, and glycerol in water, by CoolProp: what the density and the heat of spirit and the freezing point of glycerol in
src/mixture are held to.

Density: the correlation of Melinder (INCOMP::MEA, to 60 % by mass). It states no error, so it is first held here to what was
measured (../ethanol-density-temperature.csv, ../ethanol-nd-ethanol-water.csv): the largest difference is the tolerance that
the table gives it. CoolProp's equation of state for the pair (HEOS) was not fitted to its density: by the same measure it is
off by up to 16 kg/m3 and is not used. Heat: of ethanol alone, kJ/(kg K). Freezing points: the correlation of Melinder (INCOMP::MGL).
"""

import csv
from importlib.metadata import version

from CoolProp.CoolProp import PropsSI

P, MOST_PCT = 101325.0, 60


def density(percent, t_c):
    return PropsSI("D", "T", t_c + 273.15, "P", P, f"INCOMP::MEA[{percent / 100}]")


def rows(name):
    lines = [line for line in open(f"../{name}.csv", encoding="utf-8") if not line.startswith("#")]
    return csv.DictReader(lines)


def measured():
    for row in rows("ethanol-density-temperature"):
        yield float(row["ethanol_mass_pct"]), float(row["temperature_c"]), float(row["density_g_per_ml"])
    for row in rows("ethanol-nd-ethanol-water"):
        yield float(row["solute_mass_pct"]), 20.0, float(row["density_g_per_ml"])


off = max(abs(density(w, t_c) - 1000 * rho) for w, t_c, rho in measured() if w <= MOST_PCT)
print(f"# spirit.py: CoolProp {version('CoolProp')}, 101.325 kPa; tolerance: its own largest difference from the measured tables")
print("quantity,mass_pct,temperature_c,value,tolerance")
for percent in range(5, MOST_PCT + 1, 5):
    for t_c in (10, 20, 30):
        print(f"density_kg_m3,{percent},{t_c},{density(percent, t_c):.3f},{off:.3f}")
print(f"heat_kj_kg_k,100,25,{PropsSI('C', 'T', 298.15, 'P', P, 'Ethanol') / 1000:.4f},")
for percent in (10, 20, 30, 40, 50):
    print(f"glycerol_freezes_c,{percent},,{PropsSI('T_FREEZE', 'T', 300, 'P', P, f'INCOMP::MGL[{percent / 100}]') - 273.15:.2f},")
