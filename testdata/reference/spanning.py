"""Filled surfaces of many small grids by minimum spanning trees, on whole millimetres.

    spanning.py DIR     reads grids.i32 and writes filled.i32

grids.i32 holds little-endian numbers, for each grid: columns, rows, the number of ends of
flow inside, their cell indexes, and the elevations row by row; -2147483648 is void.
filled.i32 holds the filled surfaces, one after another.

Water passes between two of eight neighbours at the height of the higher, and from a cell on
the rim of the data, or from an end inside, to the outside at the cell's own height. The way
with the lowest highest point runs in the minimum spanning tree of these passes, so a cell
fills to the highest pass on its way out in the tree: scipy.sparse.csgraph's
minimum_spanning_tree and breadth_first_order (scipy manual).
"""

import pathlib
import sys

import numpy as np
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import breadth_first_order, minimum_spanning_tree

VOID = -(2**31)


def passes(ground, inside):
    """Pairs of nodes and the height at which water passes; the last node is the outside."""
    rows, cols = ground.shape
    outside = ground.size
    frame = np.full((rows + 2, cols + 2), VOID, dtype=np.int64)
    frame[1:-1, 1:-1] = ground
    node = np.full(frame.shape, -1)
    node[1:-1, 1:-1] = np.arange(outside).reshape(rows, cols)
    rim = np.zeros(ground.shape, dtype=bool)
    a, b, height = [], [], []
    for down in (-1, 0, 1):
        for right in (-1, 0, 1):
            there = frame[1 + down : rows + 1 + down, 1 + right : cols + 1 + right]
            rim |= there == VOID
            both = (ground != VOID) & (there != VOID)
            if (down, right) > (0, 0):  # each pair once
                a.append(node[1:-1, 1:-1][both])
                b.append(node[1 + down : rows + 1 + down, 1 + right : cols + 1 + right][both])
                height.append(np.maximum(ground, there)[both])
    rim &= ground != VOID
    rim.flat[inside] = True
    a.append(np.flatnonzero(rim))
    b.append(np.full(rim.sum(), outside))
    height.append(ground[rim])
    return np.concatenate(a), np.concatenate(b), np.concatenate(height)


def fill(ground, inside):
    a, b, height = passes(ground, inside)
    lift = 1 - height.min()  # a stored weight of zero would mean no pass
    size = ground.size + 1
    tree = minimum_spanning_tree(csr_matrix((height + lift, (a, b)), shape=(size, size)))
    both_ways = (tree + tree.T).tocsr()
    order, before = breadth_first_order(both_ways, size - 1, directed=False)
    steps = np.asarray(both_ways[order[1:], before[order[1:]]]).ravel()
    level = np.full(size, -np.inf)
    for cell, step in zip(order[1:], steps):
        level[cell] = max(level[before[cell]], step - lift)
    filled = np.full(ground.size, VOID, dtype="<i4")
    valid = ground.ravel() != VOID
    filled[valid] = level[:-1][valid].astype("<i4")
    return filled


def main(folder):
    numbers = np.fromfile(folder / "grids.i32", dtype="<i4").astype(np.int64)
    out, at = [], 0
    while at < numbers.size:
        cols, rows, ends = numbers[at : at + 3]
        at += 3
        inside, at = numbers[at : at + ends], at + ends
        ground, at = numbers[at : at + rows * cols].reshape(rows, cols), at + rows * cols
        out.append(fill(ground, inside))
    np.concatenate(out).tofile(folder / "filled.i32")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(pathlib.Path(sys.argv[1]))
