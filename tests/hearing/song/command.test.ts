import { mkdtempSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test, vi } from "vitest";
import { songText } from "../../../src/cli/song-text.js";
import { tempoCommand } from "../../../src/cli/tempo.js";
import type { SongGuess } from "../../../src/hearing/song/types.js";
import { wav } from "../../fixtures/wav.js";
import { render } from "./render.js";

const work = mkdtempSync(join(tmpdir(), "countleaf-tempo-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

async function run(...args: readonly string[]) {
  const said = { out: "", error: "" };
  const keep = (stream: "out" | "error") => (text: string | Uint8Array) => {
    said[stream] += String(text);
    return true;
  };
  const spies = [
    vi.spyOn(process.stdout, "write").mockImplementation(keep("out")),
    vi.spyOn(process.stderr, "write").mockImplementation(keep("error")),
  ];
  const status = await tempoCommand(args);
  for (const spy of spies) spy.mockRestore();
  return { status, ...said };
}

function file(name: string, bytes: Uint8Array | string): string {
  writeFileSync(join(work, name), bytes);
  return join(work, name);
}

describe("countleaf tempo", () => {
  test("prints tempos as lines of a routine file, half or double named as such, and says that they are guesses", async () => {
    const { samples, rate, firstCount } = render({
      countsPerMinute: 92,
      swung: false,
      kind: "plain",
      band: "kit",
      seed: 5,
      rate: 11_025,
      seconds: 14,
    });
    const song = file("song.wav", wav(samples, rate));
    const { status, out, error } = await run(song, "--first");
    expect([status, error]).toEqual([0, ""]);
    expect(out).toContain("Guesses");
    expect(out).toMatch(/^ {2}tempo: (92|92\.0\d|91\.9\d) /m);
    expect(out).toMatch(/^ {2}tempo: \d+(\.\d+)? +the same, counted (half|twice) as fast$/m);
    const found = [...out.matchAll(/^ {2}first-count: 0:0(\d\.\d+) /gm)].map(([, at]) =>
      Math.abs(Number(at) - firstCount),
    );
    expect(Math.min(...found)).toBeLessThan(0.06);
    const brief = await run(song);
    expect(brief.out).toContain("--first");
    expect(brief.out).not.toContain("first-count:");
  });

  test("says of every other file where it is, what it is and what to do", async () => {
    const huge = file("huge.wav", wav(new Float32Array(1), 44_100));
    truncateSync(huge, 300 * 1024 * 1024);
    const cases: readonly (readonly [string, RegExp])[] = [
      [file("song.mp3", "ID3 and so on"), /no WAV file.*countleaf serve.*\/song\//],
      [work, /is a folder; write/],
      [join(work, "none.wav"), /is not there; write/],
      [file("empty.wav", ""), /is empty; save/],
      [huge, /larger than 200 MB.*cut the song out/],
      [file("fine.wav", wav(new Float32Array(100), 44_100, 24)), /24 bits.*save it as WAV with 16 bits/],
      [file("short.wav", wav(new Float32Array(44_100), 44_100)), /shorter than six seconds.*give the whole song/],
      [file("silent.wav", wav(new Float32Array(80_000), 8_000)), /is silent/],
    ];
    for (const [path, says] of cases) {
      const { status, out, error } = await run(path);
      expect([status, out], path).toEqual([1, ""]);
      expect(error).toMatch(says);
      expect(error).toContain(path);
      expect(error.trim().split("\n")).toHaveLength(1);
    }
  });

  test("says what there is where its arguments are wrong", async () => {
    for (const args of [[], ["--last", "song.wav"], ["one.wav", "two.wav"]]) {
      const { status, out, error } = await run(...args);
      expect([status, out]).toEqual([2, ""]);
      expect(error).toContain("countleaf tempo FILE.wav [--first]");
    }
  });

  test("says how far a tempo ranges that does not hold, and which first counts lie between the others", () => {
    // A count takes 0.6 s: from 1.6 to 0.7 are one and a half, from 1.6 to 4.0 are four.
    const firstCounts = [
      { at: 1.6, why: "music-begins", trust: 0.6 },
      { at: 0.7, why: "music-begins", trust: 0.2 },
      { at: 4, why: "bar-begins", trust: 0.2 },
    ] as const;
    const guess: SongGuess = {
      seconds: 192,
      tempos: [{ countsPerMinute: 100, relation: "first", trust: 1, firstCounts }],
      unsteady: { slowest: 98.04, fastest: 103.3 },
    };
    const text = songText("tide.wav", guess, { firstCounts: true });
    expect(text).toContain("tide.wav, 3:12.");
    expect(text).toContain("from 98 to 103.3");
    expect(text).toContain("`at`");
    expect(text).toMatch(
      /0:00\.7 +the music begins, between the counts\n.*0:01\.6 +the music begins, the likeliest\n.*0:04\.0 +the first heavy count of a bar\n/,
    );
  });
});
