import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { publish } from "../../src/build/publish.js";
import type { DeclaredFile, Publisher } from "../../src/publishing/publisher.js";
import { emptyLibrary } from "../../src/reading/read-library.js";

const folder = mkdtempSync(join(tmpdir(), "countleaf-promised-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const sheet: DeclaredFile = { path: "routines/kerb/sheet.txt", kind: "handout", mediaType: "text/plain" };
const made = [{ ...sheet, content: "Kerb" }];
const subject = { subject: {}, name: "kerb", title: "Kerb", findings: [] };

function make(publisher: Omit<Publisher<object>, "name">) {
  return publish({ library: emptyLibrary, folder }, [{ name: "sheet", ...publisher }], [subject]);
}

it("an output that makes less than it has said is an error, and no pack without these files", async () => {
  await expect(make({ publish: () => [], declare: () => [sheet] })).rejects.toThrow(
    "routines/kerb/sheet.txt should have been made and was not.",
  );
  const pages = ({ slug }: { readonly slug: string }) => [`routines/${slug}/index.html`];
  await expect(make({ publish: () => made, pages })).rejects.toThrow("routines/kerb/index.html should have been made");
  await expect(make({ publish: () => [], publishAll: async () => [], pages })).rejects.toThrow(
    "index.html should have",
  );
  expect((await make({ publish: () => made, declare: () => [sheet] })).flat().map(({ path }) => path)).toEqual([
    sheet.path,
  ]);
});
