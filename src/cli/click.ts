import { makeClick } from "../build/one-routine.js";
import { readArguments } from "./arguments.js";
import { printObstacle } from "./findings.js";
import { sayDraft } from "./print-one.js";
import { done, failed, usageError } from "./status.js";

const usage = "countleaf click SLUG --out FILE.wav [--speed PER CENT] [--divide] [--content DIR]\n";

const divideOption = "--divide";

export async function clickCommand(args: readonly string[]): Promise<number> {
  const divide = args.includes(divideOption);
  const others = args.filter((arg) => arg !== divideOption);
  const given = readArguments(others, usage, ["content", "out", "speed"], { least: 1, most: 1 });
  if (typeof given === "number") return given;
  const { content = "content", out, speed = "100" } = given.options;
  const percent = Number(/^(\d+(?:\.\d+)?) ?%?$/.exec(speed)?.[1]);
  const wrong = wrongWith(out, speed, percent);
  if (out === undefined || wrong !== undefined) {
    process.stderr.write(`countleaf: ${wrong}\n${usage}`);
    return usageError;
  }
  const [slug = ""] = given.rest;
  const made = await makeClick(content, slug, { percent, out, divide });
  if (!made.done) {
    printObstacle(slug, made);
    return failed;
  }
  sayDraft(slug, made.routine);
  process.stdout.write(
    `Wrote ${out}: the click of ${made.routine.title} at ${percent} per cent${divide ? ", each count divided" : ""}.\n`,
  );
  return done;
}

/** What is off about where the sound goes, or about its speed. */
function wrongWith(out: string | undefined, speed: string, percent: number): string | undefined {
  if (out === undefined) return "say where to write the sound: `--out FILE.wav`";
  if (!/[^/\\]\.wav$/i.test(out))
    return `the sound is written as a WAV file, so its name ends in .wav: \`--out ${out}.wav\``;
  if (percent >= 10 && percent <= 400) return undefined;
  return `\`--speed\` is per cent of the tempo, from 10 to 400, not ${speed}: for three quarters of it write \`--speed 75\``;
}
