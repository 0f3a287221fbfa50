// The panel of a drainage.

const partName = { incision: "cut", headcuts: "headcuts", shear: "storm force on the bed", banks: "bank slope", incised: "length that is cut" };

function drainagePanel(d) {
  const dams = plan.damsOf.get(d.id) || [];
  const load = plan.loadOf.get(d.id);
  const parts = plan.partsOf.get(d.id) || [];
  const reaches = plan.reachesOf.get(d.id) || [];
  const stories = plan.series.filter((s) => s.drainage === d.id);
  const names = new Set([d.id, ...stories.map((s) => s.id)]);
  const slopes = plan.gradients.filter((g) => names.has(g.id)), filled = plan.filling.filter((f) => names.has(f.id));
  return [
    d.truncated ? make("p", { class: "alarm" }, `The ${catchmentWord()} goes over the edge of the data: areas and flows read “at least”.`) : null,
    values(
      ["severity", d.severity === null ? "not judged" : `${plain(d.severity, 1)} of 100: ${d.severity_class}`],
      ["rank", d.rank === null ? notKnown : `${plain(d.rank, 0)}; in the first ten in ${quantity("share", d.steady_share, 0)} of draws of the weights`],
      ["length", quantity("m", d.length_m, 1)],
      ["fall, slope", `${lengthOf(d.drop_m)}, ${slopeOf(d.slope)}`],
      [catchmentWord(), areaOf(d.catchment_ha)],
      ["cut, mean and deepest", `${lengthOf(d.incision_mean_m)}, ${lengthOf(d.incision_max_m)}`],
      ["headcuts", plain(d.headcuts, 0)],
      ["storm peak at its end", flowOf(d.peak_m3s)],
      ["runs into", d.into ? opener(d.into) : "no other drainage"],
      ["inside the property", d.property_share === null ? null : quantity("share", d.property_share, 0)]),
    block("Dams", values(
      ["dams, series", `${plain(d.dams, 0)}, ${plain(d.series, 0)}`],
      ["length where dams may stand", quantity("m", d.eligible_m, 1)],
      ["treated channel length", quantity("m", d.treated_m, 1)],
      ["rock", massOf(d.rock_t)],
      ["silt room", volumeOf(d.sediment_m3)],
      ["cost", moneyOf(d.cost)]), dams.length ? make("p", { class: "chips" }, dams.map((s) => [opener(s.id), " "])) : null),
    block("Why this severity", parts.length ? fixedTable("Parts of the severity", ["part", "value", "score", "weight", "points"], parts.map((p) => [partName[p.part] || p.part, p.value === null ? notKnown : `${p.value} ${p.unit === "1" ? "" : p.unit || ""}`.trim(), p.score === null ? "–" : plain(p.score, 1), p.weight === null ? "–" : plain(p.weight, 0), p.points === null ? "–" : plain(p.points, 1)])) : null),
    block("Soil lost and kept", load ? [values(
      ["gully, volume", range("m3", load.void_m3, load.void_low_m3, load.void_high_m3, 1)],
      ["soil lost so far", range("t", load.mass_t, load.mass_low_t, load.mass_high_t, 1)],
      ["a year", quantity("t", load.year_t, 2)],
      ["avoided a year", quantity("t", load.avoided_year_t, 2)]), make("p", null, load.method)] : null),
    block("Slope before and after", slopes.length ? fixedTable("Slopes", ["where", "before", "after", "drop taken by dams"], slopes.map((g) => [g.id, slopeOf(g.gradient_before), slopeOf(g.gradient_after), lengthOf(g.falls_m)])) : null),
    block("How soon it fills", filled.length ? fixedTable("Filling", ["where", "years", "filled, low", "likely", "high"], filled.map((f) => [f.id, plain(f.years, 0), quantity("share", f.filled_low, 0), quantity("share", f.filled, 0), quantity("share", f.filled_high, 0)])) : null),
    block("Reaches: where dams may stand, and why not elsewhere", reaches.length ? make("ul", { class: "reaches" }, reaches.map((r) => make("li", null, make("b", null, `${number("m", r.from_station_m, 1)} to ${quantity("m", r.to_station_m, 1)}: ${r.verdict}. `), [r.reasons, r.notes].filter(Boolean).join("; ")))) : null),
  ];
}
