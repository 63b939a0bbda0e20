"""Second opinion on the water column: the same equations, other code.

Reads the spring that the product exported (input.json), writes the soil's closed
forms, Darcy's law, the drain, the pond and the base anew from their published
forms, and lets SciPy's general BDF integrator (method of lines, variable order
and step) carry them through. Writes result.csv: one line a day.

What differs from the product on purpose: the closed forms themselves instead of
tables; continuous time instead of daily steps; instead of switching the surface
between open, ponded and spilling, a film of FILM m over which infiltration goes
over into its capacity, and a pond that spills within SPILL s.

    /usr/bin/python3 testdata/second-opinion/solve.py      (python3-scipy of Debian)
"""

import json
import pathlib
import sys
import time

import numpy as np
import scipy
from scipy.integrate import solve_ivp

FILM = 1e-5  # m of water: 0.01 mm
SPILL = 10.0  # s
ELASTIC = 1e-6  # 1/m, storage of saturated soil
RTOL = 1e-8
VALUES = pathlib.Path(__file__).parents[2] / "sim" / "proof" / "values" / "second-opinion"

spring = json.loads((VALUES / "input.json").read_text())
edge = np.array(spring["edges"])
dz = np.diff(edge)
mid = (edge[1:] + edge[:-1]) / 2
n = len(dz)
material = np.array(spring["material"])


def per_cell(key):
    return np.array([spring["materials"][m][key] for m in material])[:, None]


class Soil:
    """van Genuchten-Mualem with air entry, plus a second set of pores."""

    def __init__(self, pick):
        get = lambda key: per_cell(key)[pick]
        self.thr, self.ths = get("ThetaR"), get("ThetaS")
        self.alpha, self.n, self.l, self.entry = get("Alpha"), get("N"), get("L"), get("Entry")
        self.k1, self.k2, self.w = get("KMatrix"), get("KStructure"), get("Structure")
        self.alpha2 = np.where(get("AlphaS") > 0, get("AlphaS"), 1.0)
        self.n2 = np.where(get("NS") > 0, get("NS"), 2.0)
        self.ksat = self.k1 + self.k2
        self.at_entry = self.se(self.entry, self.alpha, self.n)
        self.open_entry = self.opened(self.entry, self.alpha, self.n)

    @staticmethod
    def se(s, alpha, n):
        return (1 + (alpha * s) ** n) ** (1 / n - 1)

    @staticmethod
    def slope(s, alpha, n):
        """-dSe/ds."""
        y = (alpha * s) ** n
        return (n - 1) * y / np.maximum(s, 1e-30) * (1 + y) ** (1 / n - 2)

    @staticmethod
    def opened(s, alpha, n):
        """1 - (1 - Se^(1/m))^m, with 1 - Se^(1/m) = y / (1 + y)."""
        y = np.maximum((alpha * s) ** n, 1e-300)
        return -np.expm1((1 - 1 / n) * np.log(y / (1 + y)))

    def theta(self, h):
        s = np.maximum(-h, 0)
        matrix = np.where(s > self.entry, self.se(s, self.alpha, self.n) / self.at_entry, 1)
        water = self.thr + (self.ths - self.thr - self.w) * matrix + self.w * self.se(s, self.alpha2, self.n2)
        return water + ELASTIC * h

    def capacity(self, h):
        s = np.maximum(-h, 0)
        c = np.where(s > self.entry, (self.ths - self.thr - self.w) * self.slope(s, self.alpha, self.n) / self.at_entry, 0)
        return c + self.w * self.slope(s, self.alpha2, self.n2) + ELASTIC

    def k(self, h):
        s = np.maximum(-h, 0)
        matrix = np.where(
            s > self.entry,
            (self.se(s, self.alpha, self.n) / self.at_entry) ** self.l * (self.opened(s, self.alpha, self.n) / self.open_entry) ** 2,
            1,
        )
        return self.k1 * matrix + self.k2 * self.se(s, self.alpha2, self.n2) ** 0.5 * self.opened(s, self.alpha2, self.n2) ** 2


cells = Soil(slice(None))
upper, lower = Soil(slice(0, n - 1)), Soil(slice(1, n))
parted = (material[1:] != material[:-1])[:, None]
distance = (mid[1:] - mid[:-1])[:, None]
half_up, half_low = dz[:-1, None] / 2, dz[1:, None] / 2

drain = spring["drain"]
spacing, depth, level = drain["spacing"], drain["depth"], drain["depth"]
reduced = drain["equivalent_depth"] / (edge[-1] - depth)
below = (8 / spacing**2 * np.maximum(0, edge[1:] - np.maximum(edge[:-1], depth)) * reduced)[:, None]
bottom = np.minimum(edge[1:], level)[:, None]
above = np.maximum(0, bottom[:, 0] - edge[:-1])[:, None]
zmid = mid[:, None]
sink_share = np.array(spring["sink_share"])[:, None]


def drained(h, pond):
    """Hooghoudt's flow of every cell, m/s, held to the outlet's capacity."""
    m = h + level - zmid
    saturated = np.clip(bottom - (zmid - h), 0, above)
    flooded = np.where(h[0] >= 0, np.clip(pond / 0.005, 0, 1), 0)
    k = cells.ksat * drain["anisotropy"] * (1 + (drain["ponded"] - 1) * flooded)
    q = np.where(m > 0, k * (below + 4 / spacing**2 * saturated) * m, 0)
    total = q.sum(axis=0)
    return q * np.minimum(1, drain["capacity"] / np.maximum(total, 1e-30))


def rhs(t, y, supply, sink):
    """State: heads (m), pond (m), then drain, runoff, base, arrivals (mm)."""
    h, pond = y[:n], y[n]
    k = cells.k(h)
    # Within a material the mean of both conductivities; across two, the halves in series.
    mean = (k[:-1] + k[1:]) / 2
    ru = half_up / ((k[:-1] + upper.k(h[1:])) / 2)
    rl = half_low / ((k[1:] + lower.k(h[:-1])) / 2)
    between = np.where(parted, distance / (ru + rl), mean)
    q = between * ((h[:-1] - h[1:]) / distance + 1)

    resistance = dz[0] / 2 / ((k[0] + cells.ksat[0]) / 2)
    most = (pond + dz[0] / 2 - h[0]) / resistance
    enters = np.where(most <= supply, most, supply + (most - supply) * np.clip(pond / FILM, 0, 1))
    spills = np.maximum(pond - spring["store"], 0) / SPILL
    leaves = (h[-1] + dz[-1] / 2 - (edge[-1] - spring["level"])) / (spring["resistance"] + dz[-1] / 2 / cells.ksat[-1])

    out = drained(h, pond)
    gain = np.empty_like(h)
    gain[0], gain[1:] = enters, q
    gain[:-1] -= q
    gain[-1] -= leaves
    gain -= out + sink_share * sink
    dy = np.empty_like(y)
    dy[:n] = gain / dz[:, None] / cells.capacity(h)
    dy[n] = supply - enters - spills
    dy[n + 1], dy[n + 2], dy[n + 3] = 1000 * out.sum(axis=0), 1000 * spills, 1000 * leaves
    dy[n + 4] = 1000 * (supply - sink)
    return dy


def table(h, pond):
    if pond > FILM:
        return 0.0
    wet = np.flatnonzero(h >= 0)
    if len(wet) == 0:
        return edge[-1]
    i = wet[0]
    if i == 0:
        return max(0.0, mid[0] - h[0])
    return mid[i] - h[i] / (h[i] - h[i - 1]) * (mid[i] - mid[i - 1])


def stored(y):
    return 1000 * ((cells.theta(y[:n, None])[:, 0] * dz).sum() + y[n])


y = np.zeros(n + 5)
y[:n] = mid - spring["start_table"]
start = stored(y)
atol = np.concatenate([np.full(n, RTOL), [RTOL / 100], np.full(4, 1e-1 * RTOL)])
began, evaluations, lines = time.time(), 0, []
supply = np.array(spring["supply_mm_per_hour"])
for day, sink in enumerate(spring["sink_mm_per_day"]):
    before = y.copy()
    hour = 0
    while hour < 24:
        end = hour + 1
        while end < 24 and supply[24 * day + end] == supply[24 * day + hour]:
            end += 1
        given = (supply[24 * day + hour] / 1000 / 3600, sink / 1000 / 86400)
        s = solve_ivp(
            lambda t, y: rhs(t, y.reshape(len(y), -1), *given).reshape(y.shape),
            (0, 3600.0 * (end - hour)), y, method="BDF", rtol=RTOL, atol=atol, vectorized=True, first_step=1e-2,
        )
        if not s.success:
            sys.exit(f"day {day + 1}, hour {hour}: {s.message}")
        y, evaluations, hour = s.y[:, -1], evaluations + s.nfev, end
    flows = y[n + 1 : n + 4] - before[n + 1 : n + 4]
    lines.append([day + 1, *flows, 1000 * y[n], table(y[:n], y[n])])
    print(day + 1, np.round(lines[-1], 4), round(time.time() - began), "s", file=sys.stderr, flush=True)
closing = stored(y) - start - (y[n + 4] - y[n + 1] - y[n + 2] - y[n + 3])
with open(VALUES / "result.csv", "w") as f:
    f.write(f"# SciPy {scipy.__version__}, NumPy {np.__version__}, Python {sys.version.split()[0]}; BDF, rtol {RTOL:g}; {evaluations} evaluations; water balance closes to {closing:.2g} mm\n")
    f.write("day,drain_mm,runoff_mm,base_mm,pond_mm,table_m\n")
    for line in lines:
        f.write(f"{line[0]}," + ",".join(f"{round(x, 5) + 0.0:.5f}" for x in line[1:]) + "\n")
print("closing", closing, "evaluations", evaluations, "totals", y[n + 1 :], file=sys.stderr)
