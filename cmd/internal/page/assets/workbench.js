// Tabs of the tables, and the panel over them.

const tabs = ["drainages", "dams"];

function openTab(name, focus) {
  for (const one of tabs) {
    const is = one === name;
    find(`tab-${one}`).setAttribute("aria-selected", is);
    find(`tab-${one}`).setAttribute("tabindex", is ? 0 : -1);
    find(`list-${one}`).hidden = !is;
  }
  (name === "dams" ? damList : drainageList).wake();
  if (focus) find(`tab-${name}`).focus();
  closePanel(false);
}

for (const name of tabs) {
  const tab = find(`tab-${name}`);
  tab.addEventListener("click", () => openTab(name));
  tab.addEventListener("keydown", (event) => {
    if (event.key === "ArrowLeft" || event.key === "ArrowRight") openTab(tabs[1 - tabs.indexOf(name)], true);
  });
}

let backTo = null; // what had the focus before the panel opened
const panel = find("panel");

function showPanel(from) {
  if (!chosen.open) return;
  const dam = chosen.dam && plan.dam.get(chosen.dam);
  const title = dam ? `Dam ${dam.id}` : `Drainage ${chosen.drainage}`;
  panel.replaceChildren(
    make("div", { class: "panel-head" }, make("h3", { id: "panel-title", tabindex: -1 }, title), make("button", { type: "button", id: "panel-close", onclick: () => closePanel(true) }, "Close")),
    make("div", { class: "panel-body", tabindex: 0, role: "region", "aria-label": title }, ...(dam ? damPanel(dam) : drainagePanel(plan.drainage.get(chosen.drainage))).flat().filter((c) => c != null)));
  if (panel.hidden) backTo = from instanceof Element && !panel.contains(from) ? from.querySelector(".pick") || from : document.activeElement;
  panel.hidden = false;
  if (from instanceof Element) find("panel-title").focus({ preventScroll: true });
}

function closePanel(goBack) {
  if (panel.hidden) return;
  panel.hidden = true;
  if (goBack && backTo && backTo.isConnected) backTo.focus({ preventScroll: true });
}

// follow brings up the table that holds what was chosen.
function follow() {
  const wanted = chosen.dam ? "dams" : "drainages";
  if (!chosen.open || !find(`list-${wanted}`).hidden) return;
  const open = !panel.hidden;
  openTab(wanted);
  panel.hidden = !open;
}

listeners.choice.unshift((from) => { // before the tables, which scroll to the chosen row
  follow();
  showPanel(from);
});
listen("units", () => {
  if (!panel.hidden) showPanel(null);
});
document.addEventListener("keydown", (event) => {
  if (event.key === "Escape") closePanel(true);
});
