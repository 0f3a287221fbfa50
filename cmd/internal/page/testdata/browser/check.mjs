// Opens pages in Chromium from disk and does what a person would. Prints one line of JSON a check: {name, ok, note}.
// Usage: node check.mjs MODULES CHROMIUM SMALL.html EMPTY.html LARGE.html OUT
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { join } from "node:path";

const [modules, program, small, empty, large, out] = process.argv.slice(2);
const require = createRequire(join(modules, "package.json"));
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const browser = await chromium.launch({ executablePath: program, args: ["--no-sandbox"] });

async function check(name, act) {
  let ok = true, note = "";
  try {
    note = String((await act()) ?? "");
  } catch (fault) {
    ok = false;
    note = fault.message;
  }
  console.log(JSON.stringify({ name, ok, note }));
}

function want(is, text) {
  if (!is) throw new Error(text);
}
const equal = (got, wanted, what) => want(got === wanted, `${what}: got ${JSON.stringify(got)}, want ${JSON.stringify(wanted)}`);

// open opens a page and notes what it asks for and complains of. axe is run from outside the policy of the page.
async function open(file, width, height, more, clocked) {
  const context = await browser.newContext({ viewport: { width, height }, ...more });
  const page = await context.newPage();
  const session = clocked && (await context.newCDPSession(page));
  if (clocked) await session.send("Performance.enable", { timeDomain: "threadTicks" });
  const seen = { requests: [], complaints: [] };
  page.on("request", (r) => { if (!r.url().startsWith("data:") && r.url() !== pathToFileURL(file).href) seen.requests.push(r.url()); });
  page.on("console", (m) => { if (m.type() === "error" || m.type() === "warning") seen.complaints.push(m.text()); });
  page.on("pageerror", (e) => seen.complaints.push(e.message));
  await page.goto(pathToFileURL(file).href);
  return { page, seen, session, close: () => context.close() };
}
const quiet = ({ requests, complaints }) => {
  equal(requests.join(" "), "", "requests");
  equal(complaints.join(" | "), "", "complaints of the console");
};
const rows = (page, list) => page.$$eval(`#list-${list} tbody tr`, (all) => all.map((r) => r.dataset.id));
const text = (page, place) => page.$eval(place, (e) => e.textContent.replace(/\s+/g, " ").trim());

async function accessible(page) {
  const session = await page.context().newCDPSession(page);
  await session.send("Page.setBypassCSP", { enabled: true });
  const { result, exceptionDetails } = await session.send("Runtime.evaluate", { expression: `${axe};axe.run(document, { resultTypes: ["violations"] }).then((r) => JSON.stringify(r.violations.filter((v) => v.impact === "serious" || v.impact === "critical").map((v) => v.id + ": " + v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120) + " " + n.failureSummary.slice(0, 160)).join("; "))))`, awaitPromise: true, returnByValue: true });
  want(!exceptionDetails, `axe: ${exceptionDetails && exceptionDetails.exception.description}`);
  equal(result.value, "[]", "serious and critical violations");
}

const desk = await open(small, 1366, 768);
const { page } = desk;

await check("opens from disk without a request or a complaint", () => quiet(desk.seen));
await check("cautions come before the answer", async () => {
  const order = await page.$$eval("main > section", (all) => all.map((s) => s.id).join(" "));
  equal(order, "cautions answer bench works findings assumptions", "parts");
});
await check("accessible at first", () => accessible(page));
await check("a dam on the map moves profile, table and panel", async () => {
  const before = await text(page, "#profile-title");
  await page.evaluate(() => document.getElementById("bench").scrollIntoView());
  await page.click("#tab-dams");
  const dam = (await rows(page, "dams"))[9];
  await page.click(`#list-dams tr[data-id="${dam}"] .pick`); // the map moves to it
  await page.click("#panel-close");
  await page.click("#tab-drainages");
  const other = (await rows(page, "drainages")).find((d) => !dam.startsWith(d));
  await page.evaluate((id) => { location.hash = id; }, other);
  await page.waitForFunction((id) => document.querySelector("#panel-title")?.textContent === `Drainage ${id}`, other);
  await page.evaluate((id) => { location.hash = id; }, dam);
  await page.waitForFunction((id) => document.querySelector("#panel-title")?.textContent === `Dam ${id}`, dam);
  await page.evaluate((id) => { location.hash = id; }, other);
  await page.waitForFunction((id) => document.querySelector("#panel-title")?.textContent === `Drainage ${id}`, other);
  // The label of a dam stands beside its mark: find one that is in sight and click the mark.
  await page.evaluate((id) => { location.hash = id; }, dam);
  await page.waitForFunction((id) => document.querySelector("#panel-title")?.textContent === `Dam ${id}`, dam);
  const sight = await page.$$eval(".label-dam", (all) => all.map((l) => ({ id: l.textContent, box: l.getBoundingClientRect().toJSON() })));
  const frame = await page.$eval("#map", (m) => m.getBoundingClientRect().toJSON());
  const list = await page.$eval("#layers", (m) => m.getBoundingClientRect().toJSON());
  const target = sight.find((s) => s.id !== dam && s.box.left > frame.left + 60 && s.box.right < list.left && s.box.top > frame.top + 20 && s.box.bottom < frame.bottom - 60);
  want(target, `no other dam in sight: ${JSON.stringify(sight)}`);
  await page.mouse.click(target.box.left - 7, target.box.top + 18);
  equal(await text(page, "#panel-title"), `Dam ${target.id}`, "panel");
  equal(await page.$eval("#list-dams tr.chosen", (r) => r.dataset.id), target.id, "row");
  equal(await text(page, "#profile-title"), `Profile of ${target.id.split("-")[0]}`, "profile");
  want(await page.$(".walker"), "no marker on the map");
  return `${before}, then ${target.id}`;
});
await check("accessible with the panel of a dam open", () => accessible(page));
await check("the panel draws the section and shows the figures of the plan", async () => {
  want(await page.$("#panel .cross svg"), "no drawing");
  const body = await text(page, ".panel-body");
  for (const part of ["0.45 m", "0.214 m³/s", "105 mm", "6.25 t", "1.18 ✓ enough", "not known", "A confluence lies 5.3 m away", "Dig at the axis", "The left bank stands only"]) want(body.includes(part), `${part} is missing in: ${body}`);
});
await check("the pointer on the profile moves the marker on the map, and back", async () => {
  const place = () => page.$eval(".walker", (w) => w.style.transform);
  const over = await page.$eval("#profile .u-over", (o) => o.getBoundingClientRect().toJSON());
  await page.mouse.move(over.left + over.width * 0.3, over.top + over.height / 2);
  const first = await place(), said = await text(page, "#profile-readout");
  await page.mouse.move(over.left + over.width * 0.6, over.top + over.height / 2);
  want(first !== (await place()), "the marker stays");
  want(said !== (await text(page, "#profile-readout")), "the text stays");
  const at = await page.$eval(".walker", (w) => w.getBoundingClientRect().toJSON());
  const left = () => page.$eval("#profile .u-cursor-x", (c) => c.style.transform);
  const cursor = await left();
  await page.mouse.move(at.left + 9, at.top - 40);
  await page.mouse.move(at.left + 9, at.top - 3);
  want(cursor !== (await left()), "the cursor of the profile stays");
  const pointer = await text(page, "#pointer");
  want(/^lon -10[34]\.\d{6} lat 3[67]\.\d{6} ?east 50\d{4}\.\d m north 4100\d{3}\.\d m$/.test(pointer), `pointer: ${pointer}`);
});
await check("Esc closes the panel", async () => {
  await page.keyboard.press("Escape");
  want(await page.$eval("#panel", (p) => p.hidden), "the panel stays");
});
await check("sorts, what is not known last", async () => {
  await page.click("#tab-dams");
  await page.click('[data-sort="crest_length_m"]');
  const crest = () => page.$$eval("#list-dams tbody tr", (all) => all.map((r) => Number(r.cells[13].textContent)));
  const down = await crest();
  want(down.every((x, i) => i === 0 || x <= down[i - 1]), `not falling: ${down}`);
  equal(await page.getAttribute('#list-dams th:has([data-sort="crest_length_m"])', "aria-sort"), "descending", "aria-sort");
  await page.click('[data-sort="crest_length_m"]');
  const up = await crest();
  want(up.every((x, i) => i === 0 || x >= up[i - 1]) && up[0] < up[up.length - 1], `not rising: ${up}`);
});
await check("tables show the numbers of the plan", async () => {
  const wrong = await page.evaluate(() => {
    const { sites, drainages } = JSON.parse(document.getElementById("plan").textContent).tables;
    const wrong = [];
    const compare = (list, table, key, decimals) => {
      const at = [...document.querySelectorAll(`#list-${list} thead button`)].findIndex((b) => b.dataset.sort === key);
      const trs = document.querySelectorAll(`#list-${list} tbody tr`);
      if (trs.length !== table.rows || at < 0) wrong.push(`${list}: ${trs.length} rows of ${table.rows}, column ${at}`);
      for (const tr of trs) {
        const planned = table.columns[key][table.columns.id.indexOf(tr.dataset.id)];
        const shown = tr.cells[at].textContent;
        if (shown !== (planned === null ? "–" : planned.toFixed(decimals).replace(/\B(?=(\d{3})+\.)/g, ","))) wrong.push(`${tr.dataset.id} ${key}: ${shown} for ${planned}`);
      }
    };
    for (const [key, decimals] of [["effective_height_m", 2], ["rock_t", 2], ["station_m", 1], ["crest_length_m", 2], ["peak_m3s", 3], ["cost", 0], ["sediment_m3", 2]]) compare("dams", sites, key, decimals);
    for (const [key, decimals] of [["treated_m", 1], ["catchment_ha", 2], ["incision_max_m", 2], ["cost", 0]]) compare("drainages", drainages, key, decimals);
    return wrong;
  });
  equal(wrong.join("; "), "", "wrong cells");
});
await check("filters by word and by choice", async () => {
  const all = (await rows(page, "dams")).length;
  await page.fill("#dams-search", "D02-");
  const some = await rows(page, "dams");
  want(some.length > 0 && some.length < all && some.every((id) => id.startsWith("D02-")), `rows ${some}`);
  await page.fill("#dams-search", "");
  await page.selectOption("#dams-verdict", { label: "not as designed" });
  want((await rows(page, "dams")).every((id) => id.endsWith("-02")), "others than those not to be built");
  equal(await text(page, "#list-dams .count"), `${(await rows(page, "dams")).length} of ${all} dams`, "count");
  await page.selectOption("#dams-verdict", { label: "all" });
});
await check("shows US units with exact factors, and drainage area for catchment", async () => {
  await page.check('input[value="us"]');
  const answer = await text(page, "#figures");
  for (const part of ["2,626.3 ft", "2,449.6 US tons (2,000 lb)", "1,614.7 yd³"]) want(answer.includes(part), `${part} is missing in: ${answer}`); // 800.5 / 0.3048; 2222.25 / 0.90718474; 1234.5 / 0.764554857984
  const heads = await text(page, "#list-drainages thead");
  want(heads.includes("drainage area, ac") && !heads.includes("catchment"), heads);
  want((await text(page, "#profile-readout")).includes("ft"), "the profile stays in metres");
  await page.check('input[value="metric"]');
  want((await text(page, "#figures")).includes("800.5 m"), "metric does not come back");
});
await check("can be used with the keyboard alone", async () => {
  await page.reload();
  await page.keyboard.press("Tab");
  equal(await page.evaluate(() => document.activeElement.className), "skip", "first stop");
  await page.keyboard.press("Enter");
  equal(await page.evaluate(() => document.activeElement.id), "answer", "skip link");
  await page.focus("#tab-drainages");
  await page.keyboard.press("ArrowRight");
  equal(await page.evaluate(() => document.activeElement.id), "tab-dams", "arrow on the tabs");
  for (let i = 0; i < 60 && !(await page.evaluate(() => document.activeElement.classList.contains("pick"))); i++) await page.keyboard.press("Tab");
  const here = () => page.evaluate(() => document.activeElement.textContent);
  const first = await here();
  await page.keyboard.press("ArrowDown");
  const second = await here();
  want(second !== first, "arrow down stays");
  const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
  equal(outline, "solid", "outline of the focus");
  await page.keyboard.press("Enter");
  equal(await here(), `Dam ${second}`, "focus in the panel");
  await page.keyboard.press("Escape");
  equal(await here(), second, "focus back in the row");
  await page.focus("#station");
  const before = await text(page, "#profile-readout");
  await page.keyboard.press("ArrowRight");
  want(before !== (await text(page, "#profile-readout")), "the slider does not walk");
});
await check("names in the plan do not run", async () => equal(await page.evaluate(() => window.ran), undefined, "a script from a name ran"));
await check("prints every row, with a still map and without controls", async () => {
  await page.emulateMedia({ media: "print" });
  await page.evaluate(() => window.dispatchEvent(new Event("beforeprint")));
  want(await page.$("#print-map svg image"), "no still map");
  for (const gone of [".bar", "#map", ".filters", ".tabs"]) want(!(await page.isVisible(gone)), `${gone} is printed`);
  want(await page.isVisible("#list-dams"), "the dams are not printed");
  want(await page.isVisible("#list-drainages"), "the drainages are not printed");
  want(await page.isVisible("#assumptions .sources"), "folded parts are not printed");
  await page.evaluate(() => window.dispatchEvent(new Event("afterprint")));
  await page.emulateMedia({ media: "screen" });
  want(await page.$('#list-dams [data-sort="id"]'), "headings do not come back");
  await page.pdf({ path: join(out, "a4.pdf"), format: "A4" });
  await page.pdf({ path: join(out, "letter.pdf"), format: "Letter" });
});
await check("still quiet after all that", () => quiet(desk.seen));
await desk.close();

const phone = await open(small, 390, 844, { hasTouch: true, isMobile: true });
await check("fits a phone", async () => {
  quiet(phone.seen);
  equal(await phone.page.evaluate(() => document.documentElement.scrollWidth), 390, "width");
  await phone.page.tap("#tab-dams");
  const dam = (await rows(phone.page, "dams"))[0];
  await phone.page.tap(`#list-dams tr[data-id="${dam}"] .pick`);
  equal(await text(phone.page, "#panel-title"), `Dam ${dam}`, "panel");
  want(await phone.page.isVisible("#panel-close"), "no way to close it");
  await accessible(phone.page);
  await phone.page.tap("#panel-close");
  want(!(await phone.page.isVisible("#panel")), "the panel stays");
});
await phone.close();

await check("a plan without drainages opens too", async () => {
  const bare = await open(empty, 1366, 768);
  quiet(bare.seen);
  equal(await text(bare.page, "#list-drainages .count"), "0 drainages", "count");
  equal(await text(bare.page, "#profile-readout"), "Choose a drainage on the map or in the table.", "profile");
  want((await text(bare.page, "#works")).includes("No series"), "series");
  await accessible(bare.page);
  await bare.close();
});

await check("a plan of 2,000 dams opens in 3 s and stays quick", async () => {
  let big, opened = Infinity, busy = Infinity; // the best of three, as other work on the machine only ever slows it
  for (let turn = 0; turn < 3; turn++) {
    if (big) await big.close();
    const begin = Date.now();
    big = await open(large, 1366, 768, {}, true);
    opened = Math.min(opened, Date.now() - begin);
    const { metrics } = await big.session.send("Performance.getMetrics");
    busy = Math.min(busy, 1000 * metrics.find((m) => m.name === "TaskDuration").value);
  }
  quiet(big.seen);
  await big.page.click("#tab-dams");
  const sorted = await big.page.evaluate(async () => {
    let best = Infinity;
    for (let turn = 0; turn < 3; turn++) {
      const begin = performance.now();
      document.querySelector('[data-sort="rock_t"]').click();
      await new Promise((r) => requestAnimationFrame(() => setTimeout(r)));
      best = Math.min(best, performance.now() - begin);
    }
    return best;
  });
  await big.page.waitForFunction(() => document.querySelectorAll("#list-dams tbody tr").length === 2000);
  const typed = await big.page.evaluate(async () => {
    const box = document.getElementById("dams-search");
    const begin = performance.now();
    box.value = "D150";
    box.dispatchEvent(new Event("input"));
    await new Promise((r) => requestAnimationFrame(() => setTimeout(r)));
    return performance.now() - begin;
  });
  const note = `opens in ${opened} ms (${busy.toFixed(0)} ms of processor time), sorts in ${sorted.toFixed(0)} ms, filters in ${typed.toFixed(0)} ms`;
  // A machine that does other work stretches the clock: then the processor time of the page's own thread decides.
  want((opened < 3000 || busy < 2000) && sorted < 1000 && typed < 1000, note);
  await big.close();
  return note;
});
await browser.close();
