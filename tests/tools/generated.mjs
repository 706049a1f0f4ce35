// Writes what is generated from the schemas: templates/schemas for editors, and in the README the table of keys and the
// example file. With --check nothing is written, and a difference ends with status 1.
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { schemaFiles } from "../../.unbundled/reading/json-schema.js";
import { withKeyTable } from "../../.unbundled/reading/key-table.js";

const root = resolve(import.meta.dirname, "../..");
const read = (path) => (existsSync(join(root, path)) ? readFileSync(join(root, path), "utf8") : "");

const begin = "<!-- example: made by `npm run schemas` from templates/new/routine.md -->\n";
const end = "<!-- end of example -->";

function withExample(page) {
  const [from, to] = [page.indexOf(begin), page.indexOf(end)];
  const example = `\n\`\`\`yaml\n${read("templates/new/routine.md").trim()}\n\`\`\`\n\n`;
  return from < 0 || to < from ? page : page.slice(0, from + begin.length) + example + page.slice(to);
}

const files = new Map([
  ...[...schemaFiles()].map(([name, text]) => [`templates/schemas/${name}`, text]),
  ["README.md", withExample(withKeyTable(read("README.md")))],
]);

for (const [path, text] of files) {
  if (read(path) === text) continue;
  if (process.argv.includes("--check")) {
    console.error(`${path} is out of date; run \`npm run schemas\``);
    process.exitCode = 1;
  } else {
    mkdirSync(dirname(join(root, path)), { recursive: true });
    writeFileSync(join(root, path), text);
  }
}
