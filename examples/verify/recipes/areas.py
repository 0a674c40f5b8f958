# Area, centroid, second moments, moduli and principal moments of invented outlines: python3 areas.py.
# Two ways that must agree: layers (trapezoids between two levels, by fractions, exact; for the half-box
# and the angle, rectangles and triangles) and the sums over the edges of the outline (numpy 1.24.2 of
# Debian 12). Lines: section, property, value; m, places from the origin of the drawing.
from fractions import Fraction as F
import numpy as np


def triangle(p, q, r):  # area, first and second moments about the origin, exact
    area = ((q[0] - p[0]) * (r[1] - p[1]) - (r[0] - p[0]) * (q[1] - p[1])) / 2
    total = [p[i] + q[i] + r[i] for i in (0, 1)]
    second = [(p[i] * p[j] + q[i] * q[j] + r[i] * r[j] + total[i] * total[j]) * area / 12 for i, j in ((1, 1), (0, 0), (0, 1))]
    return [area, area * total[0] / 3, area * total[1] / 3] + second


def quadrilateral(block):  # a trapezoid is two triangles
    a, b, c, d = [(F(str(y)), F(str(z))) for y, z in block]
    return [s + t for s, t in zip(triangle(a, b, c), triangle(a, c, d))]


def layers(half):  # a symmetric section by its half widths and levels, from the soffit up
    return [[(-a, za), (a, za), (b, zb), (-b, zb)] for (a, za), (b, zb) in zip(half[:-1], half[1:]) if za != zb]


def edges(outline):  # the same by Green's theorem, in floating point
    p = np.array(outline, float)
    q = np.roll(p, -1, 0)
    c = p[:, 0] * q[:, 1] - q[:, 0] * p[:, 1]
    s = lambda i, j: (c * (p[:, i] * p[:, j] + q[:, i] * q[:, j] + (p + q)[:, i] * (p + q)[:, j])).sum() / 24
    return [c.sum() / 2, (c * (p + q)[:, 0]).sum() / 6, (c * (p + q)[:, 1]).sum() / 6, s(1, 1), s(0, 0), s(0, 1)]


BULB_TEE = [(.35, 0), (.35, .15), (.09, .29), (.09, 1.34), (.14, 1.39), (.6, 1.44), (.6, 1.5)]
HALF_BOX = [[(-2.6, 2), (-1.5, 1.8), (-1.5, 2.2), (-2.6, 2.2)], [(-1.5, 1.8), (-1.2, 1.8), (-1.2, 2.2), (-1.5, 2.2)],
            [(-1.2, 1.8), (0, 1.95), (0, 2.2), (-1.2, 2.2)], [(-1.3, .3), (-1, .3), (-1.2, 1.8), (-1.5, 1.8)],
            [(-1.3, 0), (-1, 0), (-1, .3), (-1.3, .3)], [(-1, 0), (0, 0), (0, .2), (-1, .3)]]
ANGLE = [[(0, 0), (.9, 0), (.9, .1), (0, .1)], [(0, .1), (.15, .1), (.15, 1.2), (0, 1.2)]]
OUTLINES = {
    'bulb-tee': (layers(BULB_TEE), BULB_TEE + [(-y, z) for y, z in BULB_TEE[::-1]], 1.5),
    'half-box': (HALF_BOX, [(0, 0), (0, .2), (-1, .3), (-1.2, 1.8), (0, 1.95), (0, 2.2), (-1.5, 2.2), (-2.6, 2.2), (-2.6, 2), (-1.5, 1.8),
                            (-1.3, .3), (-1.3, 0)], 2.2),
    'angle': (ANGLE, [(0, 0), (.9, 0), (.9, .1), (.15, .1), (.15, 1.2), (0, 1.2)], 1.2)}

for name, (blocks, outline, depth) in OUTLINES.items():
    exact = [sum(column) for column in zip(*map(quadrilateral, blocks))]
    assert np.allclose(edges(outline), [float(v) for v in exact], rtol=1e-13, atol=1e-14)
    area, y, z = exact[0], exact[1] / exact[0], exact[2] / exact[0]
    iy, iz, iyz = exact[3] - area * z * z, exact[4] - area * y * y, exact[5] - area * y * z
    middle, radius = float(iy + iz) / 2, float(((iy - iz) / 2) ** 2 + iyz ** 2) ** .5
    values = {'A': area, 'yc': y, 'zc': z, 'Iy': iy, 'Iz': iz, 'Iyz': iyz, 'top modulus': iy / (F(str(depth)) - z), 'bottom modulus': iy / z,
              'larger principal moment': middle + radius, 'smaller principal moment': middle - radius}
    for what, value in values.items():
        print(f'{name}: {what} {float(value):.15g}')
