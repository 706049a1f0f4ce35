import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";

const src = resolve(import.meta.dirname, "../src");

/** Which rooms a room may import, beside itself. */
const arrows: Readonly<Record<string, readonly string[]>> = {
  routine: [],
  reading: ["routine"],
  hearing: ["routine"],
  teaching: ["routine"],
  wording: ["routine"],
  typesetting: [],
  publishing: ["routine", "teaching", "wording", "typesetting"],
  build: ["routine", "hearing", "reading", "teaching", "wording", "typesetting", "publishing"],
  cli: ["build", "hearing", "reading", "wording"],
};

/** Packages that a room may use; the core knows none but exact fractions. */
const corePackages = ["fraction.js"];

interface Import {
  readonly file: string;
  readonly from: string;
}

function importsIn(room: string): readonly Import[] {
  const files = readdirSync(join(src, room), { recursive: true, encoding: "utf8" }).filter((name) =>
    /\.ts$/.test(name),
  );
  return files.flatMap((name) => {
    const text = readFileSync(join(src, room, name), "utf8");
    const found = text.matchAll(/^(?:import|export)\b[^;]*?\bfrom "([^"]+)"|\bimport\("([^"]+)"\)/gm);
    return [...found].map((match) => ({ file: join(room, name), from: match[1] ?? match[2] ?? "" }));
  });
}

function roomOf({ file, from }: Import): string {
  return relative(src, resolve(src, dirname(file), from)).split("/")[0] ?? "";
}

const templates = resolve(import.meta.dirname, "../templates");

/** What the templates import from the source, types apart: `publishing/site/html.js`. */
function valuesImportedIn(folder: string): readonly string[] {
  const files = readdirSync(join(templates, folder), { recursive: true, encoding: "utf8" });
  return files
    .filter((name) => name.endsWith(".ts"))
    .flatMap((name) => {
      const text = readFileSync(join(templates, folder, name), "utf8");
      const found = [...text.matchAll(/^(?:import|export) (?!type\b)[^;]*?\bfrom "([^"]+)"/gm)].map(
        ([, from = ""]) => from,
      );
      const own = (from: string) => relative(src, resolve(templates, folder, dirname(name), from));
      return found.map((from) => (from.startsWith(".") ? own(from) : from.replace(/^#src\//, "")));
    })
    .filter((from) => !from.startsWith("../templates/"));
}

describe("the arrows between the rooms", () => {
  it("knows every room", () => {
    const rooms = readdirSync(src, { withFileTypes: true }).filter((entry) => entry.isDirectory());
    expect(rooms.map(({ name }) => name).sort()).toEqual(Object.keys(arrows).sort());
  });

  it("the front door is nothing but exports", () => {
    const statements = readFileSync(join(src, "index.ts"), "utf8").replace(/\/\*[\s\S]*?\*\//g, "");
    expect(statements.replace(/export (?:type )?\{[^}]*\} from "[^"]*";/g, "").trim()).toBe("");
  });

  it.each(Object.entries(arrows))("%s imports only what it may", (room, allowed) => {
    const imports = importsIn(room);
    expect(imports.length).toBeGreaterThan(0);
    const against = imports.filter((one) => one.from.startsWith(".") && ![room, ...allowed].includes(roomOf(one)));
    expect(against).toEqual([]);
  });

  it("the core uses no package but exact fractions, and neither files nor clock nor chance", () => {
    const packages = importsIn("routine").filter(({ from }) => !from.startsWith(".") && !corePackages.includes(from));
    expect(packages).toEqual([]);
    const texts = readdirSync(join(src, "routine"), { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".ts"))
      .map((name) => readFileSync(join(src, "routine", name), "utf8"));
    expect(texts.filter((text) => /Math\.random|Date\.now|new Date|process\./.test(text))).toEqual([]);
  });

  it("an output's folder imports no other output's folder", () => {
    const shared = ["drawing", "paper"];
    const outputs = readdirSync(join(src, "publishing"), { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && !shared.includes(entry.name))
      .map((entry) => entry.name);
    const against = outputs.flatMap((output) =>
      importsIn(`publishing/${output}`).filter((one) => {
        if (!one.from.startsWith(".")) return false;
        const [room, folder = ""] = relative(src, resolve(src, dirname(one.file), one.from)).split("/");
        return room === "publishing" && folder !== output && outputs.includes(folder);
      }),
    );
    expect(against).toEqual([]);
  });

  it("a page template works with what publishing/site hands it, and the browser's script with pure modules", () => {
    expect([...new Set(valuesImportedIn("pages"))]).toEqual(["publishing/site/html.js"]);
    expect(valuesImportedIn("script").filter((from) => !/^(routine|wording|hearing)\//.test(from))).toEqual([]);
  });
});
