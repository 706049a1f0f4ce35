// Measures reading, computing and checking one routine of 1 000, 10 000 and 100 000 counts, in processor time of one process,
// the sizes in turn so that a busy machine slows all alike: the figures are to be read against each other.
//
//   node tests/tools/unbundled.mjs && node tests/bench/counts.mjs
import { readKeys } from "../../.unbundled/reading/read-keys.js";
import { emptyLibrary } from "../../.unbundled/reading/read-library.js";
import { routineSchema } from "../../.unbundled/reading/schema/routine.js";
import { writeRoutine } from "../../.unbundled/reading/write-routine.js";
import { dance } from "../../.unbundled/routine/dance.js";

const phrases = `      - 1: { do: Step right, step: right }
        2: { do: "Cross left over right, and look right away", step: left }
        3-4: { do: Step right and hit, step: right, hit: true, options: { 1: { do: Touch and step, step: right } } }
        5: { do: Turn a quarter left, step: left, turn: 1/4 left }
        6: { do: Step right, step: right }
        7-8: { do: Close left and clap, step: left, hit: true }
`.repeat(8);

/** Sections of 64 counts, danced so often that the run has this many. */
function text(counts) {
  const more = Array.from({ length: Math.ceil(counts / 64_000) }, (_, index) => {
    const repeat = Math.min(1000, Math.round(counts / 64) - index * 1000);
    return `  - name: Verse ${index}\n    repeat: ${repeat}\n    counts:\n${phrases}`;
  });
  return `title: T
choreographer: X
music: { tempo: 120, accents: [4, 8] }
levels: [1, 2]
taught: 2
sections:
${more.join("")}`;
}

function measure(counts) {
  const began = process.cpuUsage();
  const { keys } = readKeys(text(counts), routineSchema);
  const written = writeRoutine("t", keys, { introduction: "", notes: [], after: "" }, () => {});
  const { routine, problems } = dance(written, emptyLibrary, { longest: 200_000, mostMoves: 1_000_000 });
  if (routine === undefined) throw new Error(problems.map(({ message }) => message).join("\n"));
  const { user, system } = process.cpuUsage(began);
  return { counts: routine.counts, seconds: (user + system) / 1e6 };
}

for (const warm of [1_000, 1_000, 10_000]) measure(warm);
const rounds = [1, 2, 3].map(() => [1_000, 10_000, 100_000].map(measure));
console.log("| counts | processor seconds | a count, µs |\n| --- | --- | --- |");
for (const index of [0, 1, 2]) {
  const { counts, seconds } = rounds.map((round) => round[index]).sort((a, b) => a.seconds - b.seconds)[1];
  console.log(`| ${counts} | ${seconds.toFixed(3)} | ${((seconds / counts) * 1e6).toFixed(1)} |`);
}
