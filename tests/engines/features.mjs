// What a learner does, as far as an engine could do it otherwise. Each throws where the page does not follow.

const routine = "routines/breakwater-letters/index.html";
const patience = 8_000;

/** Waits until a line of script in the page is true. */
async function until(tab, line, wait = patience) {
  const end = Date.now() + wait;
  for (;;) {
    const seen = await tab.ask(line).catch((error) => String(error));
    if (seen === true) return;
    if (Date.now() > end) throw new Error(`never came true: ${line} (${seen})`);
    await new Promise((later) => setTimeout(later, 100));
  }
}

const shown = (name) => `document.querySelector(".stage [data-show=${name}]").textContent`;
const state = `document.querySelector(".stage").dataset.state`;
/** Shown to a person: it takes room, and no fold hides it. */
const visible = (selector) =>
  `[...document.querySelectorAll(${JSON.stringify(selector)})].some((e) => e.checkVisibility())`;

async function openRoutine(tab, base, view = "") {
  await tab.open(`${base}${routine}${view}`);
  await until(tab, `document.querySelector("h1").textContent.trim() === "Breakwater Letters"`);
}

/** The player, ready and in sight. */
async function openPlayer(tab, base) {
  await openRoutine(tab, base);
  await tab.ask(`document.querySelector(".practice").scrollIntoView()`);
  await until(tab, `!document.querySelector("[data-desk] [data-start]").disabled`);
}

async function openLibrary(tab, base) {
  await tab.open(`${base}index.html`);
  await until(tab, `document.querySelectorAll(".card").length > 3`);
}

/** Sets a field as a person does, in engines whose driver can't move a select or a slide. */
const setField = (selector, value) =>
  `(() => { const f = document.querySelector(${JSON.stringify(selector)}); f.value = ${JSON.stringify(value)}; f.dispatchEvent(new Event("input", { bubbles: true })); return true; })()`;

export const features = {
  library: async (tab, base) => {
    await openLibrary(tab, base);
    await until(tab, visible("[data-filter] input[name=q], [data-filter] summary"));
    await tab.ask(setField("[data-filter] input[name=q]", "waltz"));
    await until(tab, `[...document.querySelectorAll(".card")].filter((c) => c.checkVisibility()).length === 1`);
  },
  "library to routine": async (tab, base) => {
    await openLibrary(tab, base);
    // By script: a card far down is laid out when it comes near, and what moves meanwhile is missed by a driver that measures first.
    await tab.ask(
      `(document.querySelector('.card[href*="breakwater-letters"], .card a[href*="breakwater-letters"]').click(), true)`,
    );
    await until(tab, `document.querySelector("h1").textContent.trim() === "Breakwater Letters"`);
  },
  chooser: async (tab, base) => {
    await openRoutine(tab, base);
    await tab.ask(`(document.querySelector('.choice input[name=version][value="3"]').click(), true)`);
    await until(tab, `document.documentElement.dataset.version === "3" && location.search.includes("version=3")`);
  },
  "shared view": async (tab, base) => {
    await openRoutine(tab, base, "?version=3&side=mirrored");
    await until(
      tab,
      `document.documentElement.dataset.version === "3" && document.documentElement.dataset.side === "mirrored"`,
    );
  },
  player: async (tab, base) => {
    await openPlayer(tab, base);
    await tab.click("[data-desk] [data-start]");
    await until(tab, `${state} === "count" && ${shown("count")} === "3"`, 20_000);
    // By script, since what moves with the page can't be hit by a driver that measures first.
    await tab.ask(`(document.querySelector("[data-desk] [data-start]").click(), true)`);
    await until(tab, `${state} === "rest"`);
  },
  speed: async (tab, base) => {
    await openPlayer(tab, base);
    const before = await tab.ask(`Number(document.querySelector("input[name=speed]").value)`);
    await tab.click("[data-step='5']");
    await until(tab, `Number(document.querySelector("input[name=speed]").value) === ${before + 5}`);
  },
  loop: async (tab, base) => {
    await openPlayer(tab, base);
    await tab.ask(
      `(document.querySelector("input[name=loops]").checked || document.querySelector("input[name=loops]").click(), true)`,
    );
    await tab.ask(setField("input[name=speed]", "110"));
    await tab.ask(`(document.querySelector("[data-practise]").click(), true)`);
    await until(tab, `${state} === "count"`);
    // It is counted in, danced, counted in again and danced again.
    await tab.ask(
      `(window.heard = [], (function look() { const now = ${state}; if (heard.at(-1) !== now) heard.push(now); setTimeout(look, 40); })(), true)`,
    );
    await until(tab, `heard.filter((now) => now === "count").length > 1 && !heard.includes("rest")`, 40_000);
  },
  keys: async (tab, base) => {
    await openPlayer(tab, base);
    await tab.ask(`(document.querySelector("[data-desk] [data-start]").focus(), true)`);
    await tab.press("p");
    await until(tab, `${state} !== "rest"`);
    await tab.press("p");
    await until(tab, `${state} === "rest"`);
  },
  "own song": async (tab, base, { song }) => {
    await openPlayer(tab, base);
    await tab.ask(`(document.querySelectorAll("details").forEach((d) => { d.open = true; }), true)`);
    await tab.choose("input[name=file]", song);
    await until(tab, `document.querySelector("audio").readyState > 0 && !document.querySelector("[data-song]").hidden`);
  },
  "workshop page": async (tab, base) => {
    await tab.open(`${base}workshops/winter-floor-day/index.html`);
    await until(tab, `document.querySelector("h1").textContent.trim() !== ""`);
    await until(tab, visible("main table, main ol"));
  },
};

/** Without script a page is what it says: the taught version, whole, and nothing dead on it. */
export const withoutScript = {
  library: async (tab, base) => {
    await tab.open(`${base}index.html`);
    await until(tab, `document.querySelectorAll(".card").length > 3 && !${visible("[data-filter]")}`);
  },
  routine: async (tab, base) => {
    await openRoutine(tab, base);
    await until(tab, `!${visible("[data-start]")} && ${visible(".counts, [data-counts], main ol, main table")}`);
  },
  "workshop page": features["workshop page"],
};

/** Opens what the features open, and waits until it is kept. */
export async function visitAll(tab, base) {
  for (const path of ["index.html", routine, "workshops/winter-floor-day/index.html"]) {
    await tab.open(`${base}${path}`);
    const kept = `caches.match(new URL(${JSON.stringify(base + path)})).then((found) => found !== undefined)`;
    await until(tab, kept);
  }
  // What the pages draw on is kept after them.
  await new Promise((later) => setTimeout(later, 2000));
}
