package settings

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"siltstep/cmd/internal/units"
)

func TestFaults(t *testing.T) {
	const kinds = "loose-rock or one-rock or log or brush or gabion"
	const damKeyNames = "kind, objective, fixed_cost, height, min_height, slope, catchment, min_incision, spacing_rule, deposit_ratio, engineer, " +
		"bed_width, top_width, confluence_distance, bend_radius, road_distance, building_distance, stream_distance, exclusions, buildings, live_streams, base_level, " +
		"crest_width, face_up, face_down, notch_shape, notch_width, notch_side, freeboard"
	const length = "a length is a number with mm, cm, m, km, in, ft, yd, mi or us-ft, such as 0.6 m"
	const layers = "a list of dams, headcuts, drainages, catchments, depressions, footprints, limits, each at most once; or none"
	rows := []struct{ name, text, want string }{
		// range
		{"too high", "flow: {edge: open}\ndams:\n  height: 6 m\n", "plan.yaml:3: dams.height: 6 m; at most 0.9 m unless engineer: true"},
		{"too high, in feet", "dams: {height: 3 ft}", "plan.yaml:1: dams.height: 3 ft; at most 0.9 m unless engineer: true"},
		{"too low", "dams: {height: 5 cm}", "plan.yaml:1: dams.height: 5 cm; at least 0.1 m"},
		{"too low for an engineer", "dams: {engineer: true, height: 5 cm}", "plan.yaml:1: dams.height: 5 cm; at least 0.1 m"},
		{"slope range turned round", "dams: {slope: [20 %, 2 %]}", "plan.yaml:1: dams.slope: [20 %, 2 %]; the lower value comes first, and the two differ"},
		{"slope range empty", "dams: {slope: [2 %, 2 %]}", "plan.yaml:1: dams.slope: [2 %, 2 %]; the lower value comes first, and the two differ"},
		{"slope too steep", "dams: {slope: [2 %, 200 %]}", "plan.yaml:1: dams.slope: [2 %, 200 %]; second value: at most 100 %"},
		{"deposit ratio", "dams: {deposit_ratio: 1}", "plan.yaml:1: dams.deposit_ratio: 1; at most 0.7"},
		// unit
		{"no unit", "dams: {height: 0.6}", "plan.yaml:1: dams.height: 0.6; the unit is missing; " + length},
		{"unit of an area", "dams: {height: 0.6 ha}", `plan.yaml:1: dams.height: 0.6 ha; "ha" is not a unit of length; ` + length},
		{"negative", "channels: {min_length: -30 m}", "plan.yaml:1: channels.min_length: -30 m; a length is not negative"},
		{"not a number", "dams: {deposit_ratio: .nan}", "plan.yaml:1: dams.deposit_ratio: .nan; a number without a unit is wanted, such as 0.5"},
		{"infinite", "dams: {deposit_ratio: .inf}", "plan.yaml:1: dams.deposit_ratio: .inf; a number without a unit is wanted, such as 0.5"},
		{"bare slope", "dams: {slope: [2, 20 %]}", "plan.yaml:1: dams.slope: [2, 20 %]; first value: the unit is missing; a slope is a number with %, m/m or ft/ft, such as 8 %"},
		{"length for a slope", "dams: {slope: [2 %, 20 m]}", `plan.yaml:1: dams.slope: [2 %, 20 m]; second value: "m" is not a unit of slope; a slope is a number with %, m/m or ft/ft, such as 8 %`},
		// form
		{"one value for a range", "dams: {slope: 2 %}", "plan.yaml:1: dams.slope: 2 %; a list of two values, lower first: 0 % to 100 %"},
		{"three values for a range", "dams: {catchment: [1 ha, 2 ha, 3 ha]}", "plan.yaml:1: dams.catchment: [1 ha, 2 ha, 3 ha]; a list of two values, lower first: at least 0 ha"},
		{"many values", "dams: {slope: [1 %, 2 %, 3 %, 4 %, 5 %, 6 %]}", "plan.yaml:1: dams.slope: [1 %, 2 %, 3 %, 4 %, …]; a list of two values, lower first: 0 % to 100 %"},
		{"list for a value", "dams: {height: [0.3 m, 0.6 m]}", "plan.yaml:1: dams.height: [0.3 m, 0.6 m]; one value is wanted, not a list: 0.1 m to 0.9 m, more only with engineer: true"},
		{"no value", "dams:\n  height:\n", "plan.yaml:2: dams.height: no value; 0.1 m to 0.9 m, more only with engineer: true"},
		{"keys for a value", "dams: {engineer: {yes: no}}", "plan.yaml:1: dams.engineer: keys, where a value is wanted; true or false"},
		{"list in a list", "dams: {slope: [[2 %], 20 %]}", "plan.yaml:1: dams.slope: in the list: a list, where a single value is wanted; two values, lower first: 0 % to 100 %"},
		{"block of text", "dams:\n  height: |\n    0.6 m\n", "plan.yaml:2: dams.height: a block of text, where one line is wanted; 0.1 m to 0.9 m, more only with engineer: true"},
		{"yes for true", "dams: {engineer: yes}", "plan.yaml:1: dams.engineer: yes; true or false"},
		{"word", "flow: {edge: shut}", "plan.yaml:1: flow.edge: shut; open or closed"},
		{"kind", "dams: {kind: stone}", "plan.yaml:1: dams.kind: stone; " + kinds},
		{"only rule", "dams: {spacing_rule: heede}", "plan.yaml:1: dams.spacing_rule: heede; toe-to-crest is all there is in this version"},
		{"escape code in a value", `dams: {kind: "\e[31m"}`, `plan.yaml:1: dams.kind: "\x1b[31m"; ` + kinds},
		// names
		{"letters swapped", "dams: {hieght: 0.6 m}", "plan.yaml:1: dams.hieght: unknown key; did you mean dams.height?"},
		{"far from any", "flow: {wind: 1}", "plan.yaml:1: flow.wind: unknown key; flow has edge, cut_length, cut_depth, road_cut_length, road_cut_depth, road_reach, roads, culverts, stock_ponds"},
		{"section misspelt", "dam: {height: 0.6 m}", "plan.yaml:1: dam: unknown section; did you mean dams?"},
		{"section far from any", "weather: {wind: 1}", "plan.yaml:1: weather: unknown section; there are flow, channels, erosion, severity, rain, runoff, dams, stone, sediment, gully, prices, effect, handover, funding"},
		{"key at the top", "height: 0.6 m", "plan.yaml:1: height: a key stands in its section; write dams: {height: …}"},
		{"name with a point", "dams.height: 0.6 m", "plan.yaml:1: dams.height: a key stands in its section; write dams: {height: …}"},
		{"section with a value", "dams: 5", "plan.yaml:1: dams: 5; a section holds keys: " + damKeyNames},
		{"number as a key", "dams: {1: 2}", "plan.yaml:1: dams.1: unknown key; dams has " + damKeyNames},
		{"cut without a unit", "flow: {cut_length: 30}", "plan.yaml:1: flow.cut_length: 30; the unit is missing; " + length},
		{"cut too long", "flow: {road_cut_length: 2 km}", "plan.yaml:1: flow.road_cut_length: 2 km; at most 200 m"},
		{"no file name", "flow:\n  roads:\n", "plan.yaml:2: flow.roads: no value; lines, any layer that GDAL reads, relative to the settings file; or none"},
		{"empty file name", "flow: {culverts: ''}", `plan.yaml:1: flow.culverts: ""; no name; points or lines, any layer that GDAL reads, relative to the settings file; or none`},
		{"list of files", "flow: {stock_ponds: [a.shp, b.shp]}", "plan.yaml:1: flow.stock_ponds: [a.shp, b.shp]; one value is wanted, not a list: polygons, any layer that GDAL reads, relative to the settings file; or none"},
		{"incision", "dams: {min_incision: 30 %}", `plan.yaml:1: dams.min_incision: 30 %; "%" is not a unit of length; ` + length},
		{"limits turned round", "severity: {incision: [2 m, 0.3 m]}", "plan.yaml:1: severity.incision: [2 m, 0.3 m]; the lower value comes first, and the two differ"},
		{"more than all", "severity: {incised_length: [0.5, 1.1]}", "plan.yaml:1: severity.incised_length: [0.5, 1.1]; second value: at most 1"},
		{"no weight", "severity: {incision_weight: 0, headcuts_weight: 0, shear_weight: 0, bank_slope_weight: 0,\n  incised_length_weight: 0}",
			"plan.yaml:2: severity.incised_length_weight: 0; all weights of the severity are 0; at least one is above"},
		{"weight with a unit", "severity: {shear_weight: 20 %}", "plan.yaml:1: severity.shear_weight: 20 %; a number without a unit is wanted, such as 0.5"},
		{"bed material", "erosion: {bed_material: cheese}", "plan.yaml:1: erosion.bed_material: cheese; " + strings.Join(bedMaterials(), " or ")},
		{"window too wide", "erosion: {window: 1 km}", "plan.yaml:1: erosion.window: 1 km; at most 500 m"},
		// rain and ground
		{"period without a unit word of time", "rain: {return_period: 10 m}", `plan.yaml:1: rain.return_period: 10 m; "m" is not a unit of number of years; a number of years is a number with yr, such as 10 yr`},
		{"period of nothing", "rain: {return_period: 0}", "plan.yaml:1: rain.return_period: 0; a number of years is more than 0"},
		{"rain of nothing", "rain: {depth: 0 mm, hours: 24}", "plan.yaml:1: rain.depth: 0 mm; more than 0; or none"},
		{"rain as an intensity", "rain: {depth: 60 mm/h}", `plan.yaml:1: rain.depth: 60 mm/h; "mm/h" is not a unit of depth of rain; a depth of rain is a number with mm, cm or in, such as 60 mm`},
		{"depth without hours", "rain: {depth: 60 mm}", "plan.yaml:1: rain.depth: 60 mm; rain.hours is missing: in how many hours does it fall?"},
		{"depth beside a table", "rain:\n  table: rain.csv\n  depth: 60 mm\n  hours: 24\n", "plan.yaml:3: rain.depth: 60 mm; rain.table is given too; give one or the other"},
		{"curve beside a table", "rain: {table: rain.csv, curve: [1200, 10, 0.8, 120 min]}", "plan.yaml:1: rain.curve: [1200, 10, 0.8, 120 min]; rain.table is given too; give one or the other"},
		{"intensity beside a curve", "rain: {curve: [1200, 10, 0.8, 120 min], intensity: 50 mm/h}", "plan.yaml:1: rain.intensity: 50 mm/h; rain.curve is given too; give one or the other"},
		{"curve without its end", "rain: {curve: [1200, 10, 0.8]}", "plan.yaml:1: rain.curve: [1200, 10, 0.8]; " + rainCurve{}.allowed()},
		{"end of a curve without a unit", "rain: {curve: [1200, 10, 0.8, 120]}", "plan.yaml:1: rain.curve: [1200, 10, 0.8, 120]; fourth value: the unit is missing; a duration is a number with min or h, such as 120 min"},
		{"curve that carries nothing", "rain: {curve: [0, 10, 0.8, 120 min]}", "plan.yaml:1: rain.curve: [0, 10, 0.8, 120 min]; rain curve: a is 0; give more than 0, and finite"},
		{"storm longer than its curve", "rain: {curve: [1200, 10, 0.8, 120 min], hours: 24}", "plan.yaml:1: rain.hours: 24; rain.curve ends at 120 min; give a shorter storm"},
		{"storm of half a minute", "rain: {hours: 0.5 min}", "plan.yaml:1: rain.hours: 0.5 min; at least 0.05 h"},
		{"no depth", "rain:\n  depth:\n", "plan.yaml:2: rain.depth: no value; more than 0, at most 2000 mm; or none"},
		{"type of another length", "rain: {table: rain.csv, hours: 6, pattern: II}", "plan.yaml:1: rain.pattern: II; a 24-hour storm; give rain.hours: 24"},
		{"one depth, nested", "rain: {depth: 60 mm, hours: 24, pattern: nested}", "plan.yaml:1: rain.pattern: nested; one rain.depth makes a nested storm over 5 min to 1 h only; give a table, or another pattern"},
		{"pattern", "rain: {pattern: IV}", "plan.yaml:1: rain.pattern: IV; none or nested or I or IA or II or III or triangular or uniform"},
		{"coefficient in percent", "runoff: {coefficient: 35 %}", "plan.yaml:1: runoff.coefficient: 35 %; a number without a unit is wanted, such as 0.5"},
		{"coefficient too high", "runoff: {coefficient: 35}", "plan.yaml:1: runoff.coefficient: 35; at most 1"},
		{"curve number too high", "runoff: {curve_number: 101}", "plan.yaml:1: runoff.curve_number: 101; at most 100"},
		{"number and cover", "runoff:\n  curve_number: 80\n  cover: pasture\n  condition: poor\n  soil_group: B\n",
			"plan.yaml:2: runoff.curve_number: 80; runoff.cover is given too; give one or the other\n" +
				"plan.yaml:3: runoff.cover: pasture; runoff.curve_number is given too; give one or the other"},
		{"unknown cover", "runoff: {cover: heather}", "plan.yaml:1: runoff.cover: heather; none or " + strings.Join(covers(), " or ")},
		{"cover without soil", "runoff: {cover: pasture, condition: poor}", "plan.yaml:1: runoff.cover: pasture; runoff.soil_group is missing: A, B, C or D"},
		{"cover without condition", "runoff: {cover: pasture, soil_group: B}", `plan.yaml:1: runoff.cover: pasture; condition "" of pasture is not in the table; give one of poor, fair, good`},
		{"cover that the table lacks on sand", "runoff: {cover: sagebrush, condition: poor, soil_group: A}", "plan.yaml:1: runoff.cover: sagebrush; the table has no curve number of sagebrush on soil group A; give the curve number itself"},
		{"condition alone", "runoff: {condition: poor}", "plan.yaml:1: runoff.condition: poor; it goes with runoff.cover, which is missing"},
		{"method without its input", "runoff: {method: rational, curve_number: 80}", "plan.yaml:1: runoff.method: rational; it needs runoff.coefficient"},
		{"handbook method without its storm", "rain: {table: r.csv, hours: 24}\nrunoff: {method: graphical, curve_number: 80}",
			"plan.yaml:2: runoff.method: graphical; it needs a curve number, rain.hours: 24, and rain.pattern I, IA, II or III"},
		// works and prices
		{"face as a slope", "dams: {face_down: 33 %}", "plan.yaml:1: dams.face_down: 33 %; a side slope is horizontal : vertical, such as 1.5:1"},
		{"face too steep", "dams: {face_down: 0.5:1}", "plan.yaml:1: dams.face_down: 0.5:1; at least 1:1"},
		{"sides of a parabola", "dams: {notch_shape: parabolic, notch_side: 1:1}", "plan.yaml:1: dams.notch_side: 1:1; a parabolic notch has none; leave it out"},
		{"sides of a notch of logs", "dams: {kind: log, notch_side: 1:1}", "plan.yaml:1: dams.notch_side: 1:1; a rectangular notch has none; leave it out"},
		{"objective", "dams: {objective: cheapest}", "plan.yaml:1: dams.objective: cheapest; least-rock or fewest-dams or most-sediment-per-tonne"},
		{"fixed cost without a unit", "dams: {fixed_cost: 1}", "plan.yaml:1: dams.fixed_cost: 1; the unit is missing; a weight is a number with t, kg, lb or us-ton, such as 1 t"},
		{"fixed cost in tons", "dams: {fixed_cost: 1 ton}", `plan.yaml:1: dams.fixed_cost: 1 ton; "ton" is not a unit of weight; a weight is a number with t, kg, lb or us-ton, such as 1 t`},
		{"face upright", "dams: {kind: log, face_up: 0:1}", "plan.yaml:1: dams.face_up: 0:1; at least 1:1"},
		{"list of faces", "dams: {face_up: ['2:1', '3:1']}", "plan.yaml:1: dams.face_up: [2:1, 3:1]; one value is wanted, not a list: 1:1 to 10:1; or usual"},
		{"clearance as a share", "dams: {road_distance: 5 %}", `plan.yaml:1: dams.road_distance: 5 %; "%" is not a unit of length; ` + length},
		{"no exclusions", "dams:\n  exclusions:\n", "plan.yaml:2: dams.exclusions: no value; polygons, any layer that GDAL reads, relative to the settings file; or none"},
		{"soil like rock", "gully: {bank_density: 2.6 t/m3}", "plan.yaml:1: gully.bank_density: 2.6 t/m3; at most 1.7 t/m3"},
		{"soil as a weight", "gully: {bank_density: 1.4 t}", `plan.yaml:1: gully.bank_density: 1.4 t; "t" is not a unit of density; a density is a number with t/m3, kg/m3 or lb/ft3, such as 1.4 t/m3`},
		{"a gully of no age", "gully: {formation_years: 0}", "plan.yaml:1: gully.formation_years: 0; a number of years is more than 0"},
		{"a gully of the ice age", "gully: {formation_years: 12000 yr}", "plan.yaml:1: gully.formation_years: 12000 yr; at most 1000 yr"},
		{"a load of nothing", "prices: {load: 0 t}", "plan.yaml:1: prices.load: 0 t; more than 0; or none"},
		{"a barrow of two tonnes", "prices: {barrow: 2 t}", "plan.yaml:1: prices.barrow: 2 t; at most 1 t"},
		// handover and funding
		{"a title of two lines", "handover: {title: \"a\\nb\"}", `plan.yaml:1: handover.title: "a\nb"; one line of up to 80 letters; or none`},
		{"a long title", "handover: {title: " + strings.Repeat("a", 81) + "}", "plan.yaml:1: handover.title: " + units.Shown(strings.Repeat("a", 81)) + "; one line of up to 80 letters; or none"},
		{"paper", "handover: {paper: a5}", "plan.yaml:1: handover.paper: a5; a4 or letter"},
		{"private layer", "handover: {private: [dams, roads]}", "plan.yaml:1: handover.private: [dams, roads]; " + layers},
		{"private layer twice", "handover: {private: [dams, dams]}", "plan.yaml:1: handover.private: [dams, dams]; " + layers},
		{"no private layer", "handover: {private: []}", "plan.yaml:1: handover.private: []; " + layers},
		{"match of what", "funding: {match_share: 40 %}", "plan.yaml:1: funding.match_share: 40 %; funding.match_base is missing: is it a share of the total cost or of the federal money? total or federal"},
		{"base without a share", "funding: {match_base: total}", "plan.yaml:1: funding.match_base: total; it goes with funding.match_share, which is missing"},
		{"a match of everything", "funding: {match_share: 100 %, match_base: total}", "plan.yaml:1: funding.match_share: 100 %; less than 100 % of the total; the rest is federal"},
		{"a share as a percentage without its sign", "funding: {match_share: 40, match_base: total}", "plan.yaml:1: funding.match_share: 40; at most 1000 %"},
		{"a share as a slope", "funding: {match_share: 0.4 m/m}", "plan.yaml:1: funding.match_share: 0.4 m/m; a share is a number with % or without, such as 40 % or 0.4"},
		{"a match of nothing", "funding: {match_share: 0, match_base: total}", "plan.yaml:1: funding.match_share: 0; more than 0; or none\nplan.yaml:1: funding.match_base: total; it goes with funding.match_share, which is missing"},
		{"money with a sign", "funding: {federal: $5}", "plan.yaml:1: funding.federal: $5; a number without a unit is wanted, such as 0.5"},
		{"margin", "effect: {margin: 1 km}", "plan.yaml:1: effect.margin: 1 km; at most 100 m"},
		{"dam lowered to nothing", "dams: {min_height: 1 cm}", "plan.yaml:1: dams.min_height: 1 cm; at least 0.1 m"},
		{"stone lighter than wood", "stone: {gravity: 0.8}", "plan.yaml:1: stone.gravity: 0.8; at least 1.5"},
		{"stone of nothing", "stone: {voids: 1}", "plan.yaml:1: stone.voids: 1; at most 0.6"},
		{"one yield", "sediment: {yield: 1 m3/ha}", "plan.yaml:1: sediment.yield: 1 m3/ha; a list of two values, lower first: 0.001 m3/ha to 1000 m3/ha"},
		{"yield as a volume", "sediment: {yield: [1 m3, 2 m3]}", `plan.yaml:1: sediment.yield: [1 m3, 2 m3]; first value: "m3" is not a unit of sediment yield; a sediment yield is a number with m3/ha or yd3/ac, such as 1.5 m3/ha`},
		{"yields turned round", "sediment: {yield: [3 m3/ha, 0.5 m3/ha]}", "plan.yaml:1: sediment.yield: [3 m3/ha, 0.5 m3/ha]; the lower value comes first, and the two differ"},
		{"price in a currency", "prices: {rock: 45 USD}", "plan.yaml:1: prices.rock: 45 USD; a number without a unit is wanted, such as 0.5"},
		{"a sentence for a currency", "prices: {currency: good old money}", "plan.yaml:1: prices.currency: good old money; up to 12 letters or signs, such as USD; or none"},
		{"key twice", "dams:\n  height: 0.6 m\n  height: 0.5 m\n", "plan.yaml:3: dams.height: given twice, first on line 2; keep one"},
		{"section twice", "dams: {}\ndams: {height: 0.5 m}\n", "plan.yaml:2: dams: given twice, first on line 1; keep one"},
		// document
		{"a list", "- dams\n", "plan.yaml:1: [dams]; a settings file is sections with keys, such as dams: {height: 0.6 m}"},
		{"a number", "5\n", "plan.yaml:1: 5; a settings file is sections with keys, such as dams: {height: 0.6 m}"},
		{"anchor", "dams: {height: &h 0.6 m}", "plan.yaml:1: dams.height: an anchor or alias (& or *), which settings do not take; 0.1 m to 0.9 m, more only with engineer: true"},
		{"alias", "channels: {min_length: &h 1 m}\ndams: {height: *h}",
			"plan.yaml:1: channels.min_length: an anchor or alias (& or *), which settings do not take; at least 0 m\n" +
				"plan.yaml:2: dams.height: an anchor or alias (& or *), which settings do not take; 0.1 m to 0.9 m, more only with engineer: true"},
		{"merge key", "dams: {<<: {height: 0.6 m}}", "plan.yaml:1: a key is a plain word; <<, ?, &, * and ! are not taken"},
		{"question mark key", "? dams\n: {height: 0.6 m}\n", "plan.yaml:1: a key is a plain word; <<, ?, &, * and ! are not taken"},
		{"tag", "dams: {height: !!str 0.6 m}", "plan.yaml:1: dams.height: a tag (!), which settings do not take; 0.1 m to 0.9 m, more only with engineer: true"},
		{"two documents", "dams: {}\n---\nflow: {}\n", "plan.yaml:2: a second YAML document; settings are one, remove the line ---"},
		{"directive", "%YAML 1.2\n---\ndams: {}\n", "plan.yaml:1: a YAML directive; settings take none, remove the line"},
		{"not UTF-8", "dams: {}\n# \xe9t\xe9\n", "plan.yaml:2: not UTF-8 text; save the file as UTF-8"},
		{"UTF-16", "\xff\xfed\x00a\x00", "plan.yaml:1: not UTF-8 text; save the file as UTF-8"},
		{"control character", "dams: {}\nflow: \x00\n", "plan.yaml:2: a control character; a settings file is plain text"},
		{"deep brackets", "dams:\n  " + strings.Repeat("[", 5000), "plan.yaml:2: brackets nested too deeply; a list has two items, such as [2 %, 20 %]"},
		{"bracket left open", "flow: {edge: open}\ndams: {slope: [2 %, 20 %\n", "plan.yaml:2: not YAML: sequence end token ']' not found"},
		{"tab", "dams:\n\theight: 0.6 m\n", "plan.yaml:2: not YAML: found character '\\t' that cannot start any token"},
		// lines are counted past comments, blank lines, line ends and values of several lines
		{"line after comments", "# a\n\ndams:\n  # b\n\n  height: 6 m\n", "plan.yaml:6: dams.height: 6 m; at most 0.9 m unless engineer: true"},
		{"line after CR LF", "dams:\r\n  kind: loose-rock\r\n\r\n  height: 6 m\r\n", "plan.yaml:4: dams.height: 6 m; at most 0.9 m unless engineer: true"},
		{"line after a text of two lines", "dams:\n  kind: \"loose\n    rock\"\n  height: 6 m\n", "plan.yaml:2: dams.kind: loose rock; " + kinds + "\n" +
			"plan.yaml:4: dams.height: 6 m; at most 0.9 m unless engineer: true"},
		// several
		{"all are told, by line", "dams:\n  height: 6 m\n  slope: 2 %\nflw: {}\n", "plan.yaml:2: dams.height: 6 m; at most 0.9 m unless engineer: true\n" +
			"plan.yaml:3: dams.slope: 2 %; a list of two values, lower first: 0 % to 100 %\n" +
			"plan.yaml:4: flw: unknown section; did you mean flow?"},
	}
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			_, err := Parse("plan.yaml", []byte(r.text))
			if err == nil || err.Error() != r.want {
				t.Errorf("got  %v\nwant %v", err, r.want)
			}
			var f *Fault
			if !errors.Is(err, ErrInput) || !errors.As(err, &f) {
				t.Error("the error is not marked as the user's")
			}
		})
	}
}

func TestTooLarge(t *testing.T) {
	filler := strings.Repeat("# filler\n", MaxBytes/9)
	if _, err := Parse("plan.yaml", []byte(filler+strings.Repeat("#", MaxBytes-len(filler)))); err != nil {
		t.Errorf("a file of the largest size: %v", err)
	}
	_, err := Parse("plan.yaml", make([]byte, MaxBytes+1))
	if err == nil || !strings.HasPrefix(err.Error(), "plan.yaml: larger than 32 KiB") {
		t.Errorf("got %v", err)
	}
}

func TestManyFaultsAreCut(t *testing.T) {
	var b strings.Builder
	b.WriteString("flow:\n")
	for i := range 100 {
		fmt.Fprintf(&b, "  unknown%d: 1\n", i)
	}
	_, err := Parse("plan.yaml", []byte(b.String()))
	lines := strings.Split(fmt.Sprint(err), "\n")
	if len(lines) != 21 || lines[20] != "plan.yaml: 80 more faults are not listed; mend these first" {
		t.Errorf("%d lines: %v", len(lines), err)
	}
}
