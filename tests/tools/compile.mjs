// @ts-check
/*
 * Compiles everything into `dist`: tsc only checks, esbuild writes. The program comes out with the packages that it uses as a
 * few files, of which each command and each thread loads what it needs: hundreds of small ones take several times as long.
 *
 * Where nothing has changed since the last time, nothing is done. `--unchecked` leaves the types unchecked.
 */
import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));

/**
 * Parts of packages that are loaded each time though nothing here comes to use them, with what stands in for them. One that is
 * used after all fails at once, and the tests of what goes out fail with it.
 */
const unused = new Map([
  // Eleventy makes pages here from templates in JavaScript, by itself alone: no other kind of template, no server, no changes
  // to a page that is made, no names of languages.
  ...[
    "@11ty/eleventy-dev-server",
    "liquidjs",
    "nunjucks",
    "markdown-it",
    "node-retrieve-globals",
    "posthtml",
    "iso-639-1",
  ].map((name) => /** @type {const} */ ([name, "module.exports = {};"])),
  // Would start a thread that looks at every import of this one, to load templates again that have changed.
  ["./EsmResolverPortAdapter.js", "export function addModifiedPath() {}"],
  // No PDF is encrypted, none holds a photograph, and lines are broken before they come to pdfkit.
  ["@noble/ciphers/aes", "export const cbc = undefined, ecb = undefined;"],
  ["png-js", "module.exports = undefined;"],
  ["linebreak", "module.exports = undefined;"],
  // Fonts are unpacked before they come to fontkit.
  ["brotli/decompress.js", "module.exports = undefined;"],
  // Node does the same in a fraction of the time.
  [
    "tiny-inflate",
    `const { inflateRawSync } = require("node:zlib");
    module.exports = (packed, into) => { into.set(inflateRawSync(packed)); return into; };`,
  ],
]);

/** Eleventy reads its own package.json from where it was installed. */
const readsItself =
  /let filePath = normalizeFilePathInEleventyPackage\("package\.json"\);\s*return importJsonSync\(filePath\)/;

/** @type {import("esbuild").Plugin} */
const leaner = {
  name: "leaner",
  setup(build) {
    build.onResolve({ filter: /./ }, ({ path }) => (unused.has(path) ? { path, namespace: "unused" } : undefined));
    build.onLoad({ filter: /./, namespace: "unused" }, ({ path }) => ({ contents: unused.get(path) ?? "" }));
    build.onLoad({ filter: /@11ty.eleventy.src.Util.ImportJsonSync\.js$/ }, ({ path }) => {
      const text = readFileSync(path, "utf8");
      if (!readsItself.test(text)) throw new Error(`${path} no longer reads Eleventy's package.json as it did`);
      return { contents: `import own from "../../package.json";\n${text.replace(readsItself, "return own")}` };
    });
  },
};

/**
 * The program and the page templates, which share what both import.
 *
 * @param {boolean} write
 */
export async function program(write = true) {
  const { build } = await import("esbuild");
  const pages = readdirSync(join(root, "templates/pages")).flatMap((name) => /^(.+\.11ty)\.ts$/.exec(name)?.[1] ?? []);
  return build({
    absWorkingDir: root,
    entryPoints: {
      index: "src/index.ts",
      "cli/main": "src/cli/main.ts",
      "build/thread": "src/build/thread.ts",
      "build/whole-site": "src/build/whole-site.ts",
      ...Object.fromEntries(pages.map((name) => [`pages/${name}`, `templates/pages/${name}.ts`])),
    },
    outdir: "dist",
    // As deep as the source, so that "../../" of a file's own address is the package in both.
    chunkNames: "chunks/[name]-[hash]",
    bundle: true,
    splitting: true,
    metafile: true,
    // Whoever uses the front door reckons with the same fractions.
    external: ["fraction.js"],
    write,
    format: "esm",
    platform: "node",
    target: "node20",
    charset: "utf8",
    plugins: [leaner],
    // Packages in the older form of modules ask for parts of Node in that form.
    banner: {
      js: 'import { createRequire as requireFrom } from "node:module"; const require = requireFrom(import.meta.url);',
    },
    // Else a template with a closing script tag in it is taken apart.
    supported: { "inline-script": false },
  });
}

/** The browser's scripts: one file a kind of page, and the worker. None is a module, which a page from a folder may not have. */
async function scripts() {
  const { build } = await import("esbuild");
  /** @param {readonly string[]} names @param {string} outdir */
  const into = (names, outdir) =>
    build({
      absWorkingDir: root,
      entryPoints: names.map((name) => `templates/script/${name}.ts`),
      outbase: "templates/script",
      outdir,
      bundle: true,
      format: "iife",
      charset: "utf8",
      target: "es2020",
      // A phone has to fetch it before anything can be practised.
      minify: true,
    });
  // Those of `dist/script` are published with every library; the report on a draft carries its own within it, and `serve` has the desk's.
  await Promise.all([
    into(["routine", "library", "workshop", "moved", "offline", "keep-pages"], "dist/script"),
    into(["report"], "dist/report"),
    into(["song", "listen"], "dist/song"),
  ]);
}

/**
 * Checks the types of a project, by the name of its configuration.
 *
 * @param {string} project
 */
function check(project) {
  const tsc = spawn(process.execPath, [join(root, "node_modules/typescript/bin/tsc"), "-p", project], {
    cwd: root,
    stdio: "inherit",
  });
  return new Promise((done) => tsc.on("close", (status) => done(status === 0)));
}

/** A digest of all that is compiled, and of what it is compiled with. */
function digest() {
  const folders = ["src", "templates/pages", "templates/script"];
  const files = folders.flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
      .filter((name) => /\.(?:ts|json)$/.test(name))
      .map((name) => join(folder, name)),
  );
  const rest = [
    "tests/tools/compile.mjs",
    "tsconfig.json",
    "tsconfig.build.json",
    "package.json",
    "node_modules/.package-lock.json",
  ];
  const hash = createHash("sha256");
  for (const file of [...files.sort(), ...rest]) {
    const path = join(root, file);
    hash.update(`${file}\n`).update(existsSync(path) ? readFileSync(path) : "");
  }
  return hash.digest("hex");
}

/** @param {boolean} checked */
async function compile(checked) {
  const stamp = join(root, "dist/.compiled");
  const now = digest();
  if (existsSync(stamp) && readFileSync(stamp, "utf8") === now) return true;
  for (const name of existsSync(join(root, "dist")) ? readdirSync(join(root, "dist")) : [])
    if (!name.endsWith(".tsbuildinfo")) rmSync(join(root, "dist", name), { recursive: true });
  const checks = checked ? ["tsconfig.build.json", "templates/script"].map(check) : [];
  await Promise.all([program(), scripts()]);
  const fine = (await Promise.all(checks)).every((one) => one);
  if (fine && checked) writeFileSync(stamp, now);
  return fine;
}

if (process.argv[1] === fileURLToPath(import.meta.url) && !(await compile(!process.argv.includes("--unchecked"))))
  process.exitCode = 1;
