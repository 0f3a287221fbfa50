// The plan, unpacked: tables as lists of records, curves as lists of numbers.

const packed = JSON.parse(find("plan").textContent);

function records(name) {
  const { rows, columns, words = {} } = packed.tables[name];
  const list = [];
  const fields = Object.keys(columns);
  for (let i = 0; i < rows; i++) {
    const one = {};
    for (const f of fields) one[f] = words[f] ? words[f][columns[f][i]] : columns[f][i];
    list.push(one);
  }
  return list;
}

// sums undoes differences: whole numbers of a part of a unit to the unit; null stays.
function sums(differences, perUnit) {
  let last = 0;
  return differences.map((d) => (d === null ? null : (last += d) / perUnit));
}

// corners turns x and y by turns, decimetres, into places of the map.
function corners(ints) {
  const list = [];
  let x = 0, y = 0;
  for (let i = 0; i < ints.length; i += 2) {
    x += ints[i];
    y += ints[i + 1];
    list.push([y / 10, x / 10]);
  }
  return list;
}

const plan = { title: packed.title, grid: packed.grid, totals: packed.totals };
for (const name of Object.keys(packed.tables)) plan[name] = records(name);

const byId = (list) => new Map(list.map((one) => [one.id, one]));
const group = (list, key) => {
  const groups = new Map();
  for (const one of list) {
    if (!groups.has(one[key])) groups.set(one[key], []);
    groups.get(one[key]).push(one);
  }
  return groups;
};

plan.drainage = byId(plan.drainages);
plan.dam = byId(plan.sites);
plan.design = byId(plan.designs);
plan.damsOf = group(plan.sites, "drainage");
plan.partsOf = group(plan.parts, "drainage");
plan.headcutsOf = group(plan.headcuts, "drainage");
plan.reachesOf = group(plan.reaches, "drainage");
plan.checksOf = group(plan.checks, "id");
plan.weaknessesOf = group(plan.weaknesses, "id");
plan.loadOf = new Map(plan.loads.map((l) => [l.drainage, l]));

const curves = new Map();
const perUnit = { station: 100, x: 100, y: 100, bed: 1000, ground: 1000, incision: 100, slope: 10000, catchment: 10000 };

// unfolding returns a curve whose columns are unpacked when they are first asked for.
function unfolding(packedCurve) {
  const curve = {};
  for (const name of Object.keys(perUnit)) {
    Object.defineProperty(curve, name, { configurable: true, get() {
      const list = sums(packedCurve[name], perUnit[name]);
      Object.defineProperty(curve, name, { value: list });
      return list;
    } });
  }
  return curve;
}

// curveOf returns the profile of a drainage, unpacked when it is first asked for.
function curveOf(id) {
  if (!curves.has(id)) {
    const p = packed.profiles[id];
    curves.set(id, p && p.station.length ? unfolding(p) : null);
  }
  return curves.get(id);
}

function sectionOf(id) {
  const s = packed.sections[id];
  return s && { offset: sums(s.offset, 1000), ground: sums(s.ground, 1000), dam: sums(s.dam, 1000) };
}

// between returns a value of a curve at a station, on the straight line between its neighbours; null where it is not known.
function between(curve, column, station) {
  const s = curve.station;
  let k = 1;
  let top = s.length - 1;
  if (top < 1) return curve[column][0];
  while (k < top) {
    const mid = (k + top) >> 1;
    if (s[mid] < station) k = mid + 1;
    else top = mid;
  }
  const a = curve[column][k - 1], b = curve[column][k];
  if (a === null || b === null) return null;
  const t = Math.min(1, Math.max(0, (station - s[k - 1]) / (s[k] - s[k - 1] || 1)));
  return a + t * (b - a);
}

// stretch returns the places of a curve between two stations.
function stretch(curve, from, to) {
  const list = [];
  const at = (station) => [between(curve, "y", station), between(curve, "x", station)];
  list.push(at(from));
  curve.station.forEach((s, i) => { if (s > from && s < to) list.push([curve.y[i], curve.x[i]]); });
  list.push(at(to));
  return list;
}

// spot returns the place of the map of something with x_m and y_m; null where it is not known.
function spot(one) {
  const g = plan.grid;
  if (one.x_m === null || one.y_m === null) return null;
  return [one.y_m - (g.north_m - g.rows * g.cell_m), one.x_m - g.west_m];
}
