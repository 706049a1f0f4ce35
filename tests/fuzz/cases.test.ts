import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { judge } from "./judge.js";

/* Files that mutation made and that once did not end as they must, each named after what is odd in it. */

const folder = join(import.meta.dirname, "cases");

test.each(readdirSync(folder))("%s", (name) => {
  expect(judge(readFileSync(join(folder, name))).faults).toEqual([]);
});
