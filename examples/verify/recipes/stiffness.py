# Beams of varying stiffness, on springs and with shear deformation, by the force method: python3 stiffness.py.
# mpmath 1.2.1 (Debian 12) with 30 digits: integrals of flexibility times moments by quad, systems by lu_solve.
# L = 1, w or P = 1, EI = 1 at the reference; moments sagging, deflections upwards as in package beam.
from mpmath import mp, mpf, quad, exp, sin, pi, matrix, lu_solve

mp.dps = 30
half, one, two = mpf(1) / 2, mpf(1), mpf(2)


def virtual(f, first, second, ends):
    return quad(lambda x: f(x) * first(x) * second(x), ends)


def simple(span, at):  # moment of a simple span under a unit force
    return lambda x: x * (span - at) / span if x < at else at * (span - x) / span


def uniform(span):
    return lambda x: x * (span - x) / 2


def middle(f, load, ends, above=mpf(0), below=mpf(0), shared=mpf(0)):
    # middle reaction of two spans of 1: the support under a simple span of 2 gives way by `above` for a unit
    # force; the end supports sink with `below` under that force and with `shared` under the load.
    m = simple(two, one)
    return (virtual(f, load, m, ends) + shared) / (virtual(f, m, m, ends) + above + below)


f = lambda x: 1 / (1 + (2 * x - 1) ** 2) ** 3
print('haunched middle', -virtual(f, uniform(one), simple(one, half), [0, half, 1]))
print('haunched slope', -virtual(f, uniform(one), lambda x: 1 - x, [0, half, 1]))

f = lambda x: exp(-2 * x)  # fixed span: rotation and rise of the right end vanish
a = matrix([[quad(f, [0, 1]), quad(lambda x: f(x) * x, [0, 1])],
            [quad(lambda x: f(x) * (1 - x), [0, 1]), quad(lambda x: f(x) * x * (1 - x), [0, 1])]])
b = matrix([quad(lambda x: f(x) * x * x / 2, [0, 1]), quad(lambda x: f(x) * (1 - x) * x * x / 2, [0, 1])])
m, v = lu_solve(a, b)
print('fixed left', m)
print('fixed right', m + v - half)

print('sine middle reaction', middle(lambda x: 1 / (1 + sin(pi * x / 2)), uniform(two), [0, 1, 2]))

f = lambda x: 1 if x < mpf('.25') or x > mpf('.75') else one / 3
print('thick middle', -virtual(f, simple(one, half), simple(one, half), [0, '.25', half, '.75', 1]))

k = mpf(100)  # ends: a unit middle force and the whole load 2 put a half and one on each
f = lambda x: 1 if x < mpf('.6') else one / 4
print('springs middle reaction', middle(f, uniform(two), [0, mpf('.6'), 1, 2], 1 / k, 1 / (2 * k), 1 / k))

f = lambda x: 1 if x < 1 else half
print('unlike spans middle reaction', middle(f, simple(two, mpf('.4')), [0, mpf('.4'), 1, 2]))

span, k, at = mpf(4), mpf(50), mpf('1.5')  # five springs: the inner three are the unknowns
inner = [mpf(1), mpf(2), mpf(3)]
stops = [0, 1, mpf('1.5'), 2, 3, 4]
ends = lambda p, q: ((span - p) * (span - q) + p * q) / span ** 2 / k  # sinking of the end springs
flexible = lambda p, q: virtual(lambda x: one, simple(span, p), simple(span, q), stops) + ends(p, q)
a = matrix([[flexible(p, q) + (1 / k if p == q else 0) for q in inner] for p in inner])
forces = lu_solve(a, matrix([flexible(p, at) for p in inner]))
print('five springs second', forces[0])
print('five springs third', forces[1])

print('cantilever tip', -quad(lambda x: (1 - x) ** 2 / (2 - x) ** 3 + 1 / (10 * (2 - x)), [0, 1]))
