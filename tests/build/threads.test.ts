import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { afterAll, expect, it } from "vitest";
import { compiled } from "./compiled.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-threads-"));
const built = pathToFileURL(compiled("build/threads.ts", work)).href;
afterAll(() => rmSync(work, { recursive: true }));

/** What becomes of the questions that a module asks a team, as a process of its own that has to end by itself. */
function told(script: string, inject: readonly string[] = []): unknown {
  const imports = inject.flatMap((name) => ["--import", pathToFileURL(join(import.meta.dirname, "inject", name)).href]);
  const source = `import { openThreads } from ${JSON.stringify(built)};
const read = (threads, ...slugs) => threads.do("read", {}, slugs.map((slug) => ({ slug, text: "" }))).then(
  (read) => read.length + " read",
  ({ message }) => message,
);
${script}`;
  writeFileSync(join(work, "asks.mjs"), source);
  const args = [...imports, join(work, "asks.mjs")];
  return JSON.parse(execFileSync(process.execPath, args, { encoding: "utf8", timeout: 30_000 }));
}

it("a team does what waits one after the other", () => {
  const script = `const team = openThreads(1);
console.log(JSON.stringify(await Promise.all([read(team, "a"), read(team, "b", "c")])));
await team.close();`;
  expect(told(script)).toEqual(["1 read", "2 read"]);
});

it("a thread that ends fails what it was at, and what waits for one is not forgotten", () => {
  const script = `const team = openThreads(1);
const all = await Promise.all([read(team, "a"), read(team, "b"), read(team, "c")]);
console.log(JSON.stringify([...all, await read(team, "d")]));
await team.close();`;
  expect(told(script, ["dies.mjs"])).toEqual(Array(4).fill("The build was called off."));
});

it("a team that is closed does nothing more", () => {
  const script = `const team = openThreads(1);
const waiting = [read(team, "a"), read(team, "b")];
await team.close();
console.log(JSON.stringify(await Promise.all([...waiting, read(team, "c")])));`;
  expect(told(script)).toEqual(Array(3).fill("The build was called off."));
});
