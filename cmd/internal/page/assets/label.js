// Names on the map: as many as fit, the drainages that matter most first, dams where there is room.

const labels = L.layerGroup().addTo(map);

// wish returns names with places in the order in which they may take room.
function wishes() {
  const list = [];
  if (chosen.dam) list.push([chosen.dam, spot(plan.dam.get(chosen.dam)), "label label-dam"]);
  const seen = map.getBounds();
  const byRank = plan.drainages.slice().sort((a, b) => (b.id === chosen.drainage) - (a.id === chosen.drainage) || (b.dams > 0) - (a.dams > 0) || (a.rank === null ? 1e9 : a.rank) - (b.rank === null ? 1e9 : b.rank));
  for (const d of byRank) {
    const curve = curveOf(d.id);
    if (!curve) continue;
    const places = curve.x.map((x, i) => [curve.y[i], x]).filter((p) => seen.contains(p));
    if (places.length) list.push([d.id, places[places.length >> 1], "label"]);
  }
  if (map.getZoom() >= 1) for (const s of plan.sites) if (spot(s) && seen.contains(spot(s))) list.push([s.id, spot(s), "label label-dam"]);
  return list;
}

function placeLabels() {
  labels.clearLayers();
  const most = map.getZoom() < -0.5 ? 20 : 70;
  const taken = [];
  const names = new Set();
  for (const [text, place, look] of wishes()) {
    if (taken.length >= most) break;
    if (names.has(text) || !place) continue;
    const p = map.latLngToContainerPoint(place);
    const box = [p.x + 7, p.y - 18, p.x + 11 + 7.5 * text.length, p.y + 2];
    if (taken.some((t) => box[0] < t[2] && t[0] < box[2] && box[1] < t[3] && t[1] < box[3])) continue;
    taken.push(box);
    names.add(text);
    labels.addLayer(L.marker(place, { interactive: false, keyboard: false, icon: L.divIcon({ className: look, html: make("span", null, text), iconSize: null, iconAnchor: [-7, 18] }) }));
  }
}
map.on("moveend zoomend", placeLabels);
listen("choice", placeLabels);
placeLabels();
