package cards

// Sizes of the boxes to fill in, mm.
const (
	formHead = 4.6
	boxHigh  = 10.5
	formHigh = formHead + 3*boxHigh
)

// form draws the boxes for what was built, from some height on.
func (d *document) form(y float64, id string) {
	unit := d.system.LengthScale().Unit
	d.text(margin, y+3.2, plainSize, true, "As built: "+id)
	d.textRight(d.right(), y+3.2, leastSize, false, "Fill in before you leave. Measure; do not copy the plan's figures.")
	rows := [][]string{
		{"Date", "Names", "Height, bed to sill (" + unit + ")", "Notch width × depth (" + unit + ")"},
		{"From the dam below (" + unit + ")", "Rise from it (" + unit + ")", "Rock: loads, size of a load", "Photo no."},
		{"Moved or changed because"},
	}
	top := y + formHead
	for _, row := range rows {
		wide := d.inner() / float64(len(row))
		for i, label := range row {
			x := margin + float64(i)*wide
			d.box(0.35, white, x, top, wide, boxHigh)
			d.text(x+1, top+3, leastSize, false, label)
		}
		top += boxHigh
	}
}
