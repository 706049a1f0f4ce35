#!/usr/bin/env node
import { readFileSync } from "node:fs";
import { done, usageError } from "./status.js";

const help = `countleaf makes a page, handouts and video text from one file a dance routine.

  countleaf new library DIR       start a library of your own in the folder DIR
  countleaf new routine "TITLE"   add a routine file to copy from
  countleaf draft FILE --title T  make a routine file from the captions of your lesson
  countleaf compare SLUG FILE     hold the captions of a lesson against a routine that has a file
  countleaf check                 read everything and say what is wrong
  countleaf serve                 see the library while you write it; pages follow each save
  countleaf build                 make the pack: pages, handouts, captions, click track
  countleaf outline SLUG          print the text for under a video, --mirrored for its mirrored film
  countleaf captions SLUG         print captions of counts and cues, --lead N counts early
  countleaf takes SLUG            lay out a breakdown video, for the day it is recorded
  countleaf click SLUG --out F    write the click track as sound
  countleaf tempo FILE.wav        guess a song's tempo, --first its first count too

  --content DIR   where the files are (content)
  --port, --host  where the library is served (8080, this computer alone)
  --out DIR       where the pack goes (_site)
  --help          this text; after a command, that command's arguments
  --version       the version

Ends with 0 when done, 1 when the content has errors, 2 when the command's arguments are wrong.
`;

type Command = (args: readonly string[]) => Promise<number>;

/* Loaded only when asked for, so that a question about the arguments is answered at once. */
const commands: Readonly<Record<string, () => Promise<Command>>> = {
  build: async () => (await import("./build.js")).buildCommand,
  serve: async () => (await import("./serve.js")).serveCommand,
  compare: async () => (await import("./compare.js")).compareCommand,
  check: async () => (await import("./check.js")).checkCommand,
  draft: async () => (await import("./draft.js")).draftCommand,
  new: async () => (await import("./new.js")).newCommand,
  outline: async () => (await import("./outline.js")).outlineCommand,
  captions: async () => (await import("./captions.js")).captionsCommand,
  takes: async () => (await import("./takes.js")).takesCommand,
  click: async () => (await import("./click.js")).clickCommand,
  tempo: async () => (await import("./tempo.js")).tempoCommand,
};

async function main(args: readonly string[]): Promise<number> {
  const [first, ...rest] = args;
  if (first === undefined || first === "--help" || first === "-h" || first === "help") {
    process.stdout.write(help);
    return done;
  }
  if (first === "--version") {
    const { version } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
    process.stdout.write(`${version}\n`);
    return done;
  }
  const load = Object.hasOwn(commands, first) ? commands[first] : undefined;
  if (load === undefined) {
    const names = Object.keys(commands).join(", ");
    process.stderr.write(
      `countleaf: there is no command \`${first}\`; the commands are ${names}. \`countleaf --help\` explains them.\n`,
    );
    return usageError;
  }
  return (await load())(rest);
}

main(process.argv.slice(2)).then(
  (status) => {
    process.exitCode = status;
  },
  async (error: unknown) => {
    const { errorText } = await import("../build/error-text.js");
    process.stderr.write(`countleaf: ${errorText(error)}\n`);
    process.exitCode = 1;
  },
);
