import { expect, test } from "vitest";
import { playerData } from "../../../src/publishing/site/player-data.js";
import { playerWording } from "../../../src/wording/player.js";
import { wordingOf } from "../../../src/wording/wording.js";
import { readPlayed } from "../../../templates/script/practice/read.js";
import { cues, score } from "../../../templates/script/practice/score.js";
import { everyKey } from "../../fixtures/every-key.js";
import { published } from "./published.js";

test("what a page holds for the player says the same as routine.json, each version, side and group of dancers", () => {
  const record = published(everyKey);
  const held = JSON.stringify(playerData(record, wordingOf("en")));
  const read = readPlayed(held);
  expect(score(read)).toEqual(score(record));
  const groups = record.groups ?? [];
  expect(groups.length).toBeGreaterThan(1);
  for (const { id: version } of record.versions)
    for (const group of groups)
      for (const otherSide of [false, true]) {
        const seen = (of: typeof read) => cues(of, score(of), { version, otherSide, group }, playerWording("en"));
        const plain = seen(read).map(({ care: _, ...cue }) => cue);
        expect(plain).toEqual(seen(record));
        expect(seen(read).length).toBeGreaterThan(3);
      }
  // What is never danced slowly says what it asks care for.
  const cared = read.versions.flatMap(({ moves }) =>
    moves.flatMap((move) => (move.care ? [[move.do, move.care]] : [])),
  );
  expect(cared).toContainEqual(["Climb onto the chair", "climbing"]);
  // A move that several versions dance stands there once.
  const all = record.versions.flatMap(({ moves, groups }) => [moves, ...(groups ?? []).map(({ moves }) => moves)]);
  expect(JSON.parse(held).moves.length).toBeLessThan(all.flat().length);
});
