# Finite elements for Saint-Venant torsion and shear on a section drawn in quadrilateral
# blocks that meet in whole edges; torsion.py holds the sections and prints. numpy 1.24.2
# and scipy 1.10.1 (Debian 12). Elements are biquadratic, n x n to a block, graded to the
# third power towards all its edges, so that re-entrant corners cost no order.
# J is a bracket: the stress function gives a lower bound, the warping an upper one.
import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.linalg import splu

GAUSS, WEIGHT = np.polynomial.legendre.leggauss(4)


def shape(t):  # quadratic Lagrange at -1, 0, 1 and its slope
    return np.array([t * (t - 1) / 2, 1 - t * t, t * (t + 1) / 2]), np.array([t - 0.5, -2 * t, t + 0.5])


class Section:
    # blocks: four corners (y, z) each, anticlockwise; holes: for each void a point in it and its area
    def __init__(self, blocks, n, holes=()):
        s = np.linspace(-1, 1, n + 1)
        s = np.sign(s) * (1 - (1 - np.abs(s)) ** 3)  # graded to both ends
        fine = np.sort(np.concatenate([s, (s[1:] + s[:-1]) / 2]))
        u, v = np.meshgrid(fine, fine)
        n4 = np.array([(1 - u) * (1 - v), (1 + u) * (1 - v), (1 + u) * (1 + v), (1 - u) * (1 + v)]) / 4
        points, cells, m = [], [], 2 * n + 1
        for i, block in enumerate(blocks):
            points.append(np.einsum('cij,cd->ijd', n4, np.array(block, float)).reshape(-1, 2))
            at = np.arange(m * m).reshape(m, m) + i * m * m
            cells += [at[2 * r:2 * r + 3, 2 * c:2 * c + 3].ravel() for r in range(n) for c in range(n)]
        points = np.concatenate(points)
        size = np.ptp(points)
        _, first, same = np.unique(np.round(points / size * 1e9), axis=0, return_index=True, return_inverse=True)
        self.x, self.cells, self.holes = points[first], same.ravel()[np.array(cells)], holes
        self._integrate()

    def _integrate(self):
        xe, k, self.gauss = self.x[self.cells], 0, []
        for a, wa in zip(GAUSS, WEIGHT):
            for b, wb in zip(GAUSS, WEIGHT):
                (fa, da), (fb, db) = shape(a), shape(b)
                f, d = np.kron(fb, fa), np.array([np.kron(fb, da), np.kron(db, fa)])
                jac = np.einsum('in,end->eid', d, xe)
                grad = np.linalg.solve(jac, np.broadcast_to(d, (len(xe),) + d.shape))
                w = np.linalg.det(jac) * wa * wb
                k = k + np.einsum('e,ein,eim->enm', w, grad, grad)
                self.gauss.append((w, f, grad, xe.transpose(0, 2, 1) @ f))
        rows, cols = np.repeat(self.cells, 9, 1), np.tile(self.cells, (1, 9))
        self.k = coo_matrix((k.ravel(), (rows.ravel(), cols.ravel()))).tocsc()
        self.area = self.integral(lambda p: np.ones(len(p)))
        self.centroid = np.array([self.integral(lambda p: p[:, i]) for i in (0, 1)]) / self.area
        self.x = self.x - self.centroid
        self.gauss = [(w, f, g, p - self.centroid) for w, f, g, p in self.gauss]
        self.inertia = np.array([[self.integral(lambda p: p[:, i] * p[:, j]) for j in (0, 1)] for i in (0, 1)])

    def integral(self, of):
        return sum((w * of(p)).sum() for w, f, g, p in self.gauss)

    def load(self, of):  # of(f, grad, p): elements x 9
        total = sum(w[:, None] * of(f, g, p) for w, f, g, p in self.gauss)
        return np.bincount(self.cells.ravel(), total.ravel(), len(self.x))

    def edges(self):  # nodes of the boundary, those of one loop after the other
        sides = self.cells[:, [[0, 1, 2], [2, 5, 8], [8, 7, 6], [6, 3, 0]]].reshape(-1, 3)
        _, first, count = np.unique(np.sort(sides[:, [0, 2]], 1), axis=0, return_index=True, return_counts=True)
        free, loops = {a: (b, c) for a, b, c in sides[first[count == 1]]}, []
        while free:
            start, loop = next(iter(free)), []
            while start in free:
                b, c = free.pop(start)
                loop, start = loop + [start, b], c
            loops.append(np.array(loop))
        return sorted(loops, key=lambda l: -np.ptp(self.x[l], axis=0).sum())

    def lower(self):  # J by the stress function: zero outside, constant round each void
        unknown = np.arange(len(self.x))
        loops, voids = self.edges(), np.zeros(len(self.x))
        assert len(loops) == 1 + len(self.holes)
        for loop, area in zip(loops[1:], self.holes):
            unknown[loop], voids[loop[0]] = loop[0], 2 * area
        tie = coo_matrix((np.ones(len(unknown)), (np.arange(len(unknown)), unknown))).tocsc()
        keep = np.setdiff1d(np.unique(unknown), loops[0])
        right = (tie.T @ self.load(lambda f, g, p: 2 * np.tile(f, (len(p), 1))) + voids)[keep]
        return right @ splu((tie.T @ self.k @ tie)[keep][:, keep].tocsc()).solve(right)

    def warping(self):  # nodal warping of mean zero for a rotation about the centroid, and J by it
        f = self.load(lambda f, g, p: g[:, 0] * p[:, 1:] - g[:, 1] * p[:, :1])
        w = np.zeros(len(f))
        w[1:] = splu(self.k[1:, 1:]).solve(f[1:])
        w -= self.load(lambda f, g, p: np.tile(f, (len(p), 1))) @ w / self.area
        return w, np.trace(self.inertia) - w @ f
