// Measures builds of made-up libraries, each figure the median of several runs of whole processes, ours and the peers' in turn.
//
//   node tests/bench/bench.mjs [--sizes 10,100] [--runs 3] [--peers eleventy,typst,browser,browserEachTime] [--peer-size 20] [--out FILE]
//
// The package is to be compiled before. `npm install` in this folder fetches what the typesetter among the peers needs.
import { execFile } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { cpus, tmpdir, totalmem } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { parseArgs, promisify } from "node:util";
import { routineText, slugAt, writeLibrary } from "./library.mjs";
import { savesSeen } from "./saves.mjs";

const { values } = parseArgs({
  options: {
    sizes: { type: "string", default: "10,100" },
    runs: { type: "string", default: "3" },
    peers: { type: "string", default: "eleventy,typst,browser,browserEachTime" },
    "peer-size": { type: "string", default: "20" },
    out: { type: "string" },
  },
});
const sizes = values.sizes.split(",").map(Number);
const runs = Number(values.runs);
const peers = values.peers.split(",").filter(Boolean);
const peerSize = Number(values["peer-size"]);

const here = import.meta.dirname;
const main = resolve(here, "../../dist/cli/main.js");
const work = mkdtempSync(join(tmpdir(), "countleaf-bench-"));
const run = promisify(execFile);

/** Runs the command and tells seconds, processor seconds and most megabytes of memory. */
async function command(...args) {
  const usage = join(work, "usage.json");
  const began = performance.now();
  await run(process.execPath, ["--import", pathToFileURL(join(here, "usage.mjs")).href, main, ...args], {
    env: { ...process.env, COUNTLEAF_USAGE: usage },
    maxBuffer: 1 << 28,
  });
  return { seconds: (performance.now() - began) / 1000, ...JSON.parse(readFileSync(usage, "utf8")) };
}

async function part(kind, content) {
  // As much memory for what is new as the threads of a build have.
  const { stdout } = await run(process.execPath, ["--max-semi-space-size=32", join(here, "part.mjs"), kind, content]);
  return JSON.parse(stdout);
}

/** The median of each figure. */
function medians(list) {
  return Object.fromEntries(
    Object.keys(list[0]).map((name) => {
      const values = list.map((one) => one[name]).sort((a, b) => a - b);
      return [name, values[Math.floor(values.length / 2)]];
    }),
  );
}

async function measureBuilds(size) {
  const content = join(work, `content-${size}`);
  writeLibrary(content, size);
  const measured = { full: [], second: [], one: [] };
  for (let round = 0; round < runs; round++) {
    const out = join(work, `out-${round}`);
    const build = () => command("build", "--content", content, "--out", out);
    measured.full.push(await build());
    measured.second.push(await build());
    writeFileSync(join(content, "routines", `${slugAt(0)}.md`), routineText(0, ` Round ${round} of ${size}.`));
    measured.one.push(await build());
    rmSync(out, { recursive: true });
    rmSync(join(work, `.countleaf-out-${round}`), { recursive: true });
    say(`${size} routines, round ${round + 1}: ${measured.full.at(-1).seconds.toFixed(1)} s`);
  }
  const saves = await savesSeen(main, content, Math.max(runs, 5));
  rmSync(content, { recursive: true });
  return { size, full: medians(measured.full), second: medians(measured.second), one: medians(measured.one), saves };
}

/** Ours and the peers' in turn, on the same content. */
async function measureParts(kinds, size) {
  const content = join(work, "content-peers");
  writeLibrary(content, size);
  const measured = Object.fromEntries(kinds.map((kind) => [kind, []]));
  for (let round = 0; round < runs; round++)
    for (const kind of kinds) {
      measured[kind].push(await part(kind, content));
      say(`${kind}, round ${round + 1}: ${measured[kind].at(-1).seconds.toFixed(1)} s`);
    }
  rmSync(content, { recursive: true });
  return Object.fromEntries(kinds.map((kind) => [kind, medians(measured[kind])]));
}

/** Reading a routine of many counts: seconds and megabytes. */
async function measureCounts() {
  const { readRoutine } = await import("../../.unbundled/reading/read-routine.js");
  const { emptyLibrary } = await import("../../.unbundled/reading/read-library.js");
  const phrases = 125;
  const counts = "      - { 1-2: Walk, 3: Clap, 4: hold, 5-8: Turn the head }\n".repeat(phrases);
  return [1, 10, 50].map((repeat) => {
    const text = `---\ntitle: Long\nchoreographer: Ines Varga\nmusic: { tempo: 120 }\nsections:\n  - name: All\n    repeat: ${repeat}\n    counts:\n${counts}---\n`;
    const began = performance.now();
    const { routine, findings } = readRoutine(text, "long", emptyLibrary);
    const seconds = (performance.now() - began) / 1000;
    return { counts: phrases * 8 * repeat, seconds, read: routine?.counts ?? findings[0]?.message };
  });
}

async function measureStart() {
  const times = [];
  for (let round = 0; round < Math.max(runs, 5); round++) times.push(await command("--help"));
  return medians(times);
}

function say(text) {
  process.stderr.write(`${text}\n`);
}

const figure = (value, digits = 2) => (value === undefined ? "" : value.toFixed(digits));
const row = (...cells) => `| ${cells.join(" | ")} |`;
const table = (head, rows) =>
  [row(...head), row(...head.map((_, index) => (index === 0 ? "---" : "---:"))), ...rows].join("\n");

function buildTable(builds) {
  const percent = (a, b) => `${((100 * a) / b).toFixed(1)} %`;
  return table(
    [
      "routines",
      "full, s",
      "processor, s",
      "memory, MB",
      "second",
      "one changed",
      "save to new page, ms",
      "to reloaded page, ms",
    ],
    builds.map(({ size, full, second, one, saves }) =>
      row(
        size,
        figure(full.seconds),
        figure(full.cpu),
        figure(full.megabytes, 0),
        percent(second.seconds, full.seconds),
        percent(one.seconds, full.seconds),
        figure(saves.fetched, 0),
        figure(saves.shown, 0),
      ),
    ),
  );
}

/** Of each kind: what one file takes, and what another kind takes for one. */
function partTable(parts) {
  const [ours, side] = [parts.handouts ?? parts.site, parts.handoutsSideBySide];
  return table(
    ["", "files", "pages a file", "ms a file", "processor, ms a file", "processor, ms a page", "time to ours"],
    Object.entries(parts).map(([kind, { seconds, cpu, files, pages }]) => {
      // A browser's work is done in processes of its own, on all cores.
      const browser = kind.startsWith("browser");
      const model = browser ? (side ?? ours) : ours;
      return row(
        names[kind],
        files,
        figure(pages, 1),
        figure((1000 * seconds) / files, 1),
        browser ? "" : figure((1000 * cpu) / files, 1),
        browser || pages === undefined ? "" : figure((1000 * cpu) / files / pages, 1),
        `× ${figure(seconds / files / (model.seconds / model.files))}`,
      );
    }),
  );
}

const names = {
  handouts: "our handouts, one thread",
  handoutsSideBySide: "our handouts, in as many threads as a build takes",
  typst: "the same handouts by a native typesetter (Typst), one thread",
  browser: "the same handouts printed by a headless browser, a tab a core (to ours in threads)",
  browserEachTime: "by a headless browser started for each (to ours in threads)",
  site: "our pages",
  eleventy: "as many empty pages by Eleventy",
};

const machine = `${cpus().length} × ${cpus()[0]?.model ?? "?"}, ${Math.round(totalmem() / 2 ** 30)} GB, Node ${process.version}, ${process.platform}`;

try {
  const start = await measureStart();
  const sheets = await measureParts(
    ["handouts", "handoutsSideBySide", ...peers.filter((peer) => peer !== "eleventy")],
    peerSize,
  );
  const pages = peers.includes("eleventy") ? await measureParts(["site", "eleventy"], Math.max(...sizes)) : undefined;
  const builds = [];
  for (const size of sizes) builds.push(await measureBuilds(size));
  const counts = await measureCounts();
  const text = [
    `Measured on ${machine}. Medians of ${runs} runs of whole processes; peers in turn with ours.`,
    buildTable(builds),
    `Handouts of ${peerSize} routines, without the reading of the content:`,
    partTable(sheets),
    ...(pages === undefined
      ? []
      : [`Pages of ${Math.max(...sizes)} routines, without the reading of the content:`, partTable(pages)]),
    "Reading a routine of many counts:",
    table(
      ["counts", "seconds"],
      counts.map((one) => row(one.counts, figure(one.seconds, 3))),
    ),
    `\`countleaf --help\`: ${(1000 * start.seconds).toFixed(0)} ms.`,
  ].join("\n\n");
  console.log(text);
  if (values.out !== undefined) writeFileSync(values.out, `${text}\n`);
} finally {
  rmSync(work, { recursive: true, force: true });
}
