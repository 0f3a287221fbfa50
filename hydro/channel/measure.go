package channel

import (
	"fmt"
	"math"

	"siltstep/raster"
)

// What makes a section one that is resolved. Source: our own choices.
const (
	leastTopCells = 3.0  // top width, in cell sides: below it one cell may be all there is of the bed
	tipCells      = 1.25 // bed width, in cell sides, below which it may as well be the tip of a V
	tipM          = 0.1  // by so much the bed may lie lower than it shows between banks less than a cell apart, m
	tipShare      = 0.1  // or by this share of the depth
	plainCellM    = 1.0  // on larger cells a section without banks says nothing: they would not show, m
)

// The standard deviation of a height is held within these, m. The least is that of a good survey over
// grass and stones; above the most it is relief. Source: our own choice.
const (
	leastErrorM = 0.02
	mostErrorM  = 0.3
)

// bilinearShare is what bilinear sampling leaves of the standard deviation of independent errors of
// the cells: 2/3 on average over all places between the centres, and up to 0.85 where a section runs along them.
const bilinearShare = 0.75

// meter measures sections. It holds room that one section after the other uses.
type meter struct {
	cellM, stepM, errorM float64
	left, right          side
}

// measure tells the banks, the bed and the widths of a section from its samples.
func (m *meter) measure(s *Section) {
	unknown := math.NaN()
	none := Bank{unknown, unknown, unknown, unknown}
	s.BedM, s.BedWidthM, s.TopWidthM, s.DepthM, s.AreaM2 = unknown, unknown, unknown, unknown, unknown
	s.Left, s.Right, s.Fit = none, none, Trapezoid{unknown, unknown, unknown, unknown}
	middle := len(s.MM) / 2
	if s.MM[middle] == raster.VoidMM {
		s.Why = "no data at the bed"
		return
	}
	m.left.load(s.MM, middle, -1)
	m.right.load(s.MM, middle, 1)
	s.BedM = float64(evened(s.MM, middle)) / 4000
	if reachM := -s.FirstM; reachM < levelCells*m.cellM {
		s.Why = fmt.Sprintf("cells of %.3g m are too coarse to show a channel within %.3g m", m.cellM, reachM)
		return
	}
	left := m.left.findBank(m.stepM, m.errorM)
	right := m.right.findBank(m.stepM, m.errorM)
	switch {
	case left.found && right.found:
		m.shape(s, left, right)
	case left.found:
		s.Left = m.oneBank(s, &m.left, left, -1)
		s.Why = m.noTop(&m.right, "right")
	case right.found:
		s.Right = m.oneBank(s, &m.right, right, 1)
		s.Why = m.noTop(&m.left, "left")
	case !m.left.complete:
		s.Why = m.noTop(&m.left, "left")
	case !m.right.complete:
		s.Why = m.noTop(&m.right, "right")
	default:
		m.noBanks(s)
	}
}

// noBanks makes a section one without banks, if cells are fine enough to show them.
func (m *meter) noBanks(s *Section) {
	if m.cellM > plainCellM {
		s.Why = fmt.Sprintf("no banks to be seen, and cells of %.3g m would hide those of a channel under %.3g m wide", m.cellM, leastTopCells*m.cellM)
		return
	}
	s.BedWidthM, s.TopWidthM, s.DepthM, s.AreaM2 = 0, 0, 0, 0
	s.Left, s.Right, s.Fit = Bank{}, Bank{}, Trapezoid{}
	s.Resolved = true
}

// noTop says that no top of a bank was found on a side, and how far was looked.
func (m *meter) noTop(s *side, name string) string {
	seenM := float64(len(s.z)-1) * m.stepM
	if !s.complete {
		return fmt.Sprintf("no data beyond %.3g m on the %s, and no top of a bank before it", seenM, name)
	}
	return fmt.Sprintf("no top of a bank within %.3g m on the %s", seenM, name)
}

// errorOf returns the standard deviation of a height, told from how the samples of all sections, width
// each, scatter about straight lines over two cells, m: the median keeps breaks of the ground out. Some
// 4,000 places are enough.
func errorOf(mm []int32, width int) float64 {
	const enough = 4000
	stride := max(1, len(mm)/enough)
	if stride%width == 0 {
		stride++ // not the same place of every section
	}
	const top = 1 << 12 // mm; a middle bend of this or more gives mostErrorM whatever it is
	var bends [top + 1]int32
	count := int32(0)
	for i := 2; i < len(mm)-2; i += stride {
		if at := i % width; at < 2 || at >= width-2 {
			continue
		}
		a, b, c := mm[i-2], mm[i], mm[i+2]
		if a == raster.VoidMM || b == raster.VoidMM || c == raster.VoidMM {
			continue
		}
		bend := int64(a) - 2*int64(b) + int64(c)
		bends[min(max(bend, -bend), top)]++
		count++
	}
	if count == 0 {
		return leastErrorM
	}
	middle := 0
	for below := bends[0]; below <= count/2; below += bends[middle] {
		middle++
	}
	// Of a normal error the median without sign is 0.6745 deviations; that of a − 2b + c is √6 of one.
	deviation := float64(middle) / 1000 / (0.6745 * math.Sqrt(6) * bilinearShare)
	return min(mostErrorM, max(leastErrorM, deviation))
}
