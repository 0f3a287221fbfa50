// Series in the order of building, scenarios, and the soil kept.

function works() {
  const dash = (kind, x, decimals) => (x === null || x === undefined ? "–" : number(kind, x, decimals));
  const u = (name, kind) => (unitOf(kind) ? `${name}, ${unitOf(kind)}` : name);
  const parts = [];
  if (plan.series.length) {
    const rows = plan.series.slice().sort((a, b) => a.build_order - b.build_order).map((s) => {
      const lowest = s.dam_ids.split(/[ ,;]+/)[0];
      return [plan.dam.has(lowest) ? opener(lowest, s.id) : s.id, plain(s.build_order, 0), dash("", s.year, 0), opener(s.drainage), plain(s.dams, 0), dash("m", s.treated_m, 1), dash("t", s.rock_t, 1), dash("", s.loads, 0), dash("days", s.person_days, 1), dash("money", s.cost, 0), s.left_out ? "left out" : s.before || ""];
    });
    parts.push(make("h3", null, "Series, in the order of building"), fixedTable("Series", ["series", "order", "year", "drainage", "dams", u("treated", "m"), u("rock", "t"), "loads", "person-days", u("cost", "money"), "before it, or left out"], rows));
  } else if (plan.totals.series > 0) {
    parts.push(make("p", null, "This plan holds no table of its series. Dams carry the number of their series in the table above."));
  } else parts.push(make("p", null, "No series: no place for dams was found."));
  if (plan.scenarios.length) {
    parts.push(make("h3", null, "Other ways to treat the land"), fixedTable("Scenarios", ["way", "series", "dams", u("treated", "m"), u("left uncovered", "m"), u("rock", "t"), u("silt room", "m3"), "person-days", u("cost", "money"), "note"],
      plan.scenarios.map((s) => [s.name, plain(s.series, 0), plain(s.dams, 0), dash("m", s.treated_m, 1), dash("m", s.uncovered_m, 1), dash("t", s.rock_t, 1), dash("m3", s.sediment_m3, 1), dash("days", s.person_days, 1), dash("money", s.cost, 0), s.note || ""])));
  }
  if (plan.loads.length) {
    parts.push(make("h3", null, "Soil lost and kept, by drainage"), fixedTable("Soil", ["drainage", u("gully volume", "m3"), u("low", "m3"), u("high", "m3"), u("soil lost", "t"), u("a year", "t"), u("avoided a year", "t")],
      plan.loads.map((l) => [opener(l.drainage), dash("m3", l.void_m3, 1), dash("m3", l.void_low_m3, 1), dash("m3", l.void_high_m3, 1), dash("t", l.mass_t, 1), dash("t", l.year_t, 2), dash("t", l.avoided_year_t, 2)])),
    make("p", { class: "note" }, [...new Set(plan.loads.map((l) => l.method).filter(Boolean))].join(" ")));
  }
  find("work-tables").replaceChildren(...parts);
}
later(works);
listen("units", works);
