package storm

// Conversions of units. Those of length, area and volume are exact by definition.
const (
	inchMM      = 25.4                                  // mm
	footM       = 0.3048                                // m
	acreM2      = 4046.8564224                          // m²
	mileM2      = 2_589_988.110336                      // m² in a square mile
	cubicFootM3 = 0.028316846592                        // m³
	poundFootPa = 47.88025898                           // Pa in a pound per square foot
	footPoundW  = 14.59390294                           // W/m in a pound per second along a foot of width
	hectareM2   = 10_000.0                              // m²
	hourS       = 3600.0                                // s
	minuteS     = 60.0                                  // s
	dayH        = 24.0                                  // h
	gravityMS2  = 9.81                                  // m/s²
	waterNM3    = 9810.0                                // N/m³, weight of water (62.4 lb/ft³)
	manningUS   = 1.486                                 // k of Manning's formula in feet; many texts print 1.49, which is off by 0.3 % in flow
	csmPerInch  = cubicFootM3 / (mileM2 / 1e6) / inchMM // m³/s per km² per mm in a cubic foot per second per square mile per inch
)
