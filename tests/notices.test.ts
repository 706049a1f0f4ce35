import { spawnSync } from "node:child_process";
import { resolve } from "node:path";
import { expect, it } from "vitest";

it("the licences of all that is bundled with the program are listed (npm run notices)", () => {
  const tool = resolve(import.meta.dirname, "tools/notices.mjs");
  const { status, stderr } = spawnSync(process.execPath, [tool, "--check"], { encoding: "utf8" });
  expect([stderr, status]).toEqual(["", 0]);
});
