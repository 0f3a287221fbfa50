// Makes elements. Nothing here writes markup from text, so a name in the plan stays a name.

// make returns an element with attributes and children; null children are left out.
function make(tag, attributes, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

// draw is make for drawings.
function draw(tag, attributes, ...children) {
  return fill(document.createElementNS("http://www.w3.org/2000/svg", tag), attributes, children);
}

function fill(element, attributes, children) {
  for (const [name, value] of Object.entries(attributes || {})) {
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (value === true) element.setAttribute(name, "");
    else if (value !== false && value != null) element.setAttribute(name, value);
  }
  element.append(...children.flat(Infinity).filter((c) => c != null));
  return element;
}

// later does something when the page has opened and the browser has had time for the person in front of it.
function later(act) {
  if (document.readyState === "complete") setTimeout(act);
  else window.addEventListener("load", () => setTimeout(act));
}

const find = (id) => document.getElementById(id);

// opener returns a button that opens a drainage or a dam.
function opener(id, text) {
  return make("button", { type: "button", class: "link", "data-open": id }, text || id);
}

// fixedTable returns a table that is neither sorted nor filtered, in a frame that scrolls.
function fixedTable(label, heads, rows) {
  const isNumber = (cell) => typeof cell === "string" && /^[-–−]?$|^[−\d]/.test(cell);
  const numeric = heads.map((_, i) => i > 0 && rows.every((row) => isNumber(row[i])));
  return make("div", { class: "scroll", tabindex: 0, role: "region", "aria-label": label },
    make("table", null,
      make("thead", null, make("tr", null, heads.map((h, i) => make("th", { scope: "col", class: numeric[i] ? "number" : null }, h)))),
      make("tbody", null, rows.map((row) => make("tr", null, row.map((cell, i) => {
        const tag = i === 0 ? "th" : "td";
        return make(tag, { scope: i === 0 ? "row" : null, class: numeric[i] ? "number" : null }, cell);
      }))))));
}
