// Marks on the map: each kind has a shape of its own, so that colour is never needed.

const classLook = [
  { key: "severe", name: "severe", color: "#2e0a26", weight: 6, core: { color: "#ffffff", weight: 2, dashArray: "1 6", lineCap: "butt" } },
  { key: "eroding", name: "eroding", color: "#8f3210", weight: 4 },
  { key: "watch", name: "watch", color: "#8a5c10", weight: 3, dashArray: "9 6", lineCap: "butt" },
  { key: "sound", name: "sound", color: "#2f6f92", weight: 2.5, dashArray: "1 5" },
  { key: "", name: "not judged", color: "#5c5c5c", weight: 1.5, dashArray: "9 4 2 4", lineCap: "butt" },
];
const lookOf = (drainage) => classLook.find((c) => c.key === (drainage.severity_class || "")) || classLook[4];

// A Mark is a point drawn by one of the shapes below.
const Mark = L.CircleMarker.extend({
  _updatePath() {
    const renderer = this._renderer;
    if (!renderer._drawing || this._empty()) return;
    const c = renderer._ctx;
    c.beginPath();
    shapes[this.options.shape](c, this._point, this._radius);
    renderer._fillStroke(c, this);
  },
});

const shapes = {
  block(c, p, r) { c.rect(p.x - r, p.y - r * 0.7, 2 * r, 1.4 * r); },
  barred(c, p, r) {
    c.rect(p.x - r, p.y - r * 0.9, 2 * r, 1.8 * r);
    c.moveTo(p.x - r, p.y - r * 0.9);
    c.lineTo(p.x + r, p.y + r * 0.9);
    c.moveTo(p.x - r, p.y + r * 0.9);
    c.lineTo(p.x + r, p.y - r * 0.9);
  },
  wedge(c, p, r) {
    c.moveTo(p.x - r, p.y - r * 0.8);
    c.lineTo(p.x + r, p.y - r * 0.8);
    c.lineTo(p.x, p.y + r);
    c.closePath();
  },
  ring(c, p, r) { c.arc(p.x, p.y, r, 0, 2 * Math.PI); },
};

const damLook = { shape: "block", radius: 5, color: "#10222b", weight: 1.5, fill: true, fillColor: "#ffe9a8", fillOpacity: 1 };
const barredLook = { ...damLook, shape: "barred", fillColor: "#ffffff" };
const headcutLook = { shape: "wedge", radius: 5, color: "#10222b", weight: 1.5, fill: true, fillColor: "#10222b", fillOpacity: 1 };
const stepLook = { ...headcutLook, fillColor: "#ffffff", radius: 4 };

// mustNotBuild tells whether a dam must not be built as it is designed.
const mustNotBuild = (id) => plan.design.has(id) && !plan.design.get(id).buildable;

// named is a sample with its name, which stay on one line.
const named = (look, name) => make("span", { class: "key" }, sample(look), " ", name);

// sample draws a line or a mark for the legend.
function sample(look) {
  const box = draw("svg", { width: 36, height: 16, "aria-hidden": "true", class: "sample" });
  if (look.shape) {
    const d = { block: "M13 5h10v7h-10z", barred: "M13 4h10v9h-10zl10 9m0-9l-10 9", wedge: "M13 4h10l-5 9z", ring: "M18 8m-5 0a5 5 0 1 0 10 0a5 5 0 1 0-10 0" }[look.shape];
    box.append(draw("path", { d, fill: look.fillColor || "none", stroke: look.color, "stroke-width": 1.5 }));
    return box;
  }
  if (look.fill) {
    box.append(draw("rect", { x: 2, y: 3, width: 32, height: 11, fill: look.fillColor || look.color, "fill-opacity": look.fillOpacity, stroke: look.color, "stroke-width": look.weight, "stroke-dasharray": look.dashArray }));
    return box;
  }
  for (const one of [look, look.core].filter(Boolean)) {
    box.append(draw("path", { d: "M2 8h32", fill: "none", stroke: one.color, "stroke-width": one.weight, "stroke-opacity": one.opacity, "stroke-dasharray": one.dashArray, "stroke-linecap": one.lineCap || "round" }));
  }
  return box;
}
