package storm

import (
	"math"
	"slices"
)

// channelRoughness is Manning's n of channels. Source: Chow1959, seen in copies; the rows marked
// recalled are from memory; Yochum2014 was read.
var channelRoughness = []Roughness{
	chow("clean, straight", .025, .030, .033),
	chow("clean, straight, some stones and weeds", .030, .035, .040),
	chow("clean, winding, some pools", .033, .040, .045),
	chow("winding, pools, some weeds and stones", .035, .045, .050),
	chow("winding, pools, lower stages", .040, .048, .055),
	chow("winding, pools, more stones", .045, .050, .060),
	chow("sluggish, weedy", .050, .070, .080),
	chow("very weedy", .075, .100, .150),
	chow("mountain, gravel and cobble, few boulders", .030, .040, .050),
	chow("mountain, cobble and large boulders", .040, .050, .070),
	chow("floodplain, short grass", .025, .030, .035),
	chow("floodplain, high grass", .030, .035, .050),
	chow("floodplain, scattered brush", .035, .050, .070),
	recalledRoughness("excavated earth, clean", .016, .025),
	recalledRoughness("excavated earth, weedy", .022, .033),
	recalledRoughness("unmaintained, dense weeds", .05, .12),
	recalledRoughness("clean bottom, brushy sides", .04, .08),
	recalledRoughness("jagged bedrock", .035, .050),
	recalledRoughness("gully, bare, sand and silt", .025, .035),
	recalledRoughness("gully with headcuts and debris", .045, .08),
	recalledRoughness("vegetated swale", .03, .12), // depends on depth
	{"steep channel of 2.4 to 21 %, bankfull", .048, math.NaN(), .30, EvidenceRead, "Yochum2014"},
	{"steep channel of 2.4 to 21 %, low flow", .057, math.NaN(), .96, EvidenceRead, "Yochum2014"},
}

func chow(name string, low, normal, high float64) Roughness {
	return Roughness{name, low, normal, high, EvidenceSecondary, "Chow1959"}
}

func recalledRoughness(name string, low, high float64) Roughness {
	return Roughness{name, low, math.NaN(), high, EvidenceRecalled, "Chow1959"}
}

// ChannelRoughness returns Manning's n by kind of channel.
func ChannelRoughness() []Roughness { return slices.Clone(channelRoughness) }

// CowanParts are what the roughness of a channel is made of.
type CowanParts struct {
	Base         float64 // material: earth 0.020, rock 0.025, fine gravel 0.024, coarse gravel 0.028
	Irregularity float64 // of the sides, 0 to 0.020
	Variation    float64 // of the section along the channel, 0 to 0.015
	Obstruction  float64 // debris, roots, boulders, 0 to 0.060
	Vegetation   float64 // 0.005 to 0.100; 0 where there is none
	Meander      float64 // multiplies the sum, 1 to 1.3
}

// Roughness returns Manning's n as the sum of the parts times the meander factor; a part out of its range is
// an error. Source: Chow1959 (the procedure of Cowan), in a copy.
func (c CowanParts) Roughness() (float64, error) {
	return finite("roughness n", (c.Base+c.Irregularity+c.Variation+c.Obstruction+c.Vegetation)*c.Meander,
		within("base roughness", c.Base, 0.020, 0.028, ""),
		within("part for irregular sides", c.Irregularity, 0, 0.020, ""),
		within("part for varying sections", c.Variation, 0, 0.015, ""),
		within("part for obstructions", c.Obstruction, 0, 0.060, ""),
		within("part for vegetation", c.Vegetation, 0, 0.100, ""),
		within("meander factor", c.Meander, 1, 1.3, ""))
}

// RiprapRoughness returns n of a bed of stone with median size d50M under a mean depth: 0.319 d^(1/6)/(2.25
// + 5.23 log10(d/D50)), for depths of 1.5 to 185 stone sizes; outside them it is NaN. Source: HEC15, chapter
// 6: range and 0.319 read, the other figures from memory.
func RiprapRoughness(depthM, d50M float64) float64 {
	ratio := depthM / d50M
	if !(ratio >= 1.5 && ratio <= 185) {
		return math.NaN()
	}
	return 0.319 * math.Pow(depthM, 1.0/6) / (2.25 + 5.23*math.Log10(ratio))
}
