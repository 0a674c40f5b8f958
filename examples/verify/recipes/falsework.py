# A beam that hardened on three equal rows of falsework, under the equivalent loads of a parabolic tendon
# (q upwards, q·L/2 downwards at each end): python3 -B falsework.py. Any Python from 3.6.
# Force method with the middle row as the redundant: it loses X, each end gains X/2. The middle rises by
# 5·q·L⁴/(384·EI) − X·L³/(48·EI) above the ends, which sink by X/(2·k); it rebounds by X/k, until it has no force.
# L 12 m, 0.5 m by 0.8 m, 25 kN/m³, E = 22·(48/10)^0.3 GPa, k of a row (two towers). Forces kN: middle, each end.
L, w = 12.0, 0.5 * 0.8 * 25
EI = 22e6 * 4.8 ** 0.3 * 0.5 * 0.8 ** 3 / 12
for q, k in ((3.0, 30e3), (3.0, 300e3), (14.0, 60e3)):
    x = min(5 * q * L ** 4 / (384 * EI) / (1.5 / k + L ** 3 / (48 * EI)), w * L / 2)
    print(f'q {q} kN/m, k {k:.0f} kN/m: {w * L / 2 - x:.12g}; {w * L / 4 + x / 2:.12g}')
