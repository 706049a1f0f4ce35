import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { realPath } from "../build/folders.js";
import { slugOf } from "../reading/slug.js";
import { readArguments } from "./arguments.js";
import { done, failed, usageError } from "./status.js";

const usage = `countleaf new library DIR
countleaf new routine "TITLE" [--content DIR]
`;

const templates = fileURLToPath(new URL("../../templates/", import.meta.url));

export async function newCommand(args: readonly string[]): Promise<number> {
  const given = readArguments(args, usage, ["content"], { least: 2, most: 2 });
  if (typeof given === "number") return given;
  const [kind, name = ""] = given.rest;
  if (kind === "library") return newLibrary(name);
  if (kind === "routine") return newRoutine(name, given.options.content ?? "content");
  process.stderr.write(`countleaf: there is no \`new ${kind}\`\n${usage}`);
  return usageError;
}

/** A folder with a content folder in it: a library, a routine and a class to copy from, and the schemas for editors. */
function newLibrary(folder: string): number {
  if (existsSync(folder) && readdirSync(folder).length > 0) {
    process.stderr.write(`countleaf: ${folder} has files in it; name a folder that does not exist yet\n`);
    return failed;
  }
  const content = join(folder, "content");
  for (const name of ["routines", "workshops", "schemas"]) mkdirSync(join(content, name), { recursive: true });
  cpSync(join(templates, "schemas"), join(content, "schemas"), { recursive: true });
  writeFileSync(join(content, "library.yaml"), template("library.yaml"));
  writeFileSync(join(content, "routines", "first-steps.md"), template("routine.md"));
  writeFileSync(join(content, "workshops", "first-class.md"), template("workshop.md"));
  process.stdout.write(
    [
      `Made ${content} with one routine and one class to copy from: samples, to be changed or deleted before you publish.\n`,
      `Next: open ${join(content, "library.yaml")} and write your name in it. Then, in the folder ${folder}:\n`,
      '  npx countleaf new routine "My routine"\n',
      "  npx countleaf build\n",
    ].join(""),
  );
  return done;
}

function newRoutine(title: string, content: string): number {
  const slug = slugOf(title);
  if (slug === "") {
    process.stderr.write(`countleaf: "${title}" has no letter or digit to make a file name of; write another title\n`);
    return usageError;
  }
  if (!existsSync(join(content, "library.yaml"))) {
    process.stderr.write(
      `countleaf: there is no library in ${content}; run this in the folder that holds ${content}, or start one with \`countleaf new library DIR\`\n`,
    );
    return failed;
  }
  const folder = join(content, "routines");
  if (realPath(folder) !== join(realPath(content), "routines")) {
    process.stderr.write(
      `countleaf: ${folder} is a link to another folder, and links are not followed; put a folder there\n`,
    );
    return failed;
  }
  const path = join(folder, `${slug}.md`);
  mkdirSync(folder, { recursive: true });
  try {
    writeFileSync(
      path,
      template("routine.md").replace(/^title: .*$/m, () => `title: ${JSON.stringify(title)}`),
      { flag: "wx" },
    );
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    process.stderr.write(`countleaf: ${path} is there already; write another title, or change that file\n`);
    return failed;
  }
  process.stdout.write(`Made ${path}. Change it, and look at the result with \`npx countleaf build\`.\n`);
  return done;
}

function template(name: string): string {
  return readFileSync(join(templates, "new", name), "utf8");
}
