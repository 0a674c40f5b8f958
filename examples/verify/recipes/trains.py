# Largest effects of trains that roll over a simple span, a cantilever and two spans: python3 trains.py.
# numpy 1.24.2 and scipy 1.10.1 (Debian 12). Each line: train, beam, effect, value (kN, m).
# Influence lines in closed form. Between two positions at which an axle comes on, goes off or passes a
# support every effect is smooth: 41 positions there, the best one refined, so that extremes are good to
# 1e-9 of their value. The largest moment stands under an axle, the least one over a support. For one
# span the rule of the absolute largest moment must give the same: resultant and axle as far from the
# middle on either side.
import numpy as np
from scipy.optimize import minimize_scalar

TRAINS = {'two axles': ([120, 90], [3.2]), 'three axles': ([60, 140, 140], [4.2, 5.6]),
          'twelve axles': ([95] * 6 + [110] * 6, [1.5] * 5 + [9] + [1.4] * 5)}
A, B = 18.0, 24.0  # the two spans


def on(q, length):
    return ((q > 0) & (q < length)).astype(float)


def span(x, p, length):  # moment at x of a simple span under a unit load at p
    return np.where(p < x, p * (length - x), x * (length - p)) / length


# p are the places of the axles; q, their places in the middle of a piece, says on which side of a support.
def middle(p, q):  # moment over the middle support, by three moments
    far = A + B - p
    return -on(q, A + B) * np.where(q < A, p * (A * A - p * p) / A, far * (B * B - far * far) / B) / 2 / (A + B)


def first(x, p, q):  # moment in the first span
    return on(q, A) * span(x, p, A) + middle(p, q) * x / A


def second(x, p, q):
    return on(A + B - q, B) * span(A + B - x, A + B - p, B) + middle(p, q) * (A + B - x) / B


def right(p, q):  # shear right of the middle support
    return on(A + B - q, B) * (A + B - p) / B - middle(p, q) / B


def left(p, q):  # shear left of it
    return -on(q, A) * p / A + middle(p, q) / A


def outer(p, q):  # reaction of the first span's outer support
    return on(q, A) * (A - p) / A + middle(p, q) / A


def simple(length):
    return [('moment', 1, [(0, length, lambda x, p, q: on(q, length) * span(x, p, length))]),
            ('end shear', 1, lambda p, q: on(q, length) * (length - p) / length)]


BEAMS = [('simple span of 24 m', [0, 24], simple(24.0)), ('simple span of 5 m', [0, 5], simple(5.0)),
         ('cantilever of 7 m', [0, 7], [('moment at the clamp', -1, lambda p, q: -on(q, 7) * p), ('shear', 1, lambda p, q: on(q, 7))]),
         ('spans of 18 and 24 m', [0, A, A + B], [
             ('largest moment', 1, [(0, A, first), (A, A + B, second)]), ('least moment', -1, middle),
             ('largest shear', 1, right), ('least shear', -1, left), ('largest outer reaction', 1, outer),
             ('least outer reaction', -1, outer), ('middle reaction', 1, lambda p, q: right(p, q) - left(p, q))])]


def extreme(supports, back, value):
    stops, best = np.unique([s + b for s in supports for b in back]), 0
    for a, b in zip(stops[:-1], stops[1:]):
        of = lambda t: value(t - back, (a + b) / 2 - back)
        grid = np.linspace(a, b, 41)
        k = int(np.argmax([of(t) for t in grid]))
        found = minimize_scalar(lambda t: -of(t), bounds=(grid[max(k - 1, 0)], grid[min(k + 1, 40)]), method='bounded', options={'xatol': 1e-9})
        best = max(best, of(grid[k]), -found.fun)
    return best


def rule(length, f, back):  # for each group of neighbours and each of its axles
    best = 0
    for g in [slice(i, j) for i in range(len(f)) for j in range(i + 1, len(f) + 1)]:
        resultant = f[g] @ back[g] / f[g].sum()
        for axle in back[g]:
            x = length / 2 + (resultant - axle) / 2
            p = x + axle - back[g]
            if p.min() >= 0 and p.max() <= length:
                best = max(best, f[g] @ span(x, p, length))
    return best


for train, (forces, spacing) in TRAINS.items():
    for beam, supports, effects in BEAMS:
        for what, sign, line in effects:
            best = rules = 0
            for f, gaps in ((forces, spacing), (forces[::-1], spacing[::-1])):
                f, back = np.array(f, float), np.concatenate([[0], np.cumsum(gaps)])
                if callable(line):
                    values = [lambda p, q: sign * (f @ line(p, q))]
                else:  # under each axle in each span
                    values = [lambda p, q, k=k, a=a, b=b, m=m: f @ m(p[k], p, q) if a < q[k] < b else 0
                              for k in range(len(f)) for a, b, m in line]
                best = max([best] + [extreme(supports, back, v) for v in values])
                rules = max(rules, rule(supports[1], f, back))
            assert what != 'moment' or abs(best - rules) < 1e-9 * best, (best, rules)
            print(f'{train}; {beam}; {what}; {sign * best:.12g}')
