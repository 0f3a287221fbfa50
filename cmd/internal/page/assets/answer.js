// The answer: totals, and which drainages come first.

function figures() {
  const t = plan.totals;
  const money = (x) => (x === null ? notKnown : `${unitOf("money")} ${number("money", x, 0)}`.trim());
  const tile = (name, text, note) => make("div", { class: "figure" }, make("dt", null, name), make("dd", null, sized(text), note ? make("small", null, note) : null));
  const treated = plan.drainages.filter((d) => d.dams > 0).length;
  find("figures").replaceChildren(make("dl", { class: "figures" },
    tile("treated channel", quantity("m", t.treated_m, 1), `of ${quantity("m", t.eligible_m, 1)} where dams may stand, of ${quantity("m", t.channel_m, 0)} of channel`),
    tile("dams", plain(t.dams, 0), `in ${plain(t.series, 0)} series on ${treated} of ${plain(t.drainages, 0)} drainages`),
    tile("rock", quantity("t", t.rock_t, 1), quantity("m3", t.rock_m3, 1)),
    tile("cost", money(t.cost), t.cost === null ? "give prices in the settings" : null),
    tile("labour", t.person_days === null ? notKnown : quantity("days", t.person_days, 1), t.person_days === null ? "give labour in the settings" : null),
    tile("silt room", quantity("m3", t.sediment_m3, 1), !(t.sediment_low_m3 <= t.sediment_m3 && t.sediment_m3 <= t.sediment_high_m3) || t.sediment_high_m3 === null ? null : `${number("m3", t.sediment_low_m3, 1)} to ${number("m3", t.sediment_high_m3, 1)}`),
    tile("worst class", [["severe", t.severe], ["eroding", t.eroding], ["watch", t.watch], ["sound", t.sound], ["not judged", t.not_judged]].filter(([, n]) => n > 0).map(([word, n]) => `${n} ${word}`)[0] || notKnown, `${t.severe} severe, ${t.eroding} eroding, ${t.watch} to watch, ${t.sound} sound, ${t.not_judged} not judged`),
  ),
  ...[
    t.unbuildable > 0 ? make("p", { class: "alarm" }, `✕ ${plain(t.unbuildable, 0)} of these dams must not be built as designed. `, make("button", { type: "button", class: "link", onclick: () => { openTab("dams"); damList.only("verdict", verdictFilter()); find("bench").scrollIntoView(); } }, "Show which")) : null,
    t.undesigned > 0 ? make("p", { class: "alarm" }, `${plain(t.undesigned, 0)} dams are places only: they have no design, and no rock is counted for them.`) : null,
    t.truncated > 0 ? make("p", null, `${plain(t.truncated, 0)} drainages take in water from outside the data: their areas and flows read “at least”.`) : null,
  ].filter(Boolean));
}

// sized returns a quantity with its unit in small.
function sized(text) {
  const at = /^[\d,.]+(?= )/.exec(text);
  return at ? [at[0], make("span", { class: "unit" }, text.slice(at[0].length))] : text;
}

const verdictFilter = () => [...find("dams-verdict").options].findIndex((o) => o.textContent === "not as designed");

const strongest = (d) => {
  const parts = (plan.partsOf.get(d.id) || []).filter((p) => p.points !== null).sort((a, b) => b.points - a.points);
  return parts.length ? parts.slice(0, 2).map((p) => partName[p.part] || p.part).join(", ") : "–";
};

function worst() {
  const first = plan.drainages.filter((d) => d.rank !== null).sort((a, b) => a.rank - b.rank).slice(0, 10);
  const dash = (kind, x, decimals) => (x === null ? "–" : number(kind, x, decimals));
  find("worst").replaceChildren(make("h3", null, `Which drainages first: the ${first.length} worst`),
    fixedTable("Worst drainages", ["drainage", "rank", "severity", "most of it from", "dams", `treated, ${unitOf("m")}`, `rock, ${unitOf("t")}`, `cost${unitOf("money") ? ", " + unitOf("money") : ""}`, "why no dams"],
      first.map((d) => [opener(d.id), plain(d.rank, 0), severityText(d), strongest(d), plain(d.dams, 0), dash("m", d.treated_m, 1), dash("t", d.rock_t, 1), dash("money", d.cost, 0), d.dams > 0 ? "" : whyNone(d)])));
}

// whyNone returns the reasons that hold for the most metres of a drainage without dams, without the figures in them.
function whyNone(d) {
  const metres = new Map();
  for (const r of plan.reachesOf.get(d.id) || []) {
    for (const reason of sentences(r.reasons)) {
      const short = reason.split(":")[0];
      metres.set(short, (metres.get(short) || 0) + r.to_station_m - r.from_station_m);
    }
  }
  const most = [...metres].sort((a, b) => b[1] - a[1])[0];
  return most ? most[0] : "–";
}

for (const show of [figures, worst]) {
  show();
  listen("units", show);
}
