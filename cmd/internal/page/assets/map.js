// The map: metres of the grid, north up. No tiles are loaded.

const groundSize = [plan.grid.rows * plan.grid.cell_m, plan.grid.cols * plan.grid.cell_m];
const wholeGround = L.latLngBounds([0, 0], groundSize);
const canvas = L.canvas({ tolerance: 5, padding: 0.3 });

const map = L.map("map", { crs: L.CRS.Simple, renderer: canvas, attributionControl: false, minZoom: -8, maxZoom: 5, zoomSnap: 0.25, zoomDelta: 0.5, zoomAnimation: false, fadeAnimation: false, markerZoomAnimation: false, maxBoundsViscosity: 0.5 });
map.setMaxBounds(wholeGround.pad(0.6));

// fit shows a part of the land beside the list of layers.
function fit(bounds) {
  const list = find("layers"), beside = list.open && getComputedStyle(list).position === "absolute";
  map.fitBounds(bounds, { paddingBottomRight: [beside ? list.offsetWidth + 8 : 0, 0] });
}
if (window.matchMedia("(min-width: 1100px)").matches) find("layers").open = true;
fit(wholeGround);
L.control.scale({ metric: true, imperial: true, maxWidth: 130 }).addTo(map);

const relief = packed.relief ? L.imageOverlay(packed.relief, wholeGround, { opacity: 0.75, alt: "Relief of the land, lit from one side" }) : null;

// Bands under the drainages say where dams may stand.
const bandLook = {
  eligible: { color: "#4f9a63", weight: 11, opacity: 0.65, lineCap: "butt" },
  not: { color: "#6b6b6b", weight: 7, opacity: 0.5, dashArray: "2 5", lineCap: "butt" },
};
const reachLook = (verdict) => (verdict === "eligible" ? bandLook.eligible : bandLook.not);
const coverLook = { color: "#3b3f8c", weight: 1.5, dashArray: "6 3 1 3", fill: true, fillColor: "#3b3f8c", fillOpacity: 0.1 };

// Looks of what was declared by its kind, and of kinds that are not listed.
const limitLook = {
  property: { color: "#7a1160", weight: 2.5, dashArray: "14 4", lineCap: "butt" },
  exclusion: { color: "#7a1160", weight: 2, dashArray: "3 3", lineCap: "butt", fill: true, fillColor: "#7a1160", fillOpacity: 0.15 },
  road: { color: "#3d3d3d", weight: 5, lineCap: "butt", core: { color: "#ffffff", weight: 2.5, lineCap: "butt" } },
  building: { color: "#1c1c1c", weight: 1.5, fill: true, fillColor: "#6b6b6b", fillOpacity: 0.8 },
  "live stream": { color: "#1d4f91", weight: 3, dashArray: "12 3 3 3", lineCap: "butt" },
};
const otherLimit = { color: "#3d3d3d", weight: 2, dashArray: "8 3 2 3 2 3", lineCap: "butt" };

function limitItems(limit) {
  const look = { ...(limitLook[limit.kind] || otherLimit), interactive: false };
  const lines = (list, make) => [look, look.core && { ...look.core, interactive: false }].filter(Boolean).flatMap((one) => list.map((ints) => make(corners(ints), one)));
  return [
    ...lines(limit.areas || [], (places, one) => L.polygon(places, { fill: false, ...one })),
    ...lines(limit.lines || [], (places, one) => L.polyline(places, { ...one, fill: false })),
    ...(limit.places || []).map((ints) => new Mark(corners(ints)[0], { shape: "ring", radius: 6, color: look.color, weight: 2.5, fill: false, interactive: false, full: 6 })),
  ];
}

// markScale makes marks smaller on a map of the whole land, so that lines stay in sight.
const markScale = () => Math.min(1, Math.max(0.5, 0.75 + map.getZoom() / 4));
let drawnAt = markScale();

function reachLines(verdictWanted) {
  return plan.reaches.filter((r) => (r.verdict === "eligible") === verdictWanted && curveOf(r.drainage) && r.to_station_m > r.from_station_m)
    .map((r) => L.polyline(stretch(curveOf(r.drainage), r.from_station_m, r.to_station_m), reachLook(r.verdict)).on("click", () => choose(r.drainage, { from: "map" })));
}

function drainageLines(look) {
  const lines = [];
  for (const d of plan.drainages) {
    const curve = curveOf(d.id);
    if (lookOf(d) !== look || !curve) continue;
    const places = curve.x.map((x, i) => [curve.y[i], x]);
    for (const one of [{ color: "#ffffff", weight: look.weight + 2.5, opacity: 0.75 }, look, look.core].filter(Boolean)) {
      lines.push(L.polyline(places, one).on("click", () => choose(d.id, { from: "map" })));
    }
  }
  return lines;
}

function points(list, lookFor, act) {
  return list.filter(spot).map((one) => new Mark(spot(one), { ...lookFor(one), full: lookFor(one).radius, radius: lookFor(one).radius * markScale() }).on("click", act(one)));
}

const covers = new Map();

// coverOf returns the catchment of a drainage, made when it is first asked for.
function coverOf(id) {
  if (!covers.has(id) && packed.catchments[id]) covers.set(id, L.polygon(packed.catchments[id].map(corners), { ...coverLook, interactive: false }));
  return covers.get(id) || null;
}

// layers of the map, the lowest first.
const layers = [
  relief && { key: "relief", name: "relief", layer: relief, on: true },
  ...(packed.limits || []).map((limit) => ({ key: "limit-" + limit.kind, name: limit.kind, look: (limit.lines || limit.areas) ? limitLook[limit.kind] || otherLimit : { shape: "ring", color: (limitLook[limit.kind] || otherLimit).color }, items: limitItems(limit), on: true })),
  { key: "covers", name: () => "all " + catchmentWord() + "s", look: coverLook, make: () => Object.keys(packed.catchments).map(coverOf), on: false },
  { key: "not", name: "reaches where no dam may stand", look: bandLook.not, make: () => reachLines(false), on: false },
  { key: "eligible", name: "reaches where dams may stand", look: bandLook.eligible, items: reachLines(true), on: true },
  ...classLook.slice().reverse().map((look) => ({ key: "class-" + look.name, name: "drainages: " + look.name, look, items: drainageLines(look), on: true })),
  { key: "headcuts", name: "headcuts", looks: [["headcut", headcutLook], ["other step in the bed", stepLook]], items: points(plan.headcuts, (h) => (h.cause === "headcut" ? headcutLook : stepLook), (h) => () => choose(h.drainage, { from: "map" })), on: true },
  { key: "dams", name: "dams", looks: [["dam", damLook], ["must not be built as designed", barredLook]], items: points(plan.sites, (s) => (mustNotBuild(s.id) ? barredLook : damLook), (s) => () => choose(s.id, { from: "map" })), on: true },
].filter((l) => l && (l.layer || l.make || l.items.length > 0));

for (const one of layers) {
  one.layer = one.layer || L.layerGroup(one.items || []);
  if (one.on) one.layer.addTo(map);
}

// show adds a layer to the map or takes it away; what is seldom wanted is made when it is.
function show(one, is) {
  if (is && one.make && !one.items) {
    one.items = one.make();
    one.items.forEach((item) => one.layer.addLayer(item));
  }
  if (is) one.layer.addTo(map);
  else one.layer.remove();
  order();
}

// resize draws marks anew where the zoom calls for another size.
function resize() {
  const scale = markScale();
  if (scale === drawnAt) return;
  drawnAt = scale;
  for (const one of layers) for (const item of one.items || []) if (item instanceof Mark) item.setRadius(item.options.full * scale);
}
map.on("zoomend", resize);

// The chosen ones: a cover, a halo along the line, a ring round the dam.
const halo = L.polyline([], { color: "#0b5fa5", weight: 13, opacity: 0.45, interactive: false });
const ring = new Mark([0, 0], { shape: "ring", radius: 13, color: "#0b5fa5", weight: 4, fill: false, interactive: false });
let cover = null;

// order brings the layers back into their order after some were taken away or added.
function order() {
  for (const one of layers) if (one.items && map.hasLayer(one.layer)) one.items.forEach((i) => i.bringToFront());
  if (cover) cover.bringToBack();
  if (map.hasLayer(ring)) ring.bringToFront();
}

function showChoice(from) {
  const curve = curveOf(chosen.drainage);
  if (cover && !map.hasLayer(layers.find((l) => l.key === "covers").layer)) cover.remove();
  cover = coverOf(chosen.drainage);
  if (cover) cover.addTo(map);
  halo.setLatLngs(curve ? curve.x.map((x, i) => [curve.y[i], x]) : []).addTo(map);
  halo.bringToBack();
  const dam = chosen.dam && plan.dam.get(chosen.dam);
  if (dam && spot(dam)) {
    ring.setLatLng(spot(dam)).addTo(map);
    if (from !== "map" && from !== "start") map.setView(spot(dam), Math.max(map.getZoom(), 1));
  } else {
    ring.remove();
    if (curve && from !== "map" && from !== "start") fit(halo.getBounds().pad(0.15));
  }
  order();
}
listen("choice", showChoice);
new ResizeObserver(() => map.invalidateSize()).observe(find("map"));
