package gdal

import (
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"

	"github.com/airbusgeo/godal"

	"siltstep/raster"
)

// Hillshade draws a grid as a shaded relief PNG whose longest side has at most maxPixels,
// lit from the north-west at 45°, voids transparent. The picture covers exactly the extent
// of the grid, and a smaller picture shades the mean of the cells below each pixel; it is
// not enlarged. Nothing else is left beside the file. Errors: a file that cannot be
// written; ctx cancelled. It panics where maxPixels is below 1.
func Hillshade(ctx context.Context, path string, g *raster.Grid, maxPixels int) (err error) {
	defer guard(&err)
	if maxPixels < 1 {
		panic(fmt.Sprintf("gdal: hillshade of %d pixels", maxPixels))
	}
	start()
	w, h := pictureSize(g.Cols, g.Rows, maxPixels)
	heights := meanHeights(g, w, h)
	if err := ctx.Err(); err != nil {
		return err
	}
	cellX := float64(g.Cols) * g.Transform.CellM / float64(w)
	cellY := float64(g.Rows) * g.Transform.CellM / float64(h)
	grey, err := shade(heights, w, h, cellX, cellY)
	if err != nil {
		return fmt.Errorf("shading %s: %w", path, err)
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	return writePicture(path, &image.Paletted{Pix: grey, Stride: w, Rect: image.Rect(0, 0, w, h), Palette: greys()})
}

// pictureSize keeps the shape of a grid and limits its longest side.
func pictureSize(cols, rows, limit int) (w, h int) {
	longest := max(cols, rows)
	if longest <= limit {
		return cols, rows
	}
	f := float64(limit) / float64(longest)
	return max(1, int(math.Round(float64(cols)*f))), max(1, int(math.Round(float64(rows)*f)))
}

// meanHeights returns the heights of a picture in metres, each the mean of the grid below
// it weighted by area; NaN where that holds no data.
func meanHeights(g *raster.Grid, w, h int) []float32 {
	sum, weight := make([]float64, w*h), make([]float64, w*h)
	fx, fy := float64(w)/float64(g.Cols), float64(h)/float64(g.Rows)
	for row := range g.Rows {
		y0, y1, shareY := spread(row, fy, h)
		for col := range g.Cols {
			mm := g.MM[row*g.Cols+col]
			if mm == raster.VoidMM {
				continue
			}
			x0, x1, shareX := spread(col, fx, w)
			z := float64(mm)
			for _, part := range [4]struct {
				at int
				w  float64
			}{
				{y0*w + x0, shareY * shareX}, {y0*w + x1, shareY * (1 - shareX)},
				{y1*w + x0, (1 - shareY) * shareX}, {y1*w + x1, (1 - shareY) * (1 - shareX)},
			} {
				sum[part.at] += part.w * z
				weight[part.at] += part.w
			}
		}
	}
	out := make([]float32, w*h)
	for i := range out {
		out[i] = float32(math.NaN())
		if weight[i] > 1e-9 {
			out[i] = float32(sum[i] / weight[i] / 1000)
		}
	}
	return out
}

// spread returns the one or two pixels that a cell falls on and the share of the first.
func spread(cell int, f float64, n int) (first, second int, share float64) {
	from, to := float64(cell)*f, float64(cell+1)*f
	first = min(int(from), n-1)
	edge := float64(first + 1)
	if to <= edge || first+1 >= n {
		return first, first, 1
	}
	return first, first + 1, (edge - from) / (to - from)
}

// shadeVoid marks voids while shading, m.
const shadeVoid = -1e6

// shade returns 1 (dark) to 255 (bright) for each pixel, 0 where there is no height.
func shade(heights []float32, w, h int, cellX, cellY float64) ([]byte, error) {
	var j journal
	src, err := godal.Create(godal.Memory, "", 1, godal.Float32, w, h, godal.ErrLogger(strict))
	if err != nil {
		return nil, err
	}
	defer src.Close(godal.ErrLogger(j.note))
	if err := src.SetGeoTransform([6]float64{0, cellX, 0, 0, 0, -cellY}, godal.ErrLogger(strict)); err != nil {
		return nil, err
	}
	band := src.Bands()[0]
	if err := band.SetNoData(shadeVoid, godal.ErrLogger(strict)); err != nil {
		return nil, err
	}
	for i, z := range heights {
		if z != z {
			heights[i] = shadeVoid
		}
	}
	if err := band.Write(0, 0, heights, w, h, godal.ErrLogger(strict)); err != nil {
		return nil, err
	}
	lit, err := src.Dem("", "hillshade", "", []string{"-of", "MEM", "-az", "315", "-alt", "45", "-compute_edges"}, godal.ErrLogger(j.note))
	if err != nil {
		return nil, err
	}
	defer lit.Close(godal.ErrLogger(j.note))
	grey := make([]byte, w*h)
	if err := lit.Bands()[0].Read(0, 0, grey, w, h, godal.ErrLogger(j.note)); err != nil {
		return nil, err
	}
	for i, z := range heights { // a height is never as dark as a void
		if z == shadeVoid {
			grey[i] = 0
		} else if grey[i] == 0 {
			grey[i] = 1
		}
	}
	return grey, nil
}

// greys is a palette of 255 greys behind a transparent 0.
func greys() color.Palette {
	p := make(color.Palette, 256)
	p[0] = color.NRGBA{}
	for i := 1; i < len(p); i++ {
		p[i] = color.NRGBA{R: uint8(i), G: uint8(i), B: uint8(i), A: 255}
	}
	return p
}

func writePicture(path string, picture image.Image) error {
	part := partName(path)
	file, err := os.Create(part)
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", path, err)
	}
	err = png.Encode(file, picture)
	if shut := file.Close(); err == nil {
		err = shut
	}
	if err == nil {
		err = os.Rename(part, path)
	}
	if err != nil {
		os.Remove(part)
		return fmt.Errorf("%s was not written: %w", path, err)
	}
	return nil
}
