// What is chosen, and who wants to know. Map, profile, tables and panel all listen here, so each moves the others.

const chosen = { drainage: null, dam: null, station: null };
const listeners = { choice: [], station: [], units: [] };

function listen(what, hear) {
  listeners[what].push(hear);
}

function tell(what, from) {
  for (const hear of listeners[what]) hear(from);
}

// choose makes a drainage or a dam the one that is shown, and opens its panel where that is wanted.
function choose(id, { open = true, from = null } = {}) {
  const dam = plan.dam.get(id);
  const drainage = dam ? dam.drainage : id;
  if (!plan.drainage.has(drainage)) return;
  chosen.dam = dam ? id : null;
  chosen.drainage = drainage;
  chosen.station = dam ? dam.station_m : null;
  chosen.open = open;
  tell("choice", from);
  tell("station", from);
}

// point marks a station of the chosen drainage on map and profile; null for none.
function point(station, from) {
  if (station === chosen.station) return;
  chosen.station = station;
  tell("station", from);
}

function setSystem(name) {
  system = name;
  document.documentElement.dataset.units = name;
  tell("units", null);
}

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-open]");
  if (!button) return;
  const id = button.dataset.open;
  if (!plan.dam.has(id) && !plan.drainage.has(id)) return;
  choose(id, { from: button });
  if (!find("bench").contains(button)) find("bench").scrollIntoView();
});
