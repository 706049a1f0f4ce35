import { constants, copyFileSync, existsSync, lstatSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { realPath } from "../build/folders.js";
import { ignoreErrors } from "../build/ignore-errors.js";
import { makeFolder } from "../build/make-folder.js";
import { emptyLibrary } from "../reading/read-library.js";
import { readRoutine } from "../reading/read-routine.js";
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
  const trouble = libraryTrouble(folder);
  if (trouble !== undefined) return refused(trouble);
  const content = join(folder, "content");
  for (const name of ["routines", "workshops", "schemas"]) makeFolder(join(content, name));
  for (const name of readdirSync(join(templates, "schemas")))
    copyFileSync(join(templates, "schemas", name), join(content, "schemas", name), constants.COPYFILE_EXCL);
  writeNew(join(content, "library.yaml"), template("library.yaml"));
  writeNew(join(content, "routines", "first-steps.md"), template("routine.md"));
  writeNew(join(content, "workshops", "first-class.md"), template("workshop.md"));
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

/** What lies where a library is to be made, in words; undefined where nothing does, or an empty folder. */
function libraryTrouble(folder: string): string | undefined {
  const there = ignoreErrors(() => lstatSync(folder));
  const another = "name a folder that does not exist yet";
  if (there === undefined) return undefined;
  if (there.isSymbolicLink()) return `${folder} is a link, and nothing is written through links; ${another}`;
  if (!there.isDirectory()) return `${folder} is a file, not a folder; ${another}`;
  const library = join(folder, "content", "library.yaml");
  if (existsSync(library))
    return `${folder} holds a library already (${library}); add to it there with \`countleaf new routine "TITLE"\`, or ${another}`;
  const [first] = readdirSync(folder).sort();
  return first === undefined ? undefined : `${folder} has files in it (${join(folder, first)}); ${another}`;
}

function newRoutine(title: string, content: string): number {
  const slug = slugOf(title);
  if (slug === "")
    return refused(`"${title}" has no letter or digit to make a file name of; write another title`, usageError);
  if (!existsSync(join(content, "library.yaml")))
    return refused(
      `there is no library in ${content}; run this in the folder that holds ${content}, or start one with \`countleaf new library DIR\``,
    );
  const folder = join(content, "routines");
  const there = lstatSync(folder, { throwIfNoEntry: false });
  if (there?.isSymbolicLink() || realPath(folder) !== join(realPath(content), "routines"))
    return refused(`${folder} is a link to another folder, and links are not followed; put a folder there`);
  if (there && !there.isDirectory())
    return refused(`${folder} is a file, not a folder; move it away, and the folder is made`);
  const path = join(folder, `${slug}.md`);
  const text = template("routine.md").replace(/^title: .*$/m, () => `title: ${JSON.stringify(title)}`);
  const [wrong] = readRoutine(text, slug, emptyLibrary).findings.filter(({ severity }) => severity === "error");
  if (wrong) return refused(`this can't be a title: ${wrong.message}`, usageError);
  makeFolder(folder);
  try {
    writeNew(path, text);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    return refused(`${path} is there already; write another title, or change that file`);
  }
  process.stdout.write(`Made ${path}. Change it, and look at the result with \`npx countleaf build\`.\n`);
  return done;
}

function template(name: string): string {
  return readFileSync(join(templates, "new", name), "utf8");
}

/** Writes a file where there is none, nor a link; fails where something is. */
function writeNew(path: string, text: string): void {
  writeFileSync(path, text, { flag: "wx" });
}

function refused(why: string, status = failed): number {
  process.stderr.write(`countleaf: ${why}\n`);
  return status;
}
