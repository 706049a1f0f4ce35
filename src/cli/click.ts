import { makeClick } from "../build/one-routine.js";
import { printObstacle } from "./findings.js";
import { done, failed, wrongWords } from "./status.js";
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
  const [slug = ""] = words.rest;
  const made = await makeClick(content, slug, percent, out);
  if (!made.done) {
    printObstacle(slug, made);
    return failed;
  }
  process.stdout.write(`Wrote ${out}: the click of ${made.routine.title} at ${percent} per cent.\n`);
  return done;
}
