import { describe, expect, it } from "vitest";
import { readCaptions } from "../../src/hearing/captions.js";
import { listen } from "../../src/hearing/listen.js";
import { readNotes } from "../../src/hearing/notes.js";
import type { Draft, NotHeard } from "../../src/hearing/types.js";
import { processorSeconds } from "../fixtures/processor.js";
import { type Random, randomFrom } from "../fuzz/random.js";
import { long, seed } from "../runs.js";

const called = "five six seven eight step two touch four and clap six turn eight";
const seeds = [
  `WEBVTT\n\n00:01.000 --> 00:09.000\n${called}\n\n00:10.000 --> 00:13.000\nthe clap is on 5, no sorry, on six\n\n00:14.000 --> 00:22.000\n${called}\n`,
  `WEBVTT\nKind: captions\n\n00:00:01.000 --> 00:00:09.000 align:start\n5678<00:00:04.000><c> step</c><00:00:04.600><c> two</c><00:00:05.200><c> touch</c>\n\n00:00:12.000 --> 00:00:13.000\n&gt;&gt; [music] you need knee pads\n`,
  `1\n00:00:01,000 --> 00:00:09,000\n${called}\n\n2\n00:00:10,000 --> 00:00:18,000\nOne, step, three, four, stomp, six, seven, eight.\n`,
  `[0:01] 5 6 7 8\n[0:04] 1 walk 2 walk 3 hip 4 5 6 7 knee 8\n[0:12] moving on to the tag\n[0:15] 4 3 2 1\n[0:18] boom boom cat four\n`,
  "## Wall\n1-2 step right\n3& clap\n5 6 7 8 hold\n\n1&2 shuffle\nsmile\n9-16 walk\n",
];
const bits = [
  "00:00:00.000 --> 99:59:59.999",
  "-->",
  "<c>",
  "</c>",
  "<00:00:99.9>",
  "[9:99]",
  "\n\n",
  "\r",
  "\uFEFF",
  "\0",
  "\uFFFD",
  "5678",
  "56 78",
  "one",
  "1&2&3",
  "999999999999",
  "and",
  "&amp;",
  "&#x110000;",
  "\u202E",
  "__proto__",
  "constructor 5 toString",
  "on on on six six",
  "ate ate ate",
  "-1",
  "1-",
  "12345678 hold",
  "?".repeat(300),
  "five six seven eight ".repeat(9),
  "é",
  "\u{1F483}",
  "<<<<",
  ">>>>",
  "{\\an8}",
];

function mutated(random: Random): string {
  let text = random.pick(seeds);
  for (let times = 1 + random.below(6); times > 0; times--) {
    const at = random.below(text.length + 1);
    const length = random.below(random.chance(80) ? 12 : 200);
    const rest = text.slice(at + length);
    const piece = random.chance(60) ? random.pick(bits) : text.slice(random.below(text.length + 1)).slice(0, length);
    text = `${text.slice(0, at)}${random.chance(30) ? "" : piece}${random.chance(50) ? text.slice(at) : rest}`;
  }
  return text;
}

/** Whole: every move on a count of its phrase, with words; or placed in the text. */
function faultIn(result: Draft | NotHeard, text: string): string | undefined {
  if ("why" in result)
    return result.line >= 1 && result.line <= text.split(/\r\n?|\n/).length && result.column >= 1
      ? undefined
      : "placed nowhere";
  const ends = (on: string) => on.split("-").map((point) => Number.parseInt(point, 10));
  for (const { moves, length } of result.sections.flatMap(({ phrases }) => phrases)) {
    if (length !== undefined && !(length > 0 && length <= result.phrase)) return `a phrase of ${length}`;
    for (const { on, cue } of moves) {
      if (!/^\d+[&]?(?:-\d+[&]?)?$/.test(on) || ends(on).some((count) => count < 1 || count > result.phrase))
        return `on ${on}`;
      if (cue.trim() === "" || /[\p{Cc}\p{Cf}]/u.test(cue)) return `cue ${JSON.stringify(cue)}`;
    }
  }
  return result.sections.every(({ taughtAt }) => Number.isFinite(taughtAt)) ? undefined : "taught at no time";
}

function heard(text: string): Draft | NotHeard {
  const recording = readCaptions(text);
  if (!("why" in recording)) return listen(recording);
  return recording.why === "no-captions" ? readNotes(text) : recording;
}

describe("captions and notes that something has happened to", () => {
  it("are heard whole, or refused at a place", () => {
    const faults: string[] = [];
    for (let number = 0; number < (long ? 10_000 : 1000); number++) {
      const text = mutated(randomFrom(seed, number));
      try {
        const fault = faultIn(heard(text), text);
        if (fault) faults.push(`${number}: ${fault} in ${JSON.stringify(text)}`);
      } catch (error) {
        faults.push(`${number}: ${error} in ${JSON.stringify(text)}`);
      }
    }
    expect(faults.slice(0, 3)).toEqual([]);
  });

  it("are answered in time, however long they are", () => {
    const call = "five six seven eight step two touch four ";
    const texts = [`[0:01] ${call.repeat(20_000)}`, `[0:01] ${call.repeat(2_000)}\n[0:09] end`, "1".repeat(30_000_000)];
    const took = processorSeconds(() => {
      for (const text of texts) expect(faultIn(heard(text), text)).toBeUndefined();
    });
    expect(took).toBeLessThan(6);
  });
});
