"""Answers of outside libraries for the flow tests, on whole millimetres.

    terrain.py fill DEM.tif DIR     writes ground.i32 and filled.i32 and prints columns and rows
    terrain.py accumulate DIR       reads down.i32 and writes cells.i64

Rasters are raw little-endian numbers, row by row from the north. down.i32 holds the index
of the cell that each cell drains to, or -1 where flow ends.

Filled surface: skimage.morphology.reconstruction by erosion, its seed the ground on the
border and the highest elevation inside (scikit-image manual). Catchments: the solution a
of (I - W) a = 1, with W[i, j] = 1 where cell j drains to cell i, by
scipy.sparse.linalg.spsolve_triangular with donors before their receivers (scipy manual).
"""

import pathlib
import subprocess
import sys

import numpy as np
import scipy.sparse
import scipy.sparse.linalg
import skimage.morphology


def read_millimetres(dem, folder):
    """The first band in whole millimetres, halves rounded away from zero; metres in."""
    raw = folder / "ground.envi"
    subprocess.run(
        ["gdal_translate", "-q", "-of", "ENVI", "-ot", "Float64", str(dem), str(raw)],
        check=True,
    )
    lines = (line.partition("=") for line in raw.with_suffix(".hdr").read_text().splitlines())
    header = {name.strip(): value.strip() for name, _, value in lines}
    shape = int(header["lines"]), int(header["samples"])
    metres = np.fromfile(raw, dtype="<f8").reshape(shape)
    void = float(header["data ignore value"])
    if np.isnan(metres).any() or (metres == void).any():
        sys.exit(f"{dem}: cells without data; this reference knows only whole grids")
    scaled = metres * 1000
    return np.where(scaled < 0, np.ceil(scaled - 0.5), np.floor(scaled + 0.5)).astype("<i4")


def fill(dem, folder):
    ground = read_millimetres(dem, folder)
    seed = ground.astype(np.float64)
    seed[1:-1, 1:-1] = ground.max()
    filled = skimage.morphology.reconstruction(
        seed, ground.astype(np.float64), method="erosion", footprint=np.ones((3, 3))
    )
    ground.tofile(folder / "ground.i32")
    filled.astype("<i4").tofile(folder / "filled.i32")
    print(ground.shape[1], ground.shape[0])


def steps_to_end(down):
    """Steps from each cell to where its flow ends, by doubling the stride."""
    at_end = np.arange(down.size)
    ahead = np.where(down < 0, at_end, down)
    steps = (down >= 0).astype(np.int64)
    for _ in range(down.size.bit_length()):
        if not steps[ahead].any():
            return steps
        steps = steps + steps[ahead]
        ahead = ahead[ahead]
    sys.exit("down.i32: flow runs in a loop")


def accumulate(folder):
    down = np.fromfile(folder / "down.i32", dtype="<i4")
    order = np.argsort(-steps_to_end(down), kind="stable")  # donors first
    place = np.empty_like(order)
    place[order] = np.arange(order.size)
    donors = np.flatnonzero(down >= 0)
    flow = scipy.sparse.csr_matrix(
        (np.ones(donors.size), (place[down[donors]], place[donors])),
        shape=(down.size, down.size),
    )
    system = (scipy.sparse.identity(down.size, format="csr") - flow).tocsr()
    cells = scipy.sparse.linalg.spsolve_triangular(system, np.ones(down.size), lower=True)
    if (cells != np.rint(cells)).any():
        sys.exit("catchments are not whole")
    cells[place].astype("<i8").tofile(folder / "cells.i64")


if __name__ == "__main__":
    task, *rest = sys.argv[1:]
    if task == "fill":
        fill(pathlib.Path(rest[0]), pathlib.Path(rest[1]))
    elif task == "accumulate":
        accumulate(pathlib.Path(rest[0]))
    else:
        sys.exit(__doc__)
