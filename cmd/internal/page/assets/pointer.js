// Where the pointer is, on the map and along the chosen drainage.

const readout = L.control({ position: "bottomright" });
readout.onAdd = () => make("output", { class: "pointer", id: "pointer" }, "");
readout.addTo(map);

// degrees returns longitude and latitude of a place of the map; null where the plan cannot say.
function degrees(y, x) {
  const fit = packed.position;
  if (!fit) return null;
  const u = (2 * x) / groundSize[1] - 1, v = (2 * y) / groundSize[0] - 1;
  const n = Math.sqrt(fit.lon.length);
  const sum = (c) => {
    let s = 0;
    for (let i = n - 1; i >= 0; i--) {
      let inner = 0;
      for (let j = n - 1; j >= 0; j--) inner = inner * v + c[n * i + j];
      s = s * u + inner;
    }
    return s;
  };
  return [sum(fit.lon), sum(fit.lat)];
}

// walker is the spot on the map of the station under the pointer.
const walker = L.marker([0, 0], { interactive: false, keyboard: false, icon: L.divIcon({ className: "walker", iconSize: [18, 18] }) });

// nearest returns the station of the chosen drainage that lies nearest to a point of the screen, within 25 pixels; null for none.
function nearest(screen) {
  const curve = chosen.drainage && curveOf(chosen.drainage);
  if (!curve) return null;
  let best = 25, station = null;
  let before = null;
  curve.station.forEach((s, i) => {
    const p = map.latLngToContainerPoint([curve.y[i], curve.x[i]]);
    if (before) {
      const dx = p.x - before.p.x, dy = p.y - before.p.y;
      const t = Math.min(1, Math.max(0, ((screen.x - before.p.x) * dx + (screen.y - before.p.y) * dy) / (dx * dx + dy * dy || 1)));
      const off = Math.hypot(screen.x - before.p.x - t * dx, screen.y - before.p.y - t * dy);
      if (off < best) {
        best = off;
        station = before.s + t * (s - before.s);
      }
    }
    before = { p, s };
  });
  return station;
}

map.on("mousemove", (event) => {
  const { lat: y, lng: x } = event.latlng;
  const at = degrees(y, x);
  const south = plan.grid.north_m - groundSize[0];
  find("pointer").textContent = (at ? `lon ${at[0].toFixed(6)}  lat ${at[1].toFixed(6)}\n` : "") + `east ${(plan.grid.west_m + x).toFixed(1)} m  north ${(south + y).toFixed(1)} m`;
  const station = nearest(event.containerPoint);
  if (station !== null) point(station, "map");
});

listen("station", () => {
  const curve = chosen.drainage && curveOf(chosen.drainage);
  if (!curve || chosen.station === null) {
    walker.remove();
    return;
  }
  walker.setLatLng([between(curve, "y", chosen.station), between(curve, "x", chosen.station)]).addTo(map);
});
