// The longitudinal profile of the chosen drainage.

let chart = null;
const walk = find("station");

const curveLook = {
  ground: { label: "ground", stroke: "#767676", width: 1, dash: [5, 3] },
  bed: { label: "bed", stroke: "#1c1c1c", width: 2 },
  incision: { label: "depth cut below the ground beside it (right)", stroke: "#7a1160", width: 1.25, dash: [2, 3] },
};

function axis(label, more) {
  return { stroke: "#1c1c1c", grid: { stroke: "#e2e0da", width: 1 }, ticks: { stroke: "#b8b4aa" }, font: "12px system-ui, sans-serif", labelFont: "12px system-ui, sans-serif", labelSize: 16, labelGap: 0, label, ...more };
}

function column(curve, name) {
  return curve[name].map((x) => value("m", x));
}

// buildProfile draws the profile anew: another drainage, other units.
function buildProfile() {
  const curve = chosen.drainage && curveOf(chosen.drainage);
  if (chart) chart.destroy();
  chart = null;
  find("profile-title").textContent = chosen.drainage ? `Profile of ${chosen.drainage}` : "Profile";
  find("profile-dams").hidden = !plan.damsOf.has(chosen.drainage);
  if (!curve) {
    find("profile-readout").textContent = "Choose a drainage on the map or in the table.";
    walk.disabled = true;
    return;
  }
  find("profile-readout").textContent = "Point at the profile, or along the drainage on the map.";
  const cutMost = Math.max(0.1, ...curve.incision.map((x) => x || 0));
  const steps = curve.station.length - 1;
  walk.disabled = false;
  walk.max = steps;
  const series = (name, scale) => ({ ...curveLook[name], scale, points: { show: false }, spanGaps: false });
  chart = new uPlot({
    width: Math.max(200, find("profile").clientWidth), height: Math.max(150, find("profile").clientHeight),
    legend: { show: false }, padding: [8, 4, 0, 0],
    scales: { x: { time: false }, cut: { range: [0, value("m", cutMost * 3)] } },
    axes: [
      axis(`distance up the drainage, ${unitOf("m")} (water runs to the left)`, { size: 28, gap: 2 }),
      axis(`elevation, ${unitOf("m")}`, { size: 66 }),
      axis(`cut, ${unitOf("m")}`, { scale: "cut", side: 1, grid: { show: false }, size: 38 }),
    ],
    series: [{}, series("ground", "y"), series("bed", "y"), series("incision", "cut")],
    cursor: { y: false, points: { size: 9, fill: "#0b5fa5" }, focus: { prox: -1 } },
    hooks: { drawClear: [drawWedges], draw: [drawDams], setScale: [(u, key) => key === "x" && queueMicrotask(() => tell("station", "scale"))] },
  }, [column(curve, "station"), column(curve, "ground"), column(curve, "bed"), column(curve, "incision")], find("profile"));
  chart.over.addEventListener("mousemove", pointerMoved);
  chart.over.addEventListener("click", damAtCursor);
  if (chosen.dam) zoomTo(plan.dam.get(chosen.dam).station_m - 25, plan.dam.get(chosen.dam).station_m + 35);
}

function pointerMoved(event) {
  point(chart.posToVal(event.clientX - chart.over.getBoundingClientRect().left, "x") * packed.units.m[system].one, "profile");
}

listen("station", (from) => {
  const curve = chosen.drainage && curveOf(chosen.drainage);
  if (!chart || !curve || chosen.station === null) return;
  const at = curve.station.findIndex((s) => s >= chosen.station - 0.005);
  if (from !== "walk") walk.value = at < 0 ? walk.max : at;
  if (from !== "profile") {
    chart.setCursor({ left: chart.valToPos(value("m", chosen.station), "x"), top: 10 });
  }
  sayStation(curve);
});

function sayStation(curve) {
  const at = (name) => between(curve, name, chosen.station);
  const bed = at("bed");
  const text = `${quantity("m", chosen.station, 1)} up · bed ${quantity("m", bed, 2)} · slope ${quantity("rise", at("slope"), 1)} · cut ${quantity("m", at("incision"), 2)} · ${catchmentWord()} ${quantity("ha", at("catchment"), 2)}`;
  find("profile-readout").textContent = text;
  walk.setAttribute("aria-valuetext", text);
}

walk.addEventListener("input", () => {
  const curve = curveOf(chosen.drainage);
  if (curve) point(curve.station[Number(walk.value)], "walk");
});

// damAtCursor chooses the dam that was clicked, within 12 pixels.
function damAtCursor() {
  const left = chart.cursor.left;
  const off = (d) => Math.abs(chart.valToPos(value("m", d.station_m), "x") - left);
  const dams = (plan.damsOf.get(chosen.drainage) || []).slice().sort((a, b) => off(a) - off(b));
  if (dams.length && off(dams[0]) < 12) choose(dams[0].id, { from: "profile" });
}

function zoomTo(from, to) {
  const curve = curveOf(chosen.drainage);
  const last = curve.station[curve.station.length - 1];
  chart.setScale("x", { min: value("m", Math.max(0, from)), max: value("m", Math.min(last, to)) });
}

find("profile-dams").addEventListener("click", () => {
  const dams = plan.damsOf.get(chosen.drainage);
  if (chart && dams) zoomTo(dams[0].station_m - 10, (dams[dams.length - 1].wedge_end_station_m || dams[dams.length - 1].station_m) + 10);
});
find("profile-whole").addEventListener("click", () => {
  if (chart) zoomTo(0, Infinity);
});

let drawn = null; // the drainage in the chart
listen("choice", () => {
  if (drawn !== chosen.drainage || !chart) {
    drawn = chosen.drainage;
    buildProfile();
  } else if (chosen.dam) {
    const s = plan.dam.get(chosen.dam).station_m, one = packed.units.m[system].one;
    const from = chart.scales.x.min * one, to = chart.scales.x.max * one;
    if (s < from || s > to || to - from > 150) zoomTo(s - 25, s + 35);
    else chart.redraw();
  } else zoomTo(0, Infinity);
});
listen("units", () => {
  if (chosen.drainage) buildProfile();
  tell("station", null);
});
new ResizeObserver(() => {
  if (chart) chart.setSize({ width: Math.max(200, find("profile").clientWidth), height: Math.max(150, find("profile").clientHeight) });
}).observe(find("profile"));
