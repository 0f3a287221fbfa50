package flow

// ground is a surface that is being cut, with what it was before.
type ground struct {
	z      []int32 // as cut so far
	before []int32
	dug    mask // where they may differ: far smaller than before, which saves reading it
}

// at returns the elevation of a cell before any cut.
func (g *ground) at(i int) int64 {
	if g.dug.has(i) {
		return int64(g.before[i])
	}
	return int64(g.z[i])
}

// lower cuts a cell to a level below where it stands.
func (g *ground) lower(i int, level int64) {
	g.z[i] = int32(level)
	g.dug.set(i)
}
