// Compiles the source file by file into `.unbundled`, for tools that look into the program: in `dist` it is bundled.
import { rmSync } from "node:fs";
import { resolve } from "node:path";
import { build } from "esbuild";

const absWorkingDir = resolve(import.meta.dirname, "../..");
rmSync(resolve(absWorkingDir, ".unbundled"), { recursive: true, force: true });
await build({
  absWorkingDir,
  entryPoints: ["src/**/*.ts"],
  outdir: ".unbundled",
  format: "esm",
  target: "node20",
  charset: "utf8",
});
