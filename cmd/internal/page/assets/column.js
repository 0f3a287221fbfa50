// The columns of the two tables.

function measured(key, title, kind, decimals, note) {
  return {
    key, number: true, note,
    head: () => (typeof title === "function" ? title() : title) + (unitOf(kind) ? `, ${unitOf(kind)}` : ""),
    text: (row) => (row[key] === null ? "–" : number(kind, row[key], decimals)),
    by: (row) => row[key],
  };
}

const severityText = (d) => (d.severity === null ? "not judged" : `${d.severity.toFixed(1)} ${d.severity_class || ""}`);

const drainageColumns = [
  { key: "id", head: () => "drainage", text: (d) => d.id, by: (d) => d.id },
  measured("rank", "rank", "", 0, "1 is the worst"),
  { key: "severity", head: () => "severity", text: severityText, by: (d) => d.severity, number: true },
  measured("dams", "dams", "", 0),
  measured("treated_m", "treated", "m", 1, "treated channel length"),
  measured("rock_t", "rock", "t", 1),
  measured("cost", "cost", "money", 0),
  measured("length_m", "length", "m", 0),
  measured("catchment_ha", catchmentWord, "ha", 2),
  measured("slope", "slope", "rise", 1),
  measured("incision_mean_m", "mean cut", "m", 2, "mean depth cut below the ground beside it"),
  measured("incision_max_m", "deepest cut", "m", 2),
  measured("headcuts", "headcuts", "", 0),
  measured("eligible_m", "room for dams", "m", 1, "length of the reaches where dams may stand"),
  measured("sediment_m3", "silt room", "m3", 1, "sediment that fits behind the dams"),
  { key: "truncated", head: () => `whole ${catchmentWord()} seen`, text: (d) => (d.truncated ? "no: at least" : "yes"), by: (d) => (d.truncated ? 1 : 0), note: "no: water may come in over the edge of the data, so areas and flows read at least" },
];

const cautionsOf = (s) => (s.cautions ? s.cautions.split("; ") : []);
const verdictOf = (s) => (mustNotBuild(s.id) ? "not as designed" : plan.design.has(s.id) ? "can be built" : "no design");

const damColumns = [
  { key: "id", head: () => "dam", text: (s) => s.id, by: (s) => s.id },
  measured("effective_height_m", "height", "m", 2, "notch sill above the bed"),
  { key: "verdict", head: () => "verdict", text: verdictOf, by: verdictOf },
  { key: "confidence", head: () => "confidence", text: (s) => s.confidence || "–", by: (s) => s.confidence || null },
  { key: "cautions", head: () => "cautions", text: (s) => String(cautionsOf(s).length), by: (s) => cautionsOf(s).length, number: true },
  measured("rock_t", "rock", "t", 2),
  measured("cost", "cost", "money", 0),
  measured("series", "series", "", 0),
  measured("station_m", "up the drainage", "m", 1),
  measured("spacing_down_m", "to the dam below", "m", 2, "level distance, axis to axis"),
  measured("rise_from_below_m", "rise from it", "m", 2),
  measured("slope", "bed slope", "rise", 1),
  measured("catchment_ha", catchmentWord, "ha", 2),
  measured("crest_length_m", "crest", "m", 2, "length across the channel"),
  measured("peak_m3s", "storm peak", "m3s", 3),
  measured("notch_width_m", "notch width", "m", 2),
  measured("notch_depth_m", "notch depth", "m", 2),
  measured("stone_d50_m", "stone D50", "size", 0, "half the stones by weight are larger"),
  measured("sediment_m3", "silt room", "m3", 2),
];
// Inches want a decimal that millimetres do not.
damColumns.find((c) => c.key === "stone_d50_m").text = (s) => (s.stone_d50_m === null ? "–" : number("size", s.stone_d50_m, system === "us" ? 1 : 0));

const any = ["all", null];
const different = (values) => [...new Set(values)].sort();

const drainageList = list({
  host: find("list-drainages"), name: "drainages", rows: plan.drainages, columns: drainageColumns, first: "rank",
  searchIn: (d) => `${d.id} ${d.severity_class || "not judged"} ${d.truncated ? "truncated" : ""}`,
  choices: [
    { key: "class", label: "Severity", options: [any, ...classLook.map((c) => [c.name, (d) => (d.severity_class || "") === c.key])] },
    { key: "with", label: "Dams", options: [any, ["with dams", (d) => d.dams > 0], ["without", (d) => d.dams === 0]] },
  ],
});

const damList = list({
  host: find("list-dams"), name: "dams", rows: plan.sites, columns: damColumns, first: "id",
  searchIn: (s) => `${s.id} ${s.confidence || ""} ${s.cautions || ""} ${verdictOf(s)}`,
  choices: [
    { key: "drainage", label: "Drainage", options: [any, ...[...plan.damsOf.keys()].map((id) => [id, (s) => s.drainage === id])] },
    { key: "confidence", label: "Confidence", options: [any, ...different(plan.sites.map((s) => s.confidence || "")).map((c) => [c || "not judged", (s) => (s.confidence || "") === c])] },
    { key: "verdict", label: "Verdict", options: [any, ...different(plan.sites.map(verdictOf)).map((v) => [v, (s) => verdictOf(s) === v])] },
  ],
});
