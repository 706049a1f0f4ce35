// Drives the demo library in three engines and from several places, and prints what held where.
//
//   npm run test:engines            all that is installed
//   npm run test:engines -- WebKit  one of them
//
// Chromium comes from npm. The others come from the system: on Debian `firefox-esr`, `webkit2gtk-driver` and `xvfb`.
// The status is 1 where something did not hold, and 3 where an engine is missing.
import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { features, visitAll, withoutScript } from "./features.mjs";
import { host } from "./hosts.mjs";
import { engines } from "./tabs.mjs";
import { tone } from "./tone.mjs";

const root = resolve(import.meta.dirname, "../..");
const work = mkdtempSync(join(tmpdir(), "countleaf-engines-"));
const site = join(work, "site");
const given = { song: join(work, "song.wav") };
writeFileSync(given.song, tone(90));
execFileSync(process.execPath, ["dist/cli/main.js", "build", "--out", site], { cwd: root });

/** What a feature did in a tab of its own: nothing, or what went wrong. */
async function trial(engine, feature, base, options) {
  const tab = await engine.tab(options);
  try {
    await feature(tab, base, given);
    return undefined;
  } catch (error) {
    return String(error).split("\n")[0];
  } finally {
    await tab.close();
  }
}

async function eachFeature(engine, base, tried = features, options = {}) {
  const seen = {};
  for (const [name, feature] of Object.entries(tried)) seen[name] = await trial(engine, feature, base, options);
  return seen;
}

/** Everything is visited once; then the host goes, one way or the other, and the same tab goes on. */
async function afterOneVisit(engine, leave) {
  const place = await host(site);
  const tab = await engine.tab();
  const seen = {};
  try {
    await visitAll(tab, place.address);
    await leave(place);
    for (const [name, feature] of Object.entries(features))
      seen[name] = await feature(tab, place.address, given).then(
        () => undefined,
        (error) => String(error).split("\n")[0],
      );
  } catch (error) {
    for (const name of Object.keys(features)) seen[name] = String(error).split("\n")[0];
  } finally {
    await tab.close();
    await place.close();
  }
  return seen;
}

async function onHost(engine, tried, options) {
  const place = await host(site);
  try {
    return await eachFeature(engine, place.address, tried, options);
  } finally {
    await place.close();
  }
}

const places = {
  http: (engine) => onHost(engine),
  file: (engine) => eachFeature(engine, pathToFileURL(`${site}/`).href),
  offline: (engine) => afterOneVisit(engine, (place) => place.close()),
};
const inOneEngine = {
  "no internet": (engine) => afterOneVisit(engine, (place) => place.hang()),
  "no script": (engine) => onHost(engine, withoutScript, { script: false }),
};

const wanted = process.argv.slice(2);
const columns = [];
const missing = [];
for (const { name, launch, missing: lacks } of engines) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  if (lacks().length > 0) {
    missing.push(`${name} was not tried: the Debian packages ${lacks().join(", ")} are missing.`);
    continue;
  }
  const engine = await launch();
  console.log(`${name}: ${engine.version}`);
  for (const [place, tries] of Object.entries({ ...places, ...(name === "Chromium" ? inOneEngine : {}) }))
    columns.push({ title: `${name}, ${place}`, seen: await tries(engine) });
  await engine.close();
}
rmSync(work, { recursive: true });

const cell = (seen, name) => (name in seen ? (seen[name] === undefined ? "yes" : "NO") : "");
console.log(`\n| | ${columns.map(({ title }) => title).join(" | ")} |`);
console.log(`|---|${columns.map(() => "---").join("|")}|`);
for (const name of new Set([...Object.keys(features), ...Object.keys(withoutScript)]))
  console.log(`| ${name} | ${columns.map(({ seen }) => cell(seen, name)).join(" | ")} |`);
const faults = columns.flatMap(({ title, seen }) =>
  Object.entries(seen).flatMap(([name, fault]) => (fault === undefined ? [] : [`${title}, ${name}: ${fault}`])),
);
for (const line of [...faults, ...missing]) console.log(line);
process.exitCode = faults.length > 0 ? 1 : missing.length > 0 ? 3 : 0;
