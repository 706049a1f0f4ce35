import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { jobs } from "../../src/build/jobs.js";
import { readFiles } from "../../src/reading/files.js";
import { routineText, writeContent } from "./run.js";

it("a class in which nothing can be taught is told so, with the minutes that it needs", async () => {
  const folder = mkdtempSync(join(tmpdir(), "countleaf-too-short-"));
  const framed = (minutes: number) =>
    `---\ntitle: Class ${minutes}\nminutes: ${minutes}\nroutines: [kerb]\nwarm-up: 10\nbreaks: 5\ncool-down: 5\n---\n`;
  const found = async (minutes: number) => {
    writeContent(folder, { "routines/kerb.md": routineText("Kerb"), "workshops/eve.md": framed(minutes) });
    const { content } = await jobs.survey({}, await readFiles(folder));
    return content.findings.filter(({ file }) => file.endsWith("eve.md"));
  };
  try {
    const [first, ...others] = await found(18);
    expect(others).toEqual([]);
    expect(first).toMatchObject({ severity: "warning", rule: "nothing-taught", line: 3 });
    expect(first?.message).toContain("leave 0 for teaching");
    const needed = Number(/`minutes: (\d+)`/.exec(first?.message ?? "")?.[1]);
    expect(needed).toBeGreaterThan(20);
    expect(await found(needed)).toEqual([]);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
