// Writes into THIRD-PARTY-NOTICES.md what the compiled program holds of packages, and under which licences. With --check nothing
// is written, and a difference ends with status 1.
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { program } from "./compile.mjs";

const root = resolve(import.meta.dirname, "../..");
const page = join(root, "THIRD-PARTY-NOTICES.md");
const begin = "<!-- packages: made by `npm run notices` -->\n";
const end = "<!-- end of packages -->";

/** The folder of each package of which something came into the program. */
async function packagesWithin() {
  const { outputs } = (await program(false)).metafile;
  const inputs = Object.values(outputs).flatMap(({ inputs }) => Object.entries(inputs));
  const folders = inputs.flatMap(([path, { bytesInOutput }]) =>
    bytesInOutput > 0 ? (/^(?:.*\/)?node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/.exec(path)?.[0] ?? []) : [],
  );
  // A package.json within a package, which says no more than how its modules are to be read, makes none of its own.
  return [...new Set(folders)].sort();
}

/** Its name and its licence: who holds the rights, and the words, which many have in common. */
function licenceOf(folder) {
  const {
    name,
    version,
    license,
    author,
    authors = [],
  } = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8"));
  const file = readdirSync(join(root, folder)).find((name) => /^(licen[cs]e|copying)/i.test(name));
  const lines =
    file === undefined
      ? []
      : readFileSync(join(root, folder, file), "utf8")
          .trim()
          .split(/\r?\n/);
  const isHolder = (line) => /^\W*copyright (?:\(c\)|©|\d)/i.test(line);
  const isTitle = (line) =>
    /^\W*(?:the )?(?:MIT|ISC|simplified BSD|BSD[ \d-]*clause)(?: licen[cs]e)?\W*(?:\(MIT\))?\W*$/i.test(line);
  const held = lines.filter(isHolder).map((line) => line.replace(/^\W+(?=copyright)/i, "").trim());
  const words = lines
    .filter((line) => !isHolder(line) && !isTitle(line))
    .join("\n")
    .trim();
  const by = typeof author === "string" ? author : (author?.name ?? authors.join("; "));
  // Where no file says it, the author does.
  return { name: `${name} ${version}`, id: license, words, holders: held.length > 0 || by === "" ? held : [by] };
}

const plain = (words) => words.replace(/\W+/g, " ").trim().toLowerCase();

function section(licences) {
  const texts = new Map();
  for (const { id, words } of licences)
    if (words !== "") texts.set(plain(words), { id, words, count: (texts.get(plain(words))?.count ?? 0) + 1 });
  const common = (id) => [...texts.values()].filter((text) => text.id === id).sort((a, b) => b.count - a.count)[0];
  const byText = new Map();
  for (const licence of licences) {
    const words = licence.words || common(licence.id)?.words;
    if (words === undefined) throw new Error(`${licence.name} brings no licence`);
    const group = byText.get(plain(words)) ?? { id: licence.id, words, list: [] };
    byText.set(plain(words), { ...group, list: [...group.list, licence] });
  }
  return [...byText.values()]
    .map(({ id, words, list }) => {
      const rows = list.map(
        ({ name, holders }) => `- \`${name}\`${holders.length > 0 ? `: ${holders.join("; ")}` : ""}`,
      );
      return `### ${id}\n\n${rows.join("\n")}\n\n\`\`\`\n${words}\n\`\`\`\n`;
    })
    .join("\n");
}

const text = readFileSync(page, "utf8");
const [from, to] = [text.indexOf(begin) + begin.length, text.indexOf(end)];
const now = `${text.slice(0, from)}\n${section((await packagesWithin()).map(licenceOf))}\n${text.slice(to)}`;
if (process.argv.includes("--check")) {
  if (now !== text) console.error("THIRD-PARTY-NOTICES.md is out of date; run `npm run notices`");
  process.exitCode = now === text ? 0 : 1;
} else {
  writeFileSync(page, now);
}
