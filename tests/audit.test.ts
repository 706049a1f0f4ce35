import { spawnSync } from "node:child_process";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join, resolve } from "node:path";
import { afterAll, expect, it } from "vitest";

const work = mkdtempSync(join(tmpdir(), "countleaf-audit-"));
afterAll(() => rmSync(work, { recursive: true, force: true }));

/* In place of npm stands a program that says what npm would. */
it.each([
  ["no fault", '{"metadata":{"vulnerabilities":{"total":0}}}', 0, 0, "Audited: 0 known faults.\n"],
  ["faults", '{"metadata":{"vulnerabilities":{"total":2}}}', 1, 1, "Audited: 2 known faults.\n"],
  ["a registry that does not answer", '{"message":"405 - POST https://host.example/x"}', 1, 3, "NOT AUDITED: "],
  ["no answer that can be read", "<html>", 0, 3, "NOT AUDITED: "],
  ["an empty answer", "", 0, 3, "NOT AUDITED: "],
])("an audit with %s is passed only where it was had", (name, says, npmStatus, status, told) => {
  const bin = join(work, name.replaceAll(" ", "-"));
  mkdirSync(bin);
  writeFileSync(join(bin, "npm"), `#!/bin/sh\necho '${says}'\nexit ${npmStatus}\n`);
  chmodSync(join(bin, "npm"), 0o755);
  const env = { ...process.env, PATH: `${bin}${delimiter}${process.env.PATH}` };
  const run = spawnSync(process.execPath, [resolve(import.meta.dirname, "tools/audit.mjs")], { env, encoding: "utf8" });
  expect([run.status, run.stdout]).toEqual([status, expect.stringContaining(told)]);
  expect(run.stdout).not.toContain("host.example");
});
