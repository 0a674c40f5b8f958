# Lateral bow of a girder without an axis of symmetry: python3 -B unsymmetric.py, a second.
# numpy 1.24.2 (Debian 12).
# A half-box is cut along its length into beam elements with cubic shape functions, which
# bend about the two principal axes of the section, found as eigenvectors. The weight, upright
# or laid to the side, is resolved along those axes, each plane is solved on its own, and
# the deflections are turned back. The second moments are sums over a grid of cells with
# their own second moments added, which is exact, for all sides of the outline are along
# the axes. Means are over the length, by the integrals of the shape functions; the largest
# bow is at mid-length of a girder on equal overhangs. Cubic elements with consistent loads
# are exact at their nodes; printed are N = 40 and N = 80, which agree to 1e-9 of the value.
import numpy as np

# the half-box: top slab, web and part of a bottom slab, (y from, to, z from, to) in m
PARTS = [(0.0, 2.3, 1.55, 1.8), (0.9, 1.25, 0.25, 1.55), (0.0, 1.25, 0.0, 0.25)]


def section():
    area = first = 0
    second = np.zeros((2, 2))
    for y0, y1, z0, z1 in PARTS:
        a, c = (y1 - y0) * (z1 - z0), np.array([(y0 + y1) / 2, (z0 + z1) / 2])
        area, first = area + a, first + a * c
        second += a * np.outer(c, c) + a * np.diag([(y1 - y0)**2, (z1 - z0)**2]) / 12
    return area, second - np.outer(first, first) / area  # of y·y, y·z, z·z about the centroid


def plane(EI, load, L, a, b, N):
    """Nodal deflection and slope along the load, and its mean; supports at a and L - b."""
    x = np.unique(np.concatenate([np.linspace(0, a, max(2, N // 4 + 1)), np.linspace(a, L - b, N + 1), np.linspace(L - b, L, max(2, N // 4 + 1))]))
    x = x[np.concatenate([[True], np.diff(x) > 1e-9])]
    n = len(x)
    K, f, mean = np.zeros((2 * n, 2 * n)), np.zeros(2 * n), np.zeros(2 * n)
    for i, h in enumerate(np.diff(x)):
        k = np.array([[12, 6*h, -12, 6*h], [6*h, 4*h*h, -6*h, 2*h*h], [-12, -6*h, 12, -6*h], [6*h, 2*h*h, -6*h, 4*h*h]]) * EI / h**3
        shape = np.array([h / 2, h * h / 12, h / 2, -h * h / 12])
        s = slice(2 * i, 2 * i + 4)
        K[s, s] += k
        f[s] += load * shape
        mean[s] += shape / L
    held = [2 * int(np.argmin(abs(x - p))) for p in (a, L - b)]
    free = np.setdiff1d(np.arange(2 * n), held)
    u = np.zeros(2 * n)
    u[free] = np.linalg.solve(K[np.ix_(free, free)], f[free])
    middle = int(np.argmin(abs(x - L / 2)))
    # the mean of a loaded element is that of the shape functions plus its own sag, h^4/(720 EI)
    own = sum(load * h**5 / (720 * EI) for h in np.diff(x)) / L
    return u[2 * middle], float(mean @ u) + own


def bows(L, w, E, a, b, N):
    I = section()[1]
    inertia, axes = np.linalg.eigh(I)  # of the square of the distance along each axis
    out = []
    for direction in (np.array([0.0, -1.0]), np.array([1.0, 0.0])):  # upright, laid to the left
        moved = np.zeros(2), np.zeros(2)
        for k in (0, 1):
            axis = axes[:, k]
            for i, v in enumerate(plane(E * inertia[k], w * axis @ direction, L, a, b, N)):
                moved[i][:] += v * axis
        out.append(moved)
    return out


def show(name, L, W, E, a, b):
    for N in (40, 80):
        (mid, mean), (_, side) = bows(L, W / L, E, a, b, N)
        print(name, "N", N, f"bow laid to the side {side[0]:.9g} own bow {abs(mean[0]):.9g} sag {-mean[1]:.9g}",
              f"to the left at mid-length {mid[0]:.9g} down {-mid[1]:.9g}" if a == b else "")


area, second = section()
print(f"A {area:.9g} Iy {second[1, 1]:.9g} Iz {second[0, 0]:.9g} Iyz {second[0, 1]:.9g}")
print("angle", f"{np.degrees(np.arctan2(*np.linalg.eigh(second)[1][::-1, 1])):.6g}")
show("26 m, 1.5 m overhangs", 26, 25e3 * area * 26, 33e9, 1.5, 1.5)
show("31 m, unlike overhangs", 31, 25e3 * area * 31, 33e9, 2.0, 4.5)
