import { fallsBetween } from "../hearing/song/between.js";
import type { SongGuess, TempoCandidate } from "../hearing/song/types.js";
import { wordingOf } from "../wording/wording.js";

const { song, time } = wordingOf("en");

/** What a song sounds like, line by line: lines as they stand under `music` in a routine file, and why beside them. */
export function songText(file: string, guess: SongGuess, options: { readonly firstCounts: boolean }): string {
  const length = time.clock(guess.seconds);
  const tempos = guess.tempos.map((tempo) =>
    [
      line(song.tempoLine(tempo.countsPerMinute), song.relation(tempo.relation)),
      ...(options.firstCounts ? firstCountLines(tempo) : []),
    ].join("\n"),
  );
  return [
    `${file}, ${length}. Guesses from the sound alone; count along before one goes into your file:`,
    "",
    tempos.join(options.firstCounts ? "\n\n" : "\n"),
    "",
    ...(guess.unsteady ? [unsteadyText(guess.unsteady)] : []),
    options.firstCounts
      ? "Write one `tempo` under `music`, and one of the lines below it."
      : "`--first` also says where the first count may fall.",
    "`countleaf serve` plays the song with clicks over it, at /song/.",
    "",
  ].join("\n");
}

function line(key: string, why: string): string {
  return `  ${key.padEnd(24)}${why}`;
}

function firstCountLines(tempo: TempoCandidate): readonly string[] {
  const { firstCounts } = tempo;
  const inOrder = firstCounts.toSorted((a, b) => a.at - b.at);
  const likeliest = firstCounts[0];
  return inOrder.map((guess) =>
    line(
      song.firstCountLine(Math.round(guess.at * 100) / 100),
      `${song.reason(guess.why, fallsBetween(guess, tempo))}${guess === likeliest && firstCounts.length > 1 ? ", the likeliest" : ""}`,
    ),
  );
}

function unsteadyText({ slowest, fastest }: NonNullable<SongGuess["unsteady"]>): string {
  const [from, to] = [slowest, fastest].map((tempo) => String(Math.round(tempo * 10) / 10));
  return `The song does not keep one tempo: it ranges from ${from} to ${to}, counted as the first line is. Give the sections where it changes an \`at\`, or a \`tempo\` of their own.`;
}
