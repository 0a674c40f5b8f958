# Torsion constant J, shear centre and warping constant of invented sections and of the AASHTO
# Type III outline, by the finite elements of quads.py: python3 -B torsion.py, half a minute.
# numpy 1.24.2 and scipy 1.10.1 (Debian 12).
# Each line is a value and its error: for J half of the bracket between the lower and the
# upper bound; else twice what n = 16 and n = 24 differ by. Places from the origin of the
# drawing, y to the left and z upwards; ratio of Poisson behind the shear centre.
import math
import numpy as np
from quads import Section


def sides(right):  # a block right of the axis and its mirror image
    return [right, [(-y, z) for y, z in right[::-1]]]


def girder(web, depth, foot, head):  # head: outlines of the wing in one or two blocks, from the web outwards
    low, high = foot[3][1], min(z for y, z in head[0])
    column = [[(-web, a), (web, a), (web, b), (-web, b)] for a, b in ((0, low), (low, high), (high, depth))]
    return column + [b for wing in [foot] + head for b in sides(wing)]


I_GIRDER = girder(.1, 1.6, [(.1, 0), (.3, 0), (.3, .2), (.1, .34)], [[(.1, 1.4), (.4, 1.48), (.4, 1.6), (.1, 1.6)]])
BULB_TEE = girder(.09, 1.5, [(.09, 0), (.35, 0), (.35, .15), (.09, .29)],
                  [[(.09, 1.34), (.14, 1.39), (.14, 1.5), (.09, 1.5)], [(.14, 1.39), (.6, 1.44), (.6, 1.5), (.14, 1.5)]])
TYPE_III = girder(3.5, 45, [(3.5, 0), (11, 0), (11, 7), (3.5, 14.5)], [[(3.5, 33.5), (8, 38), (8, 45), (3.5, 45)]])
HALF_BOX = [[(-2.6, 2), (-1.5, 1.8), (-1.5, 2.2), (-2.6, 2.2)], [(-1.5, 1.8), (-1.2, 1.8), (-1.2, 2.2), (-1.5, 2.2)],
            [(-1.2, 1.8), (0, 1.95), (0, 2.2), (-1.2, 2.2)], [(-1.3, .3), (-1, .3), (-1.2, 1.8), (-1.5, 1.8)],
            [(-1.3, 0), (-1, 0), (-1, .3), (-1.3, .3)], [(-1, 0), (0, 0), (0, .2), (-1, .3)]]
CHANNEL = [[(0, .12), (.1, .12), (.1, 1.88), (0, 1.88)], [(0, 0), (.1, 0), (.1, .12), (0, .12)], [(.1, 0), (1, 0), (1, .12), (.1, .12)],
           [(0, 1.88), (.1, 1.88), (.1, 2), (0, 2)], [(.1, 1.88), (1, 1.88), (1, 2), (.1, 2)]]
ANGLE = [[(0, 0), (.15, 0), (.15, .1), (0, .1)], [(.15, 0), (.9, 0), (.9, .1), (.15, .1)], [(0, .1), (.15, .1), (.15, 1.2), (0, 1.2)]]
BOX = [[(-1.55, 2.35), (1.55, 2.35), (1.55, 2.6), (-1.55, 2.6)], [(-1.85, 0), (1.85, 0), (1.85, .25), (-1.85, .25)]]
for block in ([(1.55, 2.35), (2.5, 2.35), (2.5, 2.6), (1.55, 2.6)], [(1.55, 2.35), (2.15, 2.1), (2.5, 2.1), (2.5, 2.35)],
              [(2.5, 2.35), (5, 2.5), (5, 2.6), (2.5, 2.6)], [(2.5, 2.1), (5, 2.4), (5, 2.5), (2.5, 2.35)],
              [(2.15, .55), (2.5, .55), (2.5, 2.1), (2.15, 2.1)], [(1.85, .25), (2.5, .25), (2.5, .55), (2.15, .55)],
              [(1.85, 0), (2.5, 0), (2.5, .25), (1.85, .25)]):
    BOX += sides(block)
VOID = 4.3 * 2.1 - .6 * .25 - .3 * .3  # its void, less two haunches above and two below


def at(radius, k):  # corner k of a twelve-sided ring, open on the side of -y
    a = math.radians(-165 + 30 * k)
    return radius / math.cos(math.radians(15)) * math.cos(a), radius / math.cos(math.radians(15)) * math.sin(a)


RING = [[at(.92, k), at(1.08, k), at(1.08, k + 1), at(.92, k + 1)] for k in range(11)]


def shear_centre(s, warping, poisson):
    # Saint-Venant's flexure: strain x(a·y + b·z), shear strain ∇χ - d, d of Poisson's ratio. Virtual
    # work of the warping w for the load of χ gives the torque about the centroid, E = 1.
    def torque(a, b):
        total = 0
        for w, f, g, p in s.gauss:
            y, z = p.T
            strain = a * y + b * z
            d = poisson * np.array([a * (y * y - z * z) / 2 + b * y * z, a * y * z + b * (z * z - y * y) / 2])
            slope = np.einsum('edn,en->de', g, warping[s.cells]) + np.array([-z, y])
            total -= (w * (strain * (warping[s.cells] @ f) + (d * slope).sum(0) / 2 / (1 + poisson))).sum()
        return total
    flexibility = np.linalg.inv(s.inertia)
    return np.array([torque(*flexibility[1]), -torque(*flexibility[0])])


def numbers(blocks, n, holes):
    s = Section(blocks, n, holes)
    low, (w, high) = s.lower(), s.warping()
    centre = shear_centre(s, w, 0)
    about = [(g, (w[s.cells] @ f - centre[1] * p[:, 0] + centre[0] * p[:, 1])) for g, f, _, p in s.gauss]
    return low, high, *(s.centroid + centre), *(s.centroid + shear_centre(s, w, .3)), sum((g * u * u).sum() for g, u in about)


for name, blocks, holes in (('I-girder', I_GIRDER, ()), ('bulb-tee', BULB_TEE, ()), ('Type III', TYPE_III, ()), ('half-box', HALF_BOX, ()),
                            ('channel', CHANNEL, ()), ('angle', ANGLE, ()), ('open ring', RING, ()), ('box', BOX, (VOID,))):
    coarse, fine = numbers(blocks, 16, holes), numbers(blocks, 24, holes)
    print(f'{name}: J {(fine[0] + fine[1]) / 2:.10g} ± {(fine[1] - fine[0]) / 2:.2g}')
    for what, a, b in zip(('y at 0', 'z at 0', 'y at 0.3', 'z at 0.3', 'Cw'), coarse[2:], fine[2:]):
        print(f'{name}: {what} {b:.10g} ± {2 * abs(a - b):.2g}')
