// Names with values, as panels show them.

// values returns a list of names and values; a row whose value is null is left out.
function values(...rows) {
  return make("dl", { class: "values" }, rows.filter((r) => r && r[1] !== null).map(([name, text]) => make("div", null, make("dt", null, name), make("dd", null, text))));
}

const q = (kind, decimals) => (si) => quantity(kind, si, decimals);
const lengthOf = q("m", 2), areaOf = q("ha", 2), volumeOf = q("m3", 2), flowOf = q("m3s", 3), massOf = q("t", 2), slopeOf = q("rise", 1), moneyOf = q("money", 0), daysOf = q("days", 1);
const stoneOf = (si) => quantity("size", si, system === "us" ? 1 : 0);
const plain = (x, decimals) => number("", x, decimals);

// block is a part of a panel with its heading; nothing where it has no content.
function block(title, ...content) {
  const held = content.flat().filter((c) => c != null);
  return held.length ? make("section", null, make("h4", null, title), held) : null;
}

function bullets(texts) {
  return texts.length ? make("ul", null, texts.map((t) => make("li", null, t))) : null;
}

const sentences = (text) => (text ? text.split("; ") : []);
