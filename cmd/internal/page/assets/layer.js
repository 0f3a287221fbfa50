// The list of layers, which is the legend too.

function layerList() {
  const list = make("ul", { class: "layers" });
  for (const one of layers.slice().reverse()) {
    const box = make("input", { type: "checkbox", checked: map.hasLayer(one.layer), onchange: () => show(one, box.checked) });
    const name = typeof one.name === "function" ? one.name() : one.name;
    const looks = one.looks && one.looks.length ? make("ul", null, one.looks.map(([text, look]) => make("li", null, sample(look), " ", text))) : null;
    list.append(make("li", null, make("label", null, box, one.look ? sample(one.look) : null, make("span", null, name)), looks));
  }
  list.append(make("li", { class: "layer-note" }, sample({ color: "#0b5fa5", weight: 11, opacity: 0.45 }), " the drainage that is chosen; water runs towards larger lines"));
  find("layer-list").replaceChildren(list);
}
layerList();
listen("units", layerList);
find("whole").addEventListener("click", () => fit(wholeGround));
