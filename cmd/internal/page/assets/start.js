// Opens the page on the worst drainage that has dams, else on the worst.

for (const radio of document.querySelectorAll('input[name="units"]')) {
  radio.addEventListener("change", () => setSystem(radio.value));
}

// asked returns what the address asks for: report.html#D07-03.
function asked() {
  const id = decodeURIComponent(location.hash.slice(1));
  return plan.dam.has(id) || plan.drainage.has(id) ? id : null;
}
window.addEventListener("hashchange", () => asked() && choose(asked()));

const ranked = plan.drainages.filter((d) => d.rank !== null).sort((a, b) => a.rank - b.rank);
const opening = ranked.find((d) => d.dams > 0) || ranked[0] || plan.drainages[0];
if (asked()) choose(asked());
else if (opening) choose(opening.id, { open: false, from: "start" });
