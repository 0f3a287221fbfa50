package demo

import "math"

// Texture of the ground as an airborne survey sees it: the roughness of grass and stones,
// and the noise of the sensor. Standard deviation about 2 cm.
const (
	tuftWaveM   = 3.0   // wavelength of the rough ground
	tuftHeightM = 0.040 // its amplitude
	sensorM     = 0.015 // greatest error of a single cell
)

// roughen adds texture to every cell.
func (b *builder) roughen() error {
	tuft, sensor := noise{mix(b.land.rand.seed + 404)}, noise{mix(b.land.rand.seed + 505)}
	g, cell := b.canvas.Grid, b.size.CellM
	eachBand(g.Rows, func(from, to int) {
		for r := from; r < to; r++ {
			for c := range g.Cols {
				t := tuft.at(float64(c)*cell/tuftWaveM, float64(r)*cell/tuftWaveM)
				s := sensor.lattice(int64(c), int64(r))
				g.MM[r*g.Cols+c] += int32(math.Round(1000 * (float64(tuftHeightM*t) + float64(sensorM*s))))
			}
		}
	})
	return nil
}
