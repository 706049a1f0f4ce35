// Writes output-sample/: the full output of one routine and one workshop of the demo library, for readers of the
// repository. With --check nothing is written, and a difference ends with status 1.
import { execFileSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";

const root = resolve(import.meta.dirname, "../..");
const sample = join(root, "output-sample");
const folders = ["routines/breakwater-letters", "workshops/winter-floor-day"];

const work = mkdtempSync(join(tmpdir(), "countleaf-sample-"));
try {
  const out = join(work, "pack");
  execFileSync(process.execPath, [join(root, "dist/cli/main.js"), "build", "--out", out], {
    cwd: root,
    stdio: "ignore",
  });
  if (process.argv.includes("--check")) {
    const stale = folders.flatMap((folder) => differences(join(out, folder), join(sample, folder), folder));
    for (const path of stale) console.error(`output-sample/${path} is out of date; run \`npm run sample\``);
    process.exitCode = stale.length > 0 ? 1 : 0;
  } else {
    // The pictures beside them are another command's.
    for (const folder of folders) {
      rmSync(join(sample, folder), { recursive: true, force: true });
      cpSync(join(out, folder), join(sample, folder), { recursive: true });
    }
  }
} finally {
  rmSync(work, { recursive: true, force: true });
}

function differences(made, kept, folder) {
  const names = new Set([...readdirSync(made), ...(existsSync(kept) ? readdirSync(kept) : [])]);
  return [...names].sort().flatMap((name) => {
    const [a, b] = [join(made, name), join(kept, name)];
    const same = existsSync(a) && existsSync(b) && statSync(a).isFile() && readFileSync(a).equals(readFileSync(b));
    return same ? [] : [`${folder}/${name}`];
  });
}
