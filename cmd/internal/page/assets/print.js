// Print: a still map, every row of the tables, no controls.

const svgDash = (look) => ({ fill: "none", stroke: look.color, "stroke-width": look.weight, "stroke-dasharray": look.dashArray, "stroke-linecap": look.lineCap || "round", "stroke-linejoin": "round", "vector-effect": "non-scaling-stroke" });

function stillMap() {
  const [high, wide] = groundSize;
  const size = Math.max(high, wide);
  const path = (places, look) => draw("path", { d: "M" + places.map(([y, x]) => `${x.toFixed(1)} ${(high - y).toFixed(1)}`).join("L"), ...svgDash(look) });
  const thin = (look) => ({ ...look, weight: look.weight * 0.6, dashArray: look.dashArray && look.dashArray.split(" ").map((n) => n * 0.6).join(" ") });
  const lines = classLook.slice().reverse().flatMap((look) => plan.drainages.filter((d) => lookOf(d) === look && curveOf(d.id)).map((d) => {
    const c = curveOf(d.id);
    return path(c.x.map((x, i) => [c.y[i], x]), thin(look));
  }));
  const limits = (packed.limits || []).flatMap((limit) => {
    const look = limitLook[limit.kind] || otherLimit;
    return [...(limit.areas || []), ...(limit.lines || [])].flatMap((ints) => [look, look.core].filter(Boolean).map((one) => path(corners(ints), one)));
  });
  const r = size / 220;
  const dams = plan.sites.filter(spot).map((s) => {
    const [y, x] = spot(s);
    return draw("rect", { x: x - r, y: high - y - r * 0.7, width: 2 * r, height: 1.4 * r, fill: mustNotBuild(s.id) ? "#ffffff" : "#ffe9a8", stroke: "#10222b", "stroke-width": 1, "vector-effect": "non-scaling-stroke" });
  });
  const cuts = plan.headcuts.filter((h) => h.cause === "headcut" && spot(h)).map((h) => {
    const [y, x] = spot(h);
    return draw("path", { d: `M${x - r} ${high - y - r}h${2 * r}l${-r} ${1.8 * r}z`, fill: "#10222b" });
  });
  const byNeed = plan.drainages.filter((d) => curveOf(d.id)).sort((a, b) => (b.dams > 0) - (a.dams > 0) || (a.rank === null ? 1e9 : a.rank) - (b.rank === null ? 1e9 : b.rank));
  const taken = [];
  const names = [];
  for (const d of byNeed) {
    const c = curveOf(d.id), mid = c.x.length >> 1, x = c.x[mid] + r, y = high - c.y[mid];
    const box = [x, y - size / 50, x + (size / 80) * d.id.length, y];
    if (names.length >= 40 || taken.some((t) => box[0] < t[2] && t[0] < box[2] && box[1] < t[3] && t[1] < box[3])) continue;
    taken.push(box);
    names.push(draw("text", { x, y, "font-size": size / 55, fill: "#1c1c1c", stroke: "#ffffff", "stroke-width": size / 300, "paint-order": "stroke" }, d.id));
  }
  const bar = roundLength(wide / 5);
  const scale = draw("g", null,
    draw("rect", { x: size / 100, y: high + size / 45, width: bar, height: size / 250, fill: "#1c1c1c" }),
    draw("text", { x: size / 60 + bar, y: high + size / 35, "font-size": size / 55, fill: "#1c1c1c" }, `${number("", bar, 0)} m = ${number("", bar / 0.3048, 0)} ft; north is up`));
  return make("figure", { class: "still" },
    draw("svg", { viewBox: `0 0 ${wide} ${high + size / 25}`, role: "img", "aria-label": "Map of drainages and dams" },
      packed.relief ? draw("image", { href: packed.relief, x: 0, y: 0, width: wide, height: high, preserveAspectRatio: "none", opacity: 0.6 }) : null,
      limits, lines, cuts, dams, names, scale),
    make("figcaption", null, classLook.map((look) => named(look, look.name)), (packed.limits || []).map((l) => named(limitLook[l.kind] || otherLimit, l.kind)), named(damLook, "dam"), named({ ...barredLook, shape: "block" }, "not as designed"), named(headcutLook, "headcut")));
}

// roundLength returns the largest of 1, 2, 5 times a power of ten that is not above a length.
function roundLength(most) {
  const tens = 10 ** Math.floor(Math.log10(most));
  return [5, 2, 1].map((n) => n * tens).find((n) => n <= most);
}

let folded = []; // what was closed before it was printed
window.addEventListener("beforeprint", () => {
  drainageList.all();
  damList.all();
  folded = [...document.querySelectorAll("details.fold:not([open])")];
  for (const fold of folded) fold.open = true;
  find("print-map").replaceChildren(stillMap());
});
window.addEventListener("afterprint", () => {
  drainageList.buttons();
  damList.buttons();
  for (const fold of folded) fold.open = false;
  find("print-map").replaceChildren();
});
