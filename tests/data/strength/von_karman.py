"""Large deflection of rectangular plates: the shares in core/src/strength/plate/eased.rs.

    python3 tests/data/strength/von_karman.py > /tmp/rows.txt      (numpy; 2.x was used, on 2026-12-01)

Von Karman's equations (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, articles 100 and 101) by Ritz's method: the
deflection is a sum of Legendre polynomials times what keeps it down at the edges (and level there, where edges are held from
turning); the movements in the plate's plane are Legendre polynomials, free at the edges (or times what holds them). Stretching
energy is lowest over the movements in the plane for a given deflection, and Newton's method finds the deflection. An even pressure,
nu = 0.33, thickness, modulus and short side are 1, for all scale with them. 9 x 9 terms of the deflection and 12 x 12 of the rest
(11 and 14 for plates three times as long as wide and more): with 6 x 6 and 8 x 8 no share differs by more than 0.002 but those of
the longest plates.

A line for each plate: shares in thousandths, rounded up, of what bending alone gives, at bulges by bending alone of 0.5, 1, 2, 4, 8
and 16 thicknesses: of the bulge in the middle, of the highest von Mises stress away from the edges (at least a quarter of the short
side), of that anywhere, and of the volume swept. With edges free to turn the second is the third where that is more (corners), and
the third is the fourth. Then w D/(p a^4) in the middle and the swept volume times D/(p a^6) by bending alone.
"""

import math

import numpy as np
from numpy.polynomial import legendre as leg
from numpy.polynomial import polynomial as pol

NU = 0.33
RATIOS = [1, 1.25, 1.5, 2, 2.5, 3, 4, 6]
BULGES = [0.5, 1, 2, 4, 8, 16]


def basis(count, parity, power):
    """Polynomials of one parity on [-1, 1], times (1 - x^2)^power."""
    held = [1.0]
    for _ in range(power):
        held = pol.polymul(held, [1, 0, -1.0])
    numbers = range(parity, parity + 2 * count, 2)
    return [pol.polymul(held, leg.leg2poly([0] * n + [1])) for n in numbers]


def table(across, along, xs, ys, dx, dy, ratio):
    """Products of polynomials, or their derivatives, at all (x, y); the plate is 1 by ratio."""
    def at(poly, points, times, scale):
        return pol.polyval(points, pol.polyder(poly, times) if times else poly) * scale**times

    return np.array([
        np.outer(at(p, xs, dx, 2.0), at(q, ys, dy, 2.0 / ratio)).ravel()
        for p in across for q in along
    ]).T


class Plate:
    def __init__(self, ratio, clamped, immovable, terms, plane_terms):
        self.ratio = ratio
        power = 2 if clamped else 1
        shape = basis(terms, 0, power)
        even = basis(plane_terms, 0, 1 if immovable else 0)
        odd = basis(plane_terms, 1, 1 if immovable else 0)
        self.sets = (shape, even, odd)
        points, weights = leg.leggauss(2 * max(terms, plane_terms) + 6)
        self.weights = np.outer(weights, weights).ravel() * ratio / 4
        self.tabs = self.tables(points, points)
        self.elastic = np.array([[1, NU, 0], [NU, 1, 0], [0, 0, (1 - NU) / 2]]) / (1 - NU**2)
        self.rigidity = 1 / (12 * (1 - NU**2))
        w, wx, wy, wxx, wyy, wxy, plane = self.tabs
        sq = self.weights
        sum_ = wxx + wyy
        gauss = (wxx.T * sq) @ wyy + (wyy.T * sq) @ wxx - 2 * (wxy.T * sq) @ wxy
        self.bending = self.rigidity * ((sum_.T * sq) @ sum_ - (1 - NU) * gauss)
        self.load = w.T @ sq
        stiff = sum(
            self.elastic[i, j] * (plane[i].T * sq) @ plane[j] for i in range(3) for j in range(3)
        )
        self.plane = np.linalg.pinv(stiff, rcond=1e-12)
        self.flat = np.linalg.solve(self.bending, self.load)

    def tables(self, xs, ys):
        shape, even, odd = self.sets
        t = lambda a, b, dx, dy: table(a, b, xs, ys, dx, dy, self.ratio)
        ux, uy = t(odd, even, 1, 0), t(odd, even, 0, 1)
        vx, vy = t(even, odd, 1, 0), t(even, odd, 0, 1)
        none = np.zeros_like(ux)
        plane = [np.hstack([ux, none]), np.hstack([none, vy]), np.hstack([uy, vx])]
        ws = [t(shape, shape, *d) for d in ((0, 0), (1, 0), (0, 1), (2, 0), (0, 2), (1, 1))]
        return (*ws, plane)

    def in_plane(self, q):
        _, wx, wy, *_, plane = self.tabs
        a, b = wx @ q, wy @ q
        pulled = [a * a / 2, b * b / 2, a * b]
        force = sum(
            self.elastic[i, j] * (plane[i].T * self.weights) @ pulled[j]
            for i in range(3) for j in range(3)
        )
        return -self.plane @ force

    def solve(self, pressure, q):
        _, wx, wy, *_, plane = self.tabs
        sq = self.weights
        for _ in range(80):
            m = self.in_plane(q)
            a, b = wx @ q, wy @ q
            strain = [plane[0] @ m + a * a / 2, plane[1] @ m + b * b / 2, plane[2] @ m + a * b]
            force = [sum(self.elastic[i, j] * strain[j] for j in range(3)) for i in range(3)]
            by = [a[:, None] * wx, b[:, None] * wy, a[:, None] * wy + b[:, None] * wx]
            left = self.bending @ q - pressure * self.load
            tangent = self.bending + (wx.T * (sq * force[0])) @ wx + (wy.T * (sq * force[1])) @ wy
            tangent = tangent + (wx.T * (sq * force[2])) @ wy + (wy.T * (sq * force[2])) @ wx
            cross = 0
            for i in range(3):
                left = left + (by[i].T * sq) @ force[i]
                for j in range(3):
                    tangent = tangent + self.elastic[i, j] * (by[i].T * sq) @ by[j]
                    cross = cross + self.elastic[i, j] * (plane[i].T * sq) @ by[j]
            step = np.linalg.solve(tangent - cross.T @ self.plane @ cross, -left)
            q = q + step
            if np.abs(step).max() < 1e-10 * np.abs(q).max():
                break
        return q, self.in_plane(q)

    def fields(self, q, m, xs, ys):
        """Deflection, and stretching and bending stress (x, y, xy) at a surface, at all (x, y)."""
        w, wx, wy, wxx, wyy, wxy, plane = self.tables(xs, ys)
        a, b = wx @ q, wy @ q
        strain = [plane[0] @ m + a * a / 2, plane[1] @ m + b * b / 2, plane[2] @ m + a * b]
        curved = [-(wxx @ q), -(wyy @ q), -2 * (wxy @ q)]
        both = [
            np.array([sum(self.elastic[i, j] * of[j] for j in range(3)) for i in range(3)])
            for of in (strain, curved)
        ]
        return w @ q, both[0], both[1] / 2


def mises(s):
    return np.sqrt(s[0] ** 2 - s[0] * s[1] + s[1] ** 2 + 3 * s[2] ** 2)


def shares(ratio, clamped, immovable, terms, plane_terms):
    plate = Plate(ratio, clamped, immovable, terms, plane_terms)
    xs, ys = np.linspace(-1, 1, 41), np.linspace(-1, 1, 61)
    still = np.zeros(plate.plane.shape[0])
    w, _, bent = plate.fields(plate.flat, still, xs, ys)
    middle = np.ravel_multi_index((20, 30), (41, 61))
    x, y = np.meshgrid(xs, ys, indexing="ij")
    inside = ((1 - abs(x)) / 2 >= 0.25) & ((1 - abs(y)) * ratio / 2 >= 0.25)
    inside = inside.ravel()
    q = 0.5 * plate.flat * BULGES[0] / w[middle]
    rows = []
    for bulge in BULGES:
        pressure = bulge / w[middle]
        q, m = plate.solve(pressure, q)
        now, pull, bend = plate.fields(q, m, xs, ys)
        most = np.maximum(mises(pull + bend), mises(pull - bend))
        flat = mises(pressure * bent)
        swept = (plate.load @ q) / (pressure * plate.load @ plate.flat)
        rows.append([
            now[middle] / bulge,
            most[inside].max() / flat[inside].max(),
            most.max() / flat.max(),
            swept,
        ])
    return rows, w[middle] * plate.rigidity, plate.load @ plate.flat * plate.rigidity


def main():
    up = lambda share: math.ceil(1000 * share - 1e-6)
    for clamped in (0, 1):
        for ratio in RATIOS:
            terms = (9, 12) if ratio < 3 else (11, 14)
            rows, deflection, volume = shares(ratio, clamped, 0, *terms)
            bulge, inside, edge, swept = ([up(row[k]) for row in rows] for k in range(4))
            if not clamped:
                inside, edge = [max(pair) for pair in zip(inside, edge)], swept
            print("held" if clamped else "free", ratio, bulge, inside, edge, swept,
                  f"{deflection:.6f} {volume:.7f}", flush=True)


if __name__ == "__main__":
    main()
