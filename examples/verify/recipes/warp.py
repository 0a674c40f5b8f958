# Four supports, two on each of two lines across, of a member with torsional stiffness GJ: python3 -B warp.py.
# Equilibrium of each line (forces and couple) and force = stiffness times shortening of each support, solved as
# one system in fractions (J: one square root); a support that would pull is taken out. Any Python from 3.6.
# Nothing but statics: no formula for the warp. Supports left and right of the first line, then of the second.
# The box: centre lines 6.0 top, 5.0 bottom, 2.7 m high, t 0.30, 0.28, webs 0.36 m, J = 4·A²/Σ(s/t); 34 GPa,
# ν = 0.2, 31.5 m between the lines, 4.5 m across, 1,765 kN on each in one plane. Forces kN, levels mm.
from fractions import Fraction as F
from math import sqrt


def solve(rows):  # Gauss with pivots; the right side is the last column
    n = len(rows)
    for i in range(n):
        p = next(k for k in range(i, n) if rows[k][i] != 0)
        rows[i], rows[p] = rows[p], rows[i]
        rows[i] = [v / rows[i][i] for v in rows[i]]
        for k in range(n):
            if k != i and rows[k][i] != 0:
                rows[k] = [a - rows[k][i] * b for a, b in zip(rows[k], rows[i])]
    return [r[-1] for r in rows]


def forces(length, widths, gj, give, level, out, absent=()):
    # unknowns: rise of lines 1 and 2 and their rotation (left up) from where all are level, then the forces;
    # GJ and forces in any one unit of force, lengths and levels in m, give = 1/stiffness
    rows = []
    for line in (0, 1):
        left, right = 2 * line, 2 * line + 1
        half = widths[line] / 2
        vertical = [F(0)] * 8
        vertical[4 + left] = vertical[4 + right] = F(1)
        rows.append(vertical + [level[left] + level[right]])
        couple = [F(0)] * 8  # of the forces, against the twist to the other line
        couple[4 + left], couple[4 + right] = half, -half
        couple[2 + line], couple[3 - line] = -gj / length, gj / length
        rows.append(couple + [half * (level[left] - level[right])])
    for i in range(4):
        row = [F(0)] * 8
        if i in absent:
            row[4 + i] = F(1)
            rows.append(row + [F(0)])
            continue
        row[i // 2] = F(1)  # rise of the member there = level of the support − its further shortening
        row[2 + i // 2] = widths[i // 2] / 2 * (1 if i % 2 == 0 else -1)
        row[4 + i] = give[i]
        rows.append(row + [out[i] + give[i] * level[i]])
    found = solve(rows)[4:]
    pulls = [i for i in range(4) if found[i] < 0]
    if pulls:  # the one that pulls most goes first
        return forces(length, widths, gj, give, level, out, absent + (min(pulls, key=lambda i: found[i]),))
    return found


def warp(name, length, widths, gj, give, level, support=2, part=F(1, 20)):
    small = F(1, 10 ** 9)
    moved = forces(length, widths, gj, give, level, [small if i == support else F(0) for i in range(4)])
    per = [(a - b) / small / 1000 for a, b in zip(moved, level)]  # kN per mm
    used = min(part * b / abs(p) for p, b in zip(per, level))
    lift = min(b / abs(p) for p, b in zip(per, level))
    print(name, *(f'{float(v):.12g}' for v in (per[support], used, lift)), sep='; ')


bredt = 4 * (F(11, 2) * F('2.7')) ** 2 / (F(6) / F('.3') + F(5) / F('.28') + 2 * F(sqrt(2.7 ** 2 + .5 ** 2)) / F('.36'))
print('J', f'{float(bredt):.12g}')
gj = F('34e6') / F('2.4') * bredt
four = [F('4.5')] * 2
for k in (0, 2000, 500, 100):  # kN/mm
    give = [F(1, k * 1000) if k else F(0)] * 4
    warp(f'k {k} kN/mm: kN per mm, 5 %, lift-off', F('31.5'), four, gj, give, [F(1765)] * 4)
level = [F(190) * F('9.80665') / 4] * 4  # an open U: J 0.044, 25 m, 190 t, 3.5 m across
warp('U: kN per mm, 5 %, lift-off', F(25), [F('3.5')] * 2, F('34e6') / F('2.4') * F('.044'), [F(0)] * 4, level)

uneven = F(30), [F('4.5'), F('3.2')], F('2e8'), [F(1, k) for k in (900000, 400000, 600000, 250000)], [F(v) for v in (1500, 1300, 900, 1100)]
warp('uneven, third: kN per mm, 5 %, lift-off', *uneven)
for mm in (4, -4, 30):
    print(f'uneven, third {mm} mm up', *(f'{float(v):.12g}' for v in forces(*uneven, [F(0), F(0), F(mm, 1000), F(0)])), sep='; ')
