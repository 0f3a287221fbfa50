// What is drawn on the profile beside its curves: wedges of silt, dams, headcuts.

const px = (u) => ({
  x: (m) => u.valToPos(value("m", m), "x", true),
  y: (m) => u.valToPos(value("m", m), "y", true),
  unit: window.devicePixelRatio || 1,
});

function inside(u, act) {
  const c = u.ctx;
  c.save();
  c.beginPath();
  c.rect(u.bbox.left, u.bbox.top, u.bbox.width, u.bbox.height);
  c.clip();
  act(c);
  c.restore();
}

// drawWedges fills the silt behind each dam when it is full, below the curves.
function drawWedges(u) {
  const curve = curveOf(chosen.drainage);
  const { x, y, unit } = px(u);
  inside(u, (c) => {
    for (const dam of plan.damsOf.get(chosen.drainage) || []) {
      const end = dam.wedge_end_station_m;
      if (!(end > dam.station_m) || dam.notch_sill_m === null) continue;
      c.beginPath();
      c.moveTo(x(dam.station_m), y(dam.notch_sill_m));
      c.lineTo(x(end), y(between(curve, "bed", end)));
      const bed = [];
      curve.station.forEach((s, i) => { if (s > dam.station_m && s < end && curve.bed[i] !== null) bed.push([s, curve.bed[i]]); });
      for (const [s, level] of bed.reverse()) c.lineTo(x(s), y(level));
      c.lineTo(x(dam.station_m), y(dam.bed_m));
      c.closePath();
      c.fillStyle = "#e0cfa2";
      c.strokeStyle = "#8a7440";
      c.lineWidth = unit;
      c.fill();
      c.stroke();
    }
  });
}

// drawDams draws dams as bodies from bed to sill with the wings above, headcuts as wedges that point at the bed, and names where they fit.
function drawDams(u) {
  const curve = curveOf(chosen.drainage);
  const { x, y, unit } = px(u);
  inside(u, (c) => {
    for (const h of plan.headcutsOf.get(chosen.drainage) || []) {
      const level = between(curve, "bed", h.station_m);
      if (level === null) continue;
      const left = x(h.station_m), top = y(level) - 4 * unit;
      c.beginPath();
      c.moveTo(left - 5 * unit, top - 10 * unit);
      c.lineTo(left + 5 * unit, top - 10 * unit);
      c.lineTo(left, top);
      c.closePath();
      c.lineWidth = 1.5 * unit;
      c.strokeStyle = "#1c1c1c";
      c.fillStyle = h.cause === "headcut" ? "#1c1c1c" : "#ffffff";
      c.fill();
      c.stroke();
    }
    const label = (dam) => {
      const is = dam.id === chosen.dam;
      c.font = `${is ? "bold " : ""}${12 * unit}px system-ui, sans-serif`;
      const left = x(dam.station_m), half = c.measureText(dam.id).width / 2 + 3 * unit;
      return [left - half, left + half];
    };
    const own = chosen.dam ? label(plan.dam.get(chosen.dam)) : [Infinity, -Infinity];
    let free = -Infinity;
    for (const dam of plan.damsOf.get(chosen.drainage) || []) {
      const left = x(dam.station_m), is = dam.id === chosen.dam;
      c.strokeStyle = is ? "#0b5fa5" : "#1c1c1c";
      c.lineWidth = (is ? 6 : 4) * unit;
      line(c, left, y(dam.bed_m), y(dam.notch_sill_m));
      if (dam.dam_top_m !== null) {
        c.lineWidth = (is ? 2.5 : 1.5) * unit;
        line(c, left, y(dam.notch_sill_m), y(dam.dam_top_m));
      }
      const top = y(dam.dam_top_m === null ? dam.notch_sill_m : dam.dam_top_m) - 5 * unit;
      const [begin, end] = label(dam);
      if (is || (begin > free && top > u.bbox.top + 12 * unit && (end < own[0] || begin > own[1]))) {
        c.textAlign = "center";
        c.fillStyle = is ? "#0b4f8a" : "#1c1c1c";
        c.fillText(dam.id, left, top);
        free = end;
      }
    }
  });
  say(u);
}

function line(c, x, from, to) {
  c.beginPath();
  c.moveTo(x, from);
  c.lineTo(x, to);
  c.stroke();
}

// say writes the legend with how many times heights are drawn larger than lengths.
function say(u) {
  const perX = u.bbox.width / (u.scales.x.max - u.scales.x.min), perY = u.bbox.height / (u.scales.y.max - u.scales.y.min);
  const key = ({ stroke, width, dash, label }) => named({ color: stroke, weight: width + 0.5, dashArray: dash && dash.join(" "), lineCap: "butt" }, label);
  const wedge = { fill: true, fillColor: "#e0cfa2", color: "#8a7440", weight: 1 };
  find("profile-legend").replaceChildren(key(curveLook.bed), key(curveLook.ground), key(curveLook.incision), named(wedge, "silt when full"), named(headcutLook, "headcut"), `Heights are drawn ${(perY / perX).toFixed(1)} times. `, make("span", { class: "on-screen" }, "Drag across to zoom."));
}
