// A table that sorts and filters. Rows come in portions, so that two thousand of them do not hold the page up.

// list makes a table in a host. columns: {key, head(), text(row), by(row), number, note}; choices: filters, each a label and options of [text, test].
function list({ host, name, rows, columns, first, choices, searchIn }) {
  const state = { sort: columns.find((c) => c.key === first), down: false, shown: rows, made: new Map() };
  const search = make("input", { type: "search", id: `${name}-search`, placeholder: "id or word", oninput: refresh, autocomplete: "off" });
  const pickers = choices.map((c) => {
    const box = make("select", { id: `${name}-${c.key}`, onchange: refresh }, c.options.map(([text], i) => make("option", { value: i }, text)));
    return { box, c };
  });
  const count = make("p", { class: "count", role: "status" });
  const headRow = make("tr", null);
  const body = make("tbody", null);
  host.append(
    make("div", { class: "filters" },
      make("label", { for: search.id }, "Find "), search,
      pickers.map(({ box, c }) => [make("label", { for: box.id }, c.label + " "), box])),
    count,
    make("div", { class: "scroll", tabindex: 0, role: "region", "aria-label": `Table of ${name}` },
      make("table", { class: "rows" }, make("caption", { class: "hidden" }, `Table of ${name}. Choose a heading to sort. In the first column, arrow keys move between rows and Enter opens one.`), make("thead", null, headRow), body)));

  function heads() {
    headRow.replaceChildren(...columns.map((c) => {
      const is = state.sort === c;
      return make("th", { scope: "col", "aria-sort": is ? (state.down ? "descending" : "ascending") : null, class: c.number ? "number" : null },
        make("button", { type: "button", "data-sort": c.key, title: c.note || null, onclick: () => sortBy(c) }, c.head(), make("span", { class: "arrow", "aria-hidden": "true" }, is ? (state.down ? " ▼" : " ▲") : "")));
    }));
  }

  function sortBy(c) {
    state.down = state.sort === c ? !state.down : Boolean(c.number) && c.key !== "rank" && c.key !== "station";
    state.sort = c;
    heads();
    refresh();
    headRow.querySelector(`[data-sort="${c.key}"]`).focus();
  }

  function rowOf(one) {
    let row = state.made.get(one);
    if (!row) {
      row = make("tr", { "data-id": one.id, onclick: () => choose(one.id, { from: row }) });
      fillRow(row, one);
      state.made.set(one, row);
    }
    return row;
  }

  function fillRow(row, one) {
    row.replaceChildren(...columns.map((c, i) => (i === 0
      ? make("th", { scope: "row" }, make("button", { type: "button", class: "link pick", tabindex: -1 }, c.text(one)))
      : make("td", { class: c.number ? "number" : null }, c.text(one)))));
  }

  let turn = 0; // which laying of rows is the last
  let stale = false; // rows wait until the table is seen
  function refresh() {
    const words = search.value.toLowerCase().split(/\s+/).filter(Boolean);
    const tests = pickers.map(({ box, c }) => c.options[Number(box.value)][1]).filter(Boolean);
    state.shown = rows.filter((one) => tests.every((t) => t(one)) && words.every((w) => searchIn(one).toLowerCase().includes(w)));
    const by = state.sort.by, sign = state.down ? -1 : 1;
    state.shown.sort((a, b) => {
      const x = by(a), y = by(b);
      if (x === null || y === null) return (x === null) - (y === null); // not known comes last either way
      return sign * (typeof x === "string" ? x.localeCompare(y, "en", { numeric: true }) : x - y);
    });
    count.textContent = state.shown.length === rows.length ? `${rows.length} ${name}` : `${state.shown.length} of ${rows.length} ${name}`;
    stale = host.hidden;
    if (!stale) lay();
  }

  // lay puts the rows in.
  function lay() {
    stale = false;
    body.replaceChildren();
    const mine = ++turn;
    const portion = (from, size) => {
      if (mine !== turn) return;
      body.append(...state.shown.slice(from, from + size).map(rowOf));
      if (from === 0) firstReachable();
      if (from + size < state.shown.length) later(() => portion(from + size, 150));
      else mark();
    };
    portion(0, 60);
    mark();
  }

  // firstReachable lets the tab key into the first column once: at the chosen row, else at the first.
  function firstReachable() {
    body.querySelectorAll('.pick[tabindex="0"]').forEach((b) => b.setAttribute("tabindex", -1));
    const row = body.querySelector("tr.chosen") || body.firstElementChild;
    if (row) row.querySelector(".pick").setAttribute("tabindex", 0);
  }

  function mark() {
    body.querySelectorAll("tr.chosen").forEach((r) => { r.classList.remove("chosen"); r.removeAttribute("aria-current"); });
    const row = body.querySelector(`tr[data-id="${CSS.escape(chosen[name === "dams" ? "dam" : "drainage"] || "")}"]`);
    if (!row) return;
    row.classList.add("chosen");
    row.setAttribute("aria-current", "true");
    firstReachable();
    const frame = row.closest(".scroll");
    const off = row.offsetTop - frame.scrollTop;
    if (off < 40 || off > frame.clientHeight - 40) frame.scrollTop = row.offsetTop - frame.clientHeight / 2;
  }

  body.addEventListener("keydown", (event) => {
    const here = event.target.closest("tr");
    const to = { ArrowDown: () => here.nextElementSibling, ArrowUp: () => here.previousElementSibling, Home: () => body.firstElementChild, End: () => body.lastElementChild }[event.key];
    if (!here || !to) return;
    event.preventDefault();
    const row = to();
    if (!row) return;
    here.querySelector(".pick").setAttribute("tabindex", -1);
    row.querySelector(".pick").setAttribute("tabindex", 0);
    row.querySelector(".pick").focus();
  });

  listen("choice", mark);
  listen("units", () => {
    heads();
    for (const [one, row] of state.made) fillRow(row, one);
    firstReachable();
  });
  heads();
  refresh();
  return {
    // all puts every row in at once, for print.
    all() {
      turn++;
      body.replaceChildren(...state.shown.map(rowOf));
      headRow.replaceChildren(...columns.map((c) => make("th", { scope: "col", class: c.number ? "number" : null }, c.head()))); // buttons are lost where a head is repeated
    },
    wake() { if (stale) lay(); }, // for when the table comes into sight
    buttons: heads, // puts the buttons back

    // only sets a filter.
    only(key, at) { pickers.find((p) => p.c.key === key).box.value = at; refresh(); },
  };
}
