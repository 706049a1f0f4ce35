import { closeSync, openSync, readFileSync, readSync, statSync } from "node:fs";
import { guessSong } from "../hearing/song/tempo.js";
import type { NoGuess } from "../hearing/song/types.js";
import { type NoSound, readWav } from "../hearing/song/wav.js";
import { readArguments } from "./arguments.js";
import { songText } from "./song-text.js";
import { done, failed } from "./status.js";

const usage = `countleaf tempo FILE.wav [--first]

  FILE.wav   a song as WAV with 16 bits, one channel or two
  --first    also where the routine's first count may fall
`;

const firstOption = "--first";

/** Bytes: twenty minutes of stereo as a disc has it. */
const largest = 200 * 1024 * 1024;

/* The desk plays whatever the browser plays, so it takes what this command can't. */
const desk =
  "`countleaf serve` opens any song that your browser plays: at /song/ it guesses the tempo, and you tap along";

export async function tempoCommand(args: readonly string[]): Promise<number> {
  const others = args.filter((arg) => arg !== firstOption);
  const given = readArguments(others, usage, [], { least: 1, most: 1 });
  if (typeof given === "number") return given;
  const [file = ""] = given.rest;
  const fault = faultBeforeReading(file);
  if (fault !== undefined) return refuse(file, fault);
  const sound = readWav(readFileSync(file));
  if ("why" in sound) return refuse(file, noSoundText(sound));
  const guess = guessSong(sound.samples, sound.rate);
  if ("why" in guess) return refuse(file, noGuessTexts[guess.why]);
  if (sound.cutShort)
    process.stderr.write(`countleaf: ${file} ends before it says it does; what is there was heard.\n`);
  process.stdout.write(songText(file, guess, { firstCounts: args.includes(firstOption) }));
  return done;
}

function refuse(file: string, why: string): number {
  process.stderr.write(`countleaf: ${file} ${why}.\n`);
  return failed;
}

/** Why a file is not even read: a whole film is not to be taken into memory to find that it is no sound. */
function faultBeforeReading(file: string): string | undefined {
  const stats = statSync(file, { throwIfNoEntry: false });
  if (stats === undefined) return "is not there; write the path of a WAV file, such as `songs/low-tide.wav`";
  if (stats.isDirectory()) return "is a folder; write the path of one song in it";
  if (!stats.isFile()) return "is no file; write the path of a WAV file";
  if (stats.size === 0) return "is empty; save the song once more";
  if (!beginsAsWav(file)) return notWav;
  return stats.size > largest
    ? "is larger than 200 MB, which no song is; cut the song out of it, and give that"
    : undefined;
}

const notWav = `is no WAV file, and this command reads no other. ${desk}`;

function beginsAsWav(file: string): boolean {
  const head = Buffer.alloc(12);
  const open = openSync(file, "r");
  try {
    readSync(open, head, 0, head.length, 0);
  } finally {
    closeSync(open);
  }
  return head.toString("latin1", 0, 4) === "RIFF" && head.toString("latin1", 8) === "WAVE";
}

function noSoundText(sound: NoSound): string {
  switch (sound.why) {
    case "empty":
    case "not-wav":
      return notWav;
    case "no-format":
    case "no-samples":
      return "is a WAV file without any sound in it; save the song once more, as WAV with 16 bits";
    case "not-pcm":
      return `is a WAV file whose sound is packed in another way than plain PCM (${sound.found}); save it as WAV with 16 bits. Or: ${desk}`;
    case "bits":
      return `is a WAV file with ${sound.found} bits, and this command reads 16; save it as WAV with 16 bits. Or: ${desk}`;
    case "channels":
      return `is a WAV file with ${sound.found} channels; save it in mono or stereo`;
    case "rate":
      return `is a WAV file with ${sound.found} samples a second, which no song has; save it with 44100`;
  }
}

const noGuessTexts: Readonly<Record<NoGuess["why"], string>> = {
  "too-short": "is shorter than six seconds, which is too little to tell a tempo from; give the whole song",
  silent: "is silent from beginning to end; save the song once more",
  "no-beat": `has no beat that could be told from the sound. Tap along to it: ${desk}`,
};
