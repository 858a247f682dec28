"""Water by the formulations of IAPWS, from the general-purpose library `iapws`: what the equations of src/mixture are held to.

density: IAPWS-95 at 101.325 kPa; boils: IAPWS-IF97, region 4; index: IAPWS R9-97 at 589 nm, in a vacuum, of the density at
101.325 kPa; viscosity: IAPWS R12-08; heat: IAPWS-95, isobaric.
"""

import warnings
from importlib.metadata import version

from iapws import IAPWS95, IAPWS97
from iapws._iapws import _Refractive, _Viscosity

warnings.filterwarnings("ignore")
P = 0.101325  # MPa
print(f"# water.py: water by IAPWS formulations, library iapws {version('iapws')}; at is °C, of `boils_c` kPa.")
print("quantity,at,value")
for t_c in (0.01, 2, 4, 8, 12, 15, 18, 20, 25, 30, 40, 50, 60, 70, 80, 90, 99):
    water = IAPWS95(T=t_c + 273.15, P=P)
    if t_c <= 80:
        print(f"density_kg_m3,{t_c},{water.rho:.4f}")
    print(f"heat_kj_kg_k,{t_c},{water.cp:.4f}")
    if t_c <= 60:
        print(f"index_589_nm,{t_c},{_Refractive(water.rho, t_c + 273.15, 0.589):.6f}")
    if 5 <= t_c <= 85:
        print(f"viscosity_mpa_s,{t_c},{1e3 * _Viscosity(water.rho, t_c + 273.15):.4f}")
for kpa in (50, 60, 70, 75, 80, 85, 90, 95, 100, 101.325, 105, 110):
    print(f"boils_c,{kpa},{IAPWS97(P=kpa / 1000, x=0).T - 273.15:.4f}")
