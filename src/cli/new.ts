import { constants, copyFileSync, existsSync, lstatSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { ignoreErrors } from "../build/ignore-errors.js";
import { makeFolder } from "../build/make-folder.js";
import { readArguments } from "./arguments.js";
import { faultOfNew, placeOfNew, refuse, writeNew, writeRoutine } from "./new-file.js";
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
  if (trouble !== undefined) return refuse({ refused: trouble, status: failed });
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
  const place = placeOfNew(title, content);
  if ("refused" in place) return refuse(place);
  const text = template("routine.md").replace(/^title: .*$/m, () => `title: ${JSON.stringify(title)}`);
  const wrong = faultOfNew(text, place);
  if (wrong !== undefined) return refuse({ refused: `this can't be a title: ${wrong}`, status: usageError });
  const refused = writeRoutine(place, text);
  if (refused) return refuse(refused);
  process.stdout.write(`Made ${place.path}. Change it, and look at the result with \`npx countleaf build\`.\n`);
  return done;
}

function template(name: string): string {
  return readFileSync(join(templates, "new", name), "utf8");
}
