// Writes the declarations that the front door's own refer to into `dist/types`, for the package; tsc writes one for every file.
import { execFileSync } from "node:child_process";
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, relative, resolve } from "node:path";

const root = resolve(import.meta.dirname, "../..");
const all = mkdtempSync(join(tmpdir(), "countleaf-types-"));
const types = join(root, "dist/types");
rmSync(types, { recursive: true, force: true });
try {
  const tsc = join(root, "node_modules/typescript/bin/tsc");
  const options = ["--noEmit", "false", "--declaration", "--emitDeclarationOnly", "--incremental", "false"];
  execFileSync(process.execPath, [tsc, "-p", join(root, "tsconfig.build.json"), ...options, "--outDir", all], {
    stdio: "inherit",
  });
  const from = join(all, "src");
  const reached = new Set([join(from, "index.d.ts")]);
  for (const file of reached) {
    for (const [, path = ""] of readFileSync(file, "utf8").matchAll(/(?:from |import\()"(\.[^"]+)\.js"/g))
      reached.add(resolve(dirname(file), `${path}.d.ts`));
    const copy = join(types, relative(from, file));
    mkdirSync(dirname(copy), { recursive: true });
    copyFileSync(file, copy);
  }
} finally {
  rmSync(all, { recursive: true });
}
