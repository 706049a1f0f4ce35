import { writeClick } from "../publishing/click/wav.js";
import { readOne } from "./one-routine.js";
import { done, wrongWords } from "./status.js";
import { readWords } from "./words.js";

const usage = "countleaf click SLUG --out FILE.wav [--speed PER CENT] [--content DIR]\n";

export async function clickCommand(args: readonly string[]): Promise<number> {
  const words = readWords(args, usage, ["content", "out", "speed"], { least: 1, most: 1 });
  if (typeof words === "number") return words;
  const { content = "content", out, speed = "100" } = words.options;
  const percent = Number(speed);
  if (out === undefined || !(percent >= 10 && percent <= 400)) {
    process.stderr.write(
      `countleaf: ${out === undefined ? "say where to write the sound: `--out FILE.wav`" : `\`--speed\` is per cent of the tempo, from 10 to 400, not ${speed}`}\n${usage}`,
    );
    return wrongWords;
  }
  const read = await readOne(content, words.rest[0] ?? "");
  if (typeof read === "number") return read;
  await writeClick(read.routine, { percent, out });
  process.stdout.write(`Wrote ${out}: the click of ${read.routine.title} at ${percent} per cent.\n`);
  return done;
}
