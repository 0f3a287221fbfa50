// Names on the map: as many as fit, the drainages that matter most first, dams where there is room.

const labels = L.layerGroup().addTo(map);

// wishes yields names with places in the order in which they may take room.
function* wishes() {
  if (chosen.dam) yield [chosen.dam, spot(plan.dam.get(chosen.dam)), "label label-dam"];
  const seen = map.getBounds(), south = seen.getSouth(), north = seen.getNorth(), west = seen.getWest(), east = seen.getEast();
  const within = (y, x) => y > south && y < north && x > west && x < east;
  const byRank = plan.drainages.slice().sort((a, b) => (b.id === chosen.drainage) - (a.id === chosen.drainage) || (b.dams > 0) - (a.dams > 0) || (a.rank === null ? 1e9 : a.rank) - (b.rank === null ? 1e9 : b.rank));
  for (const d of byRank) {
    const curve = curveOf(d.id);
    if (!curve) continue;
    const places = [];
    curve.x.forEach((x, i) => { if (within(curve.y[i], x)) places.push(i); });
    const mid = places[places.length >> 1];
    if (mid !== undefined) yield [d.id, [curve.y[mid], curve.x[mid]], "label"];
  }
  if (map.getZoom() < 1) return;
  for (const s of plan.sites) if (spot(s) && within(...spot(s))) yield [s.id, spot(s), "label label-dam"];
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
