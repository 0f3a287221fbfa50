package units

// Exact lengths in metres, areas in square metres and volumes in cubic metres.
// Source: NIST SP 811 (2008), Appendix B; the derived ones by multiplication.
const (
	FootM       = 0.3048                     // international foot, m
	SurveyFootM = 1200.0 / 3937.0            // US survey foot, m
	AcreM2      = 43560 * FootM * FootM      // 4046.8564224 m²
	CubicFootM3 = FootM * FootM * FootM      // 0.028316846592 m³
	CubicYardM3 = 27 * FootM * FootM * FootM // 0.764554857984 m³
	HectareM2   = 1e4                        // m²
	InchMM      = 25.4                       // mm
	ShortTonT   = 2000 * 0.45359237 / 1000   // US ton of 2,000 lb, in tonnes: 0.90718474
)
