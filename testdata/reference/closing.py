"""Answers of an outside library for the tests of the black top-hat, on whole millimetres.

    closing.py DIR COLUMNS SIDE     reads ground.i32 and writes tophat.i32

Rasters are raw little-endian numbers, row by row from the north; the least of them stands for
no data. SIDE is the side of the square in cells, an odd number.

Black top-hat: scipy.ndimage.grey_closing less the ground (scipy manual). The ground is laid into a
frame without data as wide as two squares reach, so that what the library takes for the
land beyond an edge plays no part.
"""

import pathlib
import sys

import numpy as np
import scipy.ndimage

VOID = np.iinfo("<i4").min


def top_hat(ground, side):
    frame = side - 1
    framed = np.pad(ground.astype(np.int64), frame, constant_values=VOID)
    closed = scipy.ndimage.grey_closing(framed, size=(side, side), mode="nearest")
    inside = closed[frame:-frame, frame:-frame]
    return np.where(ground == VOID, VOID, inside - ground)


def main(folder, columns, side):
    folder = pathlib.Path(folder)
    ground = np.fromfile(folder / "ground.i32", dtype="<i4").reshape(-1, int(columns))
    top_hat(ground, int(side)).astype("<i4").tofile(folder / "tophat.i32")


if __name__ == "__main__":
    main(*sys.argv[1:])
