// Shows SI values in metric or US units. The factors come with the plan.

const notKnown = "not known";
let system = "metric";

// unitOf returns the name of the unit of a kind of quantity; empty for counts, money and the like.
function unitOf(kind) {
  if (kind === "share") return "%";
  if (kind === "money") return plan.totals.currency || "";
  if (kind === "years") return "years";
  if (kind === "days") return "person-days";
  return packed.units[kind] ? packed.units[kind][system].unit : "";
}

// value returns an SI value in the unit that is shown.
function value(kind, si) {
  if (si === null || si === undefined) return null;
  if (kind === "share") return si * 100;
  return packed.units[kind] ? si / packed.units[kind][system].one : si;
}

// number returns a value without its unit, thousands apart.
function number(kind, si, decimals) {
  const x = value(kind, si);
  if (x === null) return notKnown;
  const text = Math.abs(x).toFixed(decimals);
  const [whole, part] = text.split(".");
  const grouped = whole.replace(/\B(?=(\d{3})+$)/g, ",");
  const minus = x < 0 && Number(text) !== 0 ? "−" : "";
  return minus + grouped + (part ? "." + part : "");
}

// quantity returns a value with its unit.
function quantity(kind, si, decimals) {
  if (si === null || si === undefined) return notKnown;
  const unit = unitOf(kind);
  return number(kind, si, decimals) + (unit ? " " + unit : "");
}

// range returns low to high with the unit, the likely value before it.
function range(kind, likely, low, high, decimals) {
  if (likely === null) return notKnown;
  const text = quantity(kind, likely, decimals);
  return low === null || high === null ? text : `${text} (${number(kind, low, decimals)} to ${number(kind, high, decimals)})`;
}

// catchmentWord is what people call the land that drains to a place.
const catchmentWord = () => (system === "us" ? "drainage area" : "catchment");
