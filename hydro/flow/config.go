package flow

import (
	"errors"
	"fmt"
	"math"
)

// The widest limits of cuts that Validate lets pass. Own choice: beyond them a cut is a guess.
const (
	MostCutLengthM = 200.0
	MostCutDepthM  = 20.0
	MostRoadReachM = 200.0
)

// Defaults returns the settings used where the user gives none: cuts of at most 30 m and 1 m in open ground, 60 m and
// 6 m within 30 m of a road. All are our own choice.
func Defaults() Config {
	return Config{Edge: EdgeOpen, CutLengthM: 30, CutDepthM: 1, RoadCutLengthM: 60, RoadCutDepthM: 6, RoadReachM: 30}
}

// cuts reports whether anything may be cut.
func (c *Config) cuts() bool {
	return c.CutLengthM > 0 || c.RoadCutLengthM > 0 && len(c.Features.Roads) > 0 || len(c.Features.Culverts) > 0
}

// faults collects what is wrong.
type faults []error

func (f *faults) add(bad bool, format string, args ...any) {
	if bad {
		*f = append(*f, fmt.Errorf(format, args...))
	}
}

// Validate returns every fault of the settings and of the declared features, joined; nil where there is none. A
// value that is not a number is a fault.
func (c Config) Validate() error {
	var f faults
	f.add(c.Edge != EdgeOpen && c.Edge != EdgeClosed, "edge %d is neither open nor closed", c.Edge)
	f.add(c.Workers < 0, "%d workers; at least 0, which means one a processor", c.Workers)
	for _, s := range []struct {
		what      string
		got, most float64
	}{
		{"longest cut", c.CutLengthM, MostCutLengthM},
		{"deepest cut", c.CutDepthM, MostCutDepthM},
		{"longest cut near a road", c.RoadCutLengthM, MostCutLengthM},
		{"deepest cut near a road", c.RoadCutDepthM, MostCutDepthM},
		{"reach of a road", c.RoadReachM, MostRoadReachM},
	} {
		f.add(!(s.got >= 0 && s.got <= s.most), "%s %g m; 0 to %g m", s.what, s.got, s.most)
	}
	return errors.Join(append(f, c.validateFeatures())...)
}

// validateFeatures returns every fault of the declared features, joined; each is named by kind and number, from 1.
func (c *Config) validateFeatures() error {
	var f faults
	for k, line := range c.Features.Culverts {
		m := lineLengthM(line)
		f.add(len(line) == 0, "culvert %d has no place", k+1)
		f.add(!(m <= MostCulvertM), "culvert %d is %.4g m long from inlet to outlet; at most %g m", k+1, m, MostCulvertM)
	}
	for k, in := range c.Features.Inflows {
		f.add(!finite(in.X) || !finite(in.Y), "inflow %d has no place", k+1)
		f.add(!(in.CatchmentM2 > 0) || !finite(in.CatchmentM2), "inflow %d has a catchment of %g m²; more than 0, and finite", k+1, in.CatchmentM2)
		f.add(c.Edge == EdgeClosed, "inflow %d is given, but the edge is declared closed: nothing flows in; give one or the other", k+1)
	}
	return errors.Join(f...)
}

func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }
