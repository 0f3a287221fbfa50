// The panel of a dam.

function damPanel(site) {
  const d = plan.design.get(site.id) || {};
  const run = plan.series.find((s) => s.drainage === site.drainage && s.number === site.series);
  const dams = plan.damsOf.get(site.drainage);
  const at = dams.indexOf(site);
  const cautions = cautionsOf(site);
  const checks = (plan.checksOf.get(site.id) || []).slice().sort((a, b) => a.number - b.number);
  const weak = plan.weaknessesOf.get(site.id) || [];
  return [
    make("p", { class: "walkers" }, at > 0 ? opener(dams[at - 1].id, `← ${dams[at - 1].id} below`) : null, " ", at + 1 < dams.length ? opener(dams[at + 1].id, `${dams[at + 1].id} above →`) : null, " ", opener(site.drainage, `drainage ${site.drainage}`)),
    plan.design.has(site.id) && !d.buildable ? make("p", { class: "alarm" }, "✕ Must not be built as designed. ", d.lower_height_m ? `It can stand ${lengthOf(d.lower_height_m)} high at most.` : "See what is missing, the notes and the cautions.") : null,
    plan.design.has(site.id) ? null : make("p", { class: "alarm" }, "No design: a place only. The findings say what is missing."),
    block("Cautions", bullets(cautions.length ? cautions : ["None of its own. The cautions at the top of this page hold for every dam."])),
    sectionDrawing(site),
    block("Dam", values(
      ["height of the sill above the bed", lengthOf(site.effective_height_m)],
      ["crest, across the channel", lengthOf(site.crest_length_m)],
      ["crest, along the flow", lengthOf(site.crest_width_m)],
      ["bed level", lengthOf(site.bed_m)],
      ["sill level", lengthOf(site.notch_sill_m)],
      ["top of the wings", lengthOf(site.dam_top_m)],
      ["apron below it", lengthOf(site.apron_length_m)],
      ["key into the bed", lengthOf(site.key_bed_m)],
      ["key into the banks", lengthOf(site.key_bank_m)])),
    block("Place", values(
      ["up the drainage", lengthOf(site.station_m)],
      ["from the dam below, level", site.spacing_down_m === null ? "the lowest of its series" : lengthOf(site.spacing_down_m)],
      ["rise from the dam below", site.rise_from_below_m === null ? null : lengthOf(site.rise_from_below_m)],
      ["to the dam above", site.spacing_up_m === null ? "the highest of its series" : lengthOf(site.spacing_up_m)],
      ["longitude, latitude", `${site.lon === null ? notKnown : site.lon.toFixed(7)}, ${site.lat === null ? notKnown : site.lat.toFixed(7)}`],
      ["east, north", `${plainMetres(site.x_m)}, ${plainMetres(site.y_m)}`],
      ["bed slope", slopeOf(site.slope)],
      ["bed width", lengthOf(site.bed_width_m)],
      ["bank to bank", lengthOf(site.bank_to_bank_m)],
      ["bank height", lengthOf(site.bank_height_m)],
      [catchmentWord(), areaOf(site.catchment_ha)],
      ["series", run ? `${run.id}, number ${plain(run.build_order, 0)} in the order of building` : String(site.series)])),
    block("Storm", values(
      ["storm", site.return_period_yr === null ? notKnown : `${plain(site.return_period_yr, 0)}-year, ${site.storm_hours === null ? "hours not known" : plain(site.storm_hours, 0) + " h"}`],
      ["peak at the dam", flowOf(site.peak_m3s)],
      ["peaks by all methods", d.low_m3s == null ? null : `${number("m3s", d.low_m3s, 3)} to ${flowOf(d.high_m3s)}`],
      ["method", d.method || null],
      ["time of concentration", d.time_of_concentration_min == null ? null : `${plain(d.time_of_concentration_min, 1)} min`],
      ["missing", d.missing || null])),
    block("Notch", values(
      ["shape", d.notch_shape || notKnown],
      ["width", lengthOf(site.notch_width_m)],
      ["depth", lengthOf(site.notch_depth_m)],
      ["side slope", d.notch_side_slope == null ? null : `${plain(d.notch_side_slope, 1)}:1`],
      ["water over the sill at the peak", d.head_m == null ? null : lengthOf(d.head_m)],
      ["freeboard", d.freeboard_m == null ? null : lengthOf(d.freeboard_m)],
      ["carries", d.capacity_m3s == null ? notKnown : flowOf(d.capacity_m3s)],
      ["carries, over the highest peak", d.capacity_over_highest == null ? notKnown : `${plain(d.capacity_over_highest, 2)} ${d.capacity_over_highest < 1 ? "✕ too small" : "✓ enough"}`])),
    block("Rock", values(
      ["stone, D50", stoneOf(site.stone_d50_m)],
      ["method", d.stone_method || null],
      ["rock to order", `${massOf(site.rock_t)}, ${volumeOf(site.rock_m3)}`],
      ["in place", d.rock_in_place_t == null ? null : massOf(d.rock_in_place_t)],
      ["body, key, apron", d.body_m3 == null ? null : `${number("m3", d.body_m3, 2)}, ${number("m3", d.key_m3, 2)}, ${volumeOf(d.apron_m3)}`],
      ["pond behind it", volumeOf(site.pond_m3)],
      ["silt behind it when full", volumeOf(site.sediment_m3)],
      ["years until full", site.fill_years_low === null ? notKnown : `${plain(site.fill_years_low, 1)} to ${plain(site.fill_years_high, 1)}`],
      ["labour", daysOf(site.person_days)],
      ["cost", moneyOf(site.cost)])),
    block(`Confidence: ${site.confidence || "not judged"}`, checks.length ? [make("p", null, "Check on the ground before it is built:"), make("ol", null, checks.map((c) => make("li", null, c.text)))] : null),
    block("What would make it fail", bullets(weak.map((w) => `${w.text} (margin ${w.margin === null ? notKnown : plain(w.margin, 2)}: 0 is at the limit, 1 is ample)`))),
    block("Notes", d.notes ? make("p", null, d.notes) : null),
  ];
}

// plainMetres is for places of the grid, which stay in metres.
const plainMetres = (x) => (x === null ? notKnown : `${x.toFixed(2)} m`);
