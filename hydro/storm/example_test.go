package storm_test

import (
	"fmt"
	"strings"

	"siltstep/hydro/storm"
)

// A rain table from a file, five hectares of poor range, and a flow path measured on a map.
func ExamplePeaks() {
	table, err := storm.ReadTable(strings.NewReader(`unit, mm
duration, 2 yr, 10 yr, 25 yr
5 min,   6, 10, 12
15 min, 12, 19, 23
1 h,    20, 32, 39
6 h,    30, 46, 55
24 h,   42, 63, 75
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	curveNumber, _, err := storm.CurveNumberOf("pasture", "poor", 'C')
	if err != nil {
		fmt.Println(err)
		return
	}
	result, err := storm.Peaks(storm.Request{
		CatchmentM2:       50_000,
		RunoffCoefficient: 0.35,
		CurveNumber:       curveNumber,
		Rain:              storm.Rain{Table: &table},
		ReturnPeriodYr:    10,
		HoursH:            24,
		FlowLengthM:       400,
		FlowSlope:         0.05,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range result.Methods {
		fmt.Printf("%s: %.2g m³/s, valid %v\n", m.Method, m.PeakM3s, m.Valid)
	}
	fmt.Printf("runoff %.0f of %.0f mm; chosen: %s\n", result.RunoffMM, result.RainMM, result.Chosen)
	// Output:
	// rational: 0.53 m³/s, valid true
	// graphical: NaN m³/s, valid false
	// unit-hydrograph: 0.8 m³/s, valid true
	// runoff 31 of 63 mm; chosen: unit-hydrograph
}
