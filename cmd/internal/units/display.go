package units

// LengthScale is for lengths and heights in metres: m or ft.
func (s System) LengthScale() Scale { return s.pick(Scale{"m", 1}, Scale{"ft", FootM}) }

// AreaScale is for land in square metres: ha or ac.
func (s System) AreaScale() Scale { return s.pick(Scale{"ha", HectareM2}, Scale{"ac", AcreM2}) }

// VolumeScale is for rock, ponds and sediment in cubic metres: m³ or yd³.
func (s System) VolumeScale() Scale { return s.pick(Scale{"m³", 1}, Scale{"yd³", CubicYardM3}) }

// FlowScale is for flows in cubic metres a second: m³/s or cfs (cubic feet a second).
func (s System) FlowScale() Scale { return s.pick(Scale{"m³/s", 1}, Scale{"cfs", CubicFootM3}) }

// MassScale is for weights in tonnes: t or US tons.
func (s System) MassScale() Scale {
	return s.pick(Scale{"t", 1}, Scale{"US tons (2,000 lb)", ShortTonT})
}

// RainfallScale is for rainfall rates in millimetres an hour: mm/h or in/h.
func (s System) RainfallScale() Scale { return s.pick(Scale{"mm/h", 1}, Scale{"in/h", InchMM}) }

// SlopeScale is for slopes as rise over run: % in both systems.
func (s System) SlopeScale() Scale { return Scale{"%", 0.01} }

// Length returns a length in metres as people read it, "10.0 m" or "32.8 ft"; see Scale.Text.
func (s System) Length(m float64, decimals int) string { return s.LengthScale().Text(m, decimals) }

// Area returns an area in square metres in ha or ac; see Scale.Text.
func (s System) Area(m2 float64, decimals int) string { return s.AreaScale().Text(m2, decimals) }

// Volume returns a volume in cubic metres in m³ or yd³; see Scale.Text.
func (s System) Volume(m3 float64, decimals int) string { return s.VolumeScale().Text(m3, decimals) }

// Flow returns a flow in cubic metres a second in m³/s or cfs; see Scale.Text.
func (s System) Flow(m3s float64, decimals int) string { return s.FlowScale().Text(m3s, decimals) }

// Mass returns a weight in tonnes in t or US tons; see Scale.Text.
func (s System) Mass(t float64, decimals int) string { return s.MassScale().Text(t, decimals) }

// Rainfall returns a rainfall rate in millimetres an hour in mm/h or in/h; see Scale.Text.
func (s System) Rainfall(mmh float64, decimals int) string {
	return s.RainfallScale().Text(mmh, decimals)
}

// Slope returns a slope, rise over run, in %; see Scale.Text.
func (s System) Slope(riseOverRun float64, decimals int) string {
	return s.SlopeScale().Text(riseOverRun, decimals)
}
