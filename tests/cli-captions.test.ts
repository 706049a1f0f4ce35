import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test, vi } from "vitest";
import { captionsCommand } from "../src/cli/captions.js";
import { clickCommand } from "../src/cli/click.js";
import { outlineCommand } from "../src/cli/outline.js";
import { takesCommand } from "../src/cli/takes.js";

const content = mkdtempSync(join(tmpdir(), "countleaf-captions-"));
afterAll(() => rmSync(content, { recursive: true, force: true }));
mkdirSync(join(content, "routines"));
writeFileSync(join(content, "library.yaml"), "name: Test room\n");
for (const [slug, place, draft = ""] of [
  ["placed", ", first-count: 0:14.2"],
  ["unplaced", ""],
  ["unready", ", first-count: 0:14.2", "draft: yes\n"],
] as const)
  writeFileSync(
    join(content, `routines/${slug}.md`),
    `---\ntitle: Good\nchoreographer: Nobody\n${draft}music: { tempo: 120${place} }\nsections:\n  - name: A\n    counts: [{ 1-8: Walk }]\n---\n`,
  );

const run = (...args: readonly string[]) => runOf(captionsCommand, ...args);

/** What a command prints, and what it says beside that. */
async function runOf(command: (args: readonly string[]) => Promise<number>, ...args: readonly string[]) {
  const said = { out: "", err: "" };
  const hear = (stream: "stdout" | "stderr", as: keyof typeof said) =>
    vi.spyOn(process[stream], "write").mockImplementation((text) => {
      said[as] += text;
      return true;
    });
  const [out, err] = [hear("stdout", "out"), hear("stderr", "err")];
  const status = await command([...args, "--content", content]);
  out.mockRestore();
  err.mockRestore();
  return { status, ...said, first: /^(\S+) -->/m.exec(said.out)?.[1] };
}

test("captions count from where the file says that the first count falls, and nothing more is said", async () =>
  expect(await run("placed")).toMatchObject({ status: 0, first: "00:00:14.200", err: "" }));

test("without that they count from the first count, and say so and how to do better", async () => {
  const { first, err } = await run("unplaced");
  expect(first).toBe("00:00:00.000");
  expect(err).toContain("begin with it at 0:00");
  expect(err).toContain("`--offset 0:12.5`");
});

test("`--offset` says where it falls in the recording, also in place of the file's word", async () => {
  for (const slug of ["placed", "unplaced"]) {
    const { first, err } = await run(slug, "--offset", "1:02.5");
    expect([first, err]).toEqual(["00:01:02.500", expect.stringContaining("falls at 1:02.5 in the recording")]);
  }
});

test("an offset that is no time is a wrong argument", async () => {
  const { status, out, err } = await run("placed", "--offset", "0:5");
  expect([status, out]).toEqual([2, ""]);
  expect(err).toContain("Write the seconds with two digits: 0:05.");
});

test("whatever is made of a draft, it is said that it is one; of another routine nothing is", async () => {
  const sound = join(content, "click.wav");
  for (const [command, ...more] of [
    [captionsCommand],
    [outlineCommand],
    [takesCommand],
    [clickCommand, "--out", sound],
  ] as const) {
    const { status, out, err } = await runOf(command, "unready", ...more);
    expect([status, err]).toEqual([0, expect.stringContaining("`unready` is a draft and not published")]);
    expect(out).not.toBe("");
    expect((await runOf(command, "placed", ...more)).err).toBe("");
  }
});
