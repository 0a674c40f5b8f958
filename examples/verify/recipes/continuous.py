# Moments, reactions, shears and inflection points of equal spans L under w on the marked spans:
# python3 continuous.py. Theorem of three moments (Clapeyron 1857) solved in fractions, no rounding before
# the last line (inflection points: one square root); any Python from 3.6. Of a pattern that is its own mirror
# image the first half is printed. Lines: pattern, what, values in wL², wL and L: moments over the inner
# supports, reactions, shears at the left end of each span; of loaded spans the largest moment and its place.
from fractions import Fraction as F


def supports(loaded):  # moments over all supports, zero at the ends
    n = len(loaded) - 1
    rows = [[F(4 if i == j else abs(i - j) == 1) for j in range(n)] + [-F(loaded[i] + loaded[i + 1], 4)] for i in range(n)]
    for i in range(n):  # Gauss, on a matrix that needs no pivots
        rows[i] = [v / rows[i][i] for v in rows[i]]
        for k in range(n):
            if k != i:
                rows[k] = [a - rows[k][i] * b for a, b in zip(rows[k], rows[i])]
    return [F(0)] + [row[-1] for row in rows] + [F(0)]


for pattern in ('11', '111', '1111', '11111', '111111', '10', '101', '010', '110', '1010', '1101', '0110', '10101', '01010', '11010'):
    loaded = [int(c) for c in pattern]
    n, m = len(loaded), supports(loaded)
    left = [m[i + 1] - m[i] + F(loaded[i], 2) for i in range(n)]  # shear at the two ends of each span
    right = [v - F(c) for v, c in zip(left, loaded)]
    reactions = [a - b for a, b in zip(left + [F(0)], [F(0)] + right)]
    part = (lambda k: (k + 1) // 2) if pattern == pattern[::-1] else (lambda k: k)
    spans = [i for i in range(part(n)) if loaded[i]]
    out = {'moment': m[1:1 + part(n - 1)], 'reaction': reactions[:part(n + 1)], 'shear': left[:part(n)],
           'peak': [m[i] + left[i] ** 2 / 2 for i in spans], 'place': [left[i] for i in spans]}
    for what, values in out.items():
        print(pattern, what, *(f'{float(v):.15g}' for v in values), sep='; ')
    for i in spans:
        root = float(left[i] ** 2 + 2 * m[i]) ** .5
        inside = [x for x in (float(left[i]) - root, float(left[i]) + root) if 1e-9 < x < 1 - 1e-9]
        print(pattern, f'inflection in span {i + 1}', *(f'{x:.15g}' for x in inside), sep='; ')
