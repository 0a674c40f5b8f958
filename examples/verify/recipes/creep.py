# A span of two cantilevers closed at mid-span: the share of the monolithic moment that creep brings:
# python3 creep.py. numpy 1.24.2 (Debian 12). Creep by EN 1992-1-1:2004, 3.1.2(6), 3.1.3(3) and Annex B.1,
# fcm 53 MPa, class N, 70 % humidity, h0 600 mm, to 36 500 d. Step by step: the integral of J(t, s) dX(s)
# equals what the first load still creeps, (creep(t, t0) - creep(tc, t0))/1.05, with J = Ecm/Ecm(s) +
# creep(t, s)/1.05; trapezoids on grids graded from closure, 4000 steps, whose last halving changes the
# share by 3e-6 at most. The formulas of Annex B.1 are recalled: the shares prove the integral, not them.
# The aged forms are EN 1992-2:2005, Annex KK, (KK.119) with
# 0.8, with and without E(tc)/E(t0). Lines: age at loading, age at closure, the three shares.
import numpy as np

FCM, HUMIDITY, SIZE, UNTIL = 53.0, 70.0, 600.0, 36500.0


def modulus(t):  # over Ecm
    return np.exp(0.25 * (1 - np.sqrt(28 / t))) ** 0.3


def creep(t, t0):
    a1, a2, a3 = [(35 / FCM) ** power for power in (0.7, 0.2, 0.5)]
    humid = (1 + (1 - HUMIDITY / 100) / (0.1 * np.cbrt(SIZE)) * a1) * a2
    strength, age = 16.8 / np.sqrt(FCM), 1 / (0.1 + t0 ** 0.2)
    slow = min(1.5 * (1 + (0.012 * HUMIDITY) ** 18) * SIZE + 250 * a3, 1500 * a3)
    lasted = np.maximum(t - t0, 0)
    return humid * strength * age * (lasted / (slow + lasted)) ** 0.3


def march(loaded, closed, steps):
    last = (UNTIL - closed) / 1e-3
    t = closed + 1e-3 * np.expm1(np.linspace(0, 1, steps + 1) * np.log1p(last))
    compliance = lambda at, s: 1 / modulus(s) + creep(at, s) / 1.05
    change = np.zeros(steps)
    for i in range(1, steps + 1):
        j = compliance(t[i], t[:i + 1])
        mean = (j[1:] + j[:-1]) / 2
        still = (creep(t[i], loaded) - creep(closed, loaded)) / 1.05
        change[i - 1] = (still - mean[:i - 1] @ change[:i - 1]) / mean[i - 1]
    return change.sum()


for loaded, closed in ((7.0, 60.0), (28.0, 365.0), (90.0, 180.0)):
    coarse, fine = march(loaded, closed, 2000), march(loaded, closed, 4000)
    assert abs(fine - coarse) < 3.1e-6
    aged = (creep(UNTIL, loaded) - creep(closed, loaded)) / (1 + 0.8 * creep(UNTIL, closed))
    print(f'{loaded:g} {closed:g}: {fine:.5f} {aged * modulus(closed) / modulus(loaded):.6f} {aged:.6f}')
