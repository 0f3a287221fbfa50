// The drawing of the cross-section at a dam, looking downstream, heights and lengths at one scale.

function sectionDrawing(site) {
  const s = sectionOf(site.id);
  if (!s || s.offset.length < 2) return null;
  const known = s.ground.filter((g) => g !== null);
  if (!known.length) return null;
  const dams = s.offset.filter((_, i) => s.dam[i] !== null);
  const edge = dams.length ? Math.max(-dams[0], dams[dams.length - 1]) * 1.5 + 0.5 : Infinity;
  const seen = s.offset.map((o, i) => i).filter((i) => Math.abs(s.offset[i]) <= edge);
  const levels = seen.flatMap((i) => [s.ground[i], s.dam[i]]).filter((v) => v !== null);
  const low = Math.min(...levels) - 0.3, high = Math.max(...levels) + 0.15;
  const left = s.offset[seen[0]], right = s.offset[seen[seen.length - 1]];
  const scale = Math.min(330 / (right - left), 150 / (high - low));
  const width = (right - left) * scale + 20, height = (high - low) * scale + 62;
  const x = (o) => 10 + (o - left) * scale, y = (v) => 22 + (high - v) * scale;
  const pair = (i, v) => `${x(s.offset[i]).toFixed(1)},${y(v).toFixed(1)}`;

  const ground = seen.filter((i) => s.ground[i] !== null);
  const soil = ground.length ? `M${x(s.offset[ground[0]]).toFixed(1)},${y(low).toFixed(1)}L${ground.map((i) => pair(i, s.ground[i])).join("L")}L${x(s.offset[ground[ground.length - 1]]).toFixed(1)},${y(low).toFixed(1)}Z` : "";
  const body = seen.filter((i) => s.dam[i] !== null);
  const stones = body.length > 1 ? `M${body.map((i) => pair(i, s.dam[i])).join("L")}L${body.slice().reverse().map((i) => pair(i, Math.min(s.dam[i], s.ground[i] === null ? low : s.ground[i]))).join("L")}Z` : "";
  const id = `stone-${site.id}`;
  const note = (tx, ty, text, anchor) => draw("text", { x: tx, y: ty, "text-anchor": anchor || "middle", "font-size": 11, fill: "#1c1c1c" }, text);
  const base = y(low) + 6;
  const barM = system === "us" ? 0.3048 * 2 : 1;
  const title = `Cross-section at ${site.id}, looking downstream: sill ${quantity("m", site.effective_height_m, 2)} above the bed, crest ${quantity("m", site.crest_length_m, 2)} long.`;
  return make("figure", { class: "cross" },
    draw("svg", { viewBox: `0 0 ${Math.max(width, 220).toFixed(0)} ${height.toFixed(0)}`, role: "img", "aria-label": title },
      draw("defs", null, draw("pattern", { id, width: 7, height: 7, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)" }, draw("rect", { width: 7, height: 7, fill: "#d8d8d8" }), draw("path", { d: "M0 0v7", stroke: "#4a4a4a", "stroke-width": 1.6 }))),
      draw("path", { d: soil, fill: "#efe6d2", stroke: "#1c1c1c", "stroke-width": 1.5 }),
      draw("path", { d: stones, fill: `url(#${id})`, stroke: "#1c1c1c", "stroke-width": 1.5 }),
      site.notch_sill_m === null ? null : draw("path", { d: `M${x(0).toFixed(1)},${y(site.notch_sill_m).toFixed(1)}V${y(site.bed_m).toFixed(1)}`, stroke: "#0b4f8a", "stroke-width": 2 }),
      site.notch_sill_m === null ? null : note(x(0) + 5, (y(site.notch_sill_m) + y(site.bed_m)) / 2 + 4, quantity("m", site.effective_height_m, 2), "start"),
      note(10, 14, "left bank", "start"), note(width - 10, 14, "right bank", "end"),
      draw("path", { d: `M10 ${base + 8}h${(barM * scale).toFixed(1)}M10 ${base + 4}v8M${(10 + barM * scale).toFixed(1)} ${base + 4}v8`, stroke: "#1c1c1c", "stroke-width": 1.5, fill: "none" }),
      note(16 + barM * scale, base + 12, `${number("m", barM, 0)} ${unitOf("m")}, heights at the same scale`, "start"),
      note(10, base + 28, "looking downstream", "start")),
    make("figcaption", null, "Hatched: the dam, with its notch in the middle; blue: height of the sill above the bed."));
}
