// @ts-check
/*
 * Plants one fault at a time into code that must not lose anybody's work, and says which faults no test noticed.
 *
 *   node tests/tools/mutate.mjs [--every N] [--offset K] [FILE …]
 *
 * Each N-th fault of each file (all of them where left out) is planted in a scratch copy, which is compiled without a look at the types and
 * tested with those tests that are about the file. A fault is survived where they all pass. It takes a while: a fault that is
 * noticed some seconds, one that is not as long as the tests. Faults are planted by the look of a line, so some change
 * nothing that could be noticed; whoever reads the list tells those apart.
 */
import { spawn } from "node:child_process";
import { chmodSync, cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { parseArgs } from "node:util";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** What is looked at, and the tests that are about it. The first that fits a file holds. */
const subjects = /** @type {const} */ ([
  [/^src\/build\/live\//, ["tests/build/serve.test.ts"]],
  [
    /^src\/build\//,
    [
      "staging",
      "lock",
      "emptied",
      "cache",
      "reuse",
      "faults",
      "paths",
      "error-text",
      "promised",
      "threads",
      "crash",
    ].map((name) => `tests/build/${name}.test.ts`),
  ],
  [
    /^src\/reading\/(?:files|split)\.ts$/,
    ["reading/content", "reading/split", "reading/normal-text", "build/faults", "build/paths"].map(
      (name) => `tests/${name}.test.ts`,
    ),
  ],
]);

/**
 * Faults by the look of the code: what is looked for, and what stands there instead.
 *
 * @type {readonly (readonly [RegExp, string])[]}
 */
const faults = [
  [/ === /, " !== "],
  [/ !== /, " === "],
  [/ && /, " || "],
  [/ \|\| /, " && "],
  [/ < /, " <= "],
  [/ > /, " >= "],
  [/ <= /, " < "],
  [/ >= /, " > "],
  [/ \+ 1\b/, " - 1"],
  [/\btrue\b/, "false"],
  [/\bfalse\b/, "true"],
  [/\.startsWith\(/, ".endsWith("],
  [/\.endsWith\(/, ".startsWith("],
  [/\.some\(/, ".every("],
  [/\bif \((?!!)/, "if (!"],
  [/\bif \(!/, "if ("],
  // A statement of its own: a call, a value given, a way out.
  [/^\s*(?:await )?[\w.?]+\(.*\);$/, ""],
  [/^\s*[\w.[\]]+ = .*;$/, ""],
  [/^\s*(?:continue|break|throw .*);$/, ";"],
];

/**
 * The faults of a file, each as the whole file with it.
 *
 * @param {string} source
 */
function faultsOf(source) {
  const lines = source.split("\n");
  return lines.flatMap((line, index) => {
    if (/^\s*(?:\/?\*|\/\/|import |export (?:type|interface)|readonly )/.test(line)) return [];
    return faults.flatMap(([look, instead]) => {
      const changed = line.replace(look, instead);
      if (changed === line || !isCode(line, line.search(look))) return [];
      const text = lines.with(index, changed).join("\n");
      return [{ at: index + 1, before: line.trim(), after: changed.trim() || "(nothing)", text }];
    });
  });
}

/**
 * Whether a place of a line is code, not a text in quotes.
 *
 * @param {string} line
 * @param {number} place
 */
function isCode(line, place) {
  return (line.slice(0, place).match(/["`]/g)?.length ?? 0) % 2 === 0;
}

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: { every: { type: "string", default: "1" }, offset: { type: "string", default: "0" } },
});
const every = Number(values.every);
const inFolder = (/** @type {string} */ folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => join(folder, name));
const files = positionals.length
  ? positionals.map((file) => relative(root, join(process.cwd(), file)))
  : [...inFolder("src/build"), "src/reading/files.ts", "src/reading/split.ts"].sort();

const work = mkdtempSync(join(tmpdir(), "countleaf-mutate-"));
// Some tests run the program as nobody, who has to get there.
chmodSync(work, 0o755);
process.on("exit", () => rmSync(work, { recursive: true, force: true }));
const left = new Set(["node_modules", ".git", "_site", "dist", ".unbundled"]);
for (const name of readdirSync(root))
  if (!left.has(name)) cpSync(join(root, name), join(work, name), { recursive: true });
symlinkSync(join(root, "node_modules"), join(work, "node_modules"));

/**
 * Runs a program of Node to its end, with all that it has started: a fault may leave a server running.
 *
 * @param {readonly string[]} words
 */
function passes(words) {
  const child = spawn(process.execPath, words, { cwd: work, stdio: "ignore", detached: true, timeout: 600_000 });
  return new Promise((done) =>
    child.on("close", (status) => {
      try {
        process.kill(-(child.pid ?? 0), "SIGKILL");
      } catch {
        // Nothing is left of it.
      }
      done(status === 0);
    }),
  );
}

/** @param {readonly string[]} tests */
const allPass = async (tests) =>
  (await passes(["tests/tools/compile.mjs", "--unchecked"])) &&
  (await passes(["node_modules/vitest/vitest.mjs", "run", "--bail=1", "--reporter=dot", ...tests]));

let [tried, survived] = [0, 0];
/** Tests that were seen to pass where no fault is planted. @type {Set<readonly string[]>} */
const sound = new Set();
for (const file of files) {
  const tests = subjects.find(([pattern]) => pattern.test(file))?.[1];
  if (!tests) throw new Error(`No tests are named here that are about ${file}.`);
  if (!sound.has(tests) && !(await allPass(tests))) throw new Error(`These fail without a fault: ${tests.join(", ")}`);
  sound.add(tests);
  const source = readFileSync(join(root, file), "utf8");
  const chosen = faultsOf(source).filter((_, index) => index % every === Number(values.offset) % every);
  let here = 0;
  for (const { at, before, after, text } of chosen) {
    writeFileSync(join(work, file), text);
    tried++;
    if (!(await allPass(tests))) continue;
    here++;
    console.log(`${file}:${at}\n  - ${before}\n  + ${after}`);
  }
  survived += here;
  writeFileSync(join(work, file), source);
  console.log(`${file}: ${chosen.length - here} of ${chosen.length} noticed`);
}
console.log(`${tried - survived} of ${tried} faults noticed, ${survived} survived`);
