import { describe, expect, it } from "vitest";
import { buildErrorText, errorText } from "../../src/build/error-text.js";

const failed = (code: string, about: object) =>
  Object.assign(new Error(`${code}: in the system's words`), { code, ...about });

describe("what the machine does not allow", () => {
  it.each([
    ["ENOSPC", "the disk is full."],
    ["EFBIG", "this file would be larger than the disk, or a limit that is set for you, allows."],
    ["EROFS", "this disk can only be read."],
    ["ELOOP", "this is a link that leads round in a circle."],
    ["ENOMEM", "this computer has too little memory free."],
    ["ERR_WORKER_INIT_FAILED", "this computer has too little memory free."],
  ])("%s has a sentence of its own", (code, says) => {
    const error = failed(code, { path: "place" });
    expect(errorText(error)).toBe(`place: ${says}`);
    expect(buildErrorText(new Error("outer", { cause: error }), "pack")).toMatch(
      /^place: .* build again\. Nothing was changed in pack\.$/,
    );
  });

  it("keeps what was put into words, whatever lies behind it", () => {
    const inner = failed("EFBIG", { path: "place" });
    const built = new Error(buildErrorText(inner, "pack"), { cause: inner });
    expect(errorText(built)).toBe(built.message);
  });

  it("is told of the file that has no room, not of the font that is copied", () => {
    const copied = failed("ENOSPC", { path: "fonts/face.woff2", dest: "pack/face.woff2" });
    expect(errorText(copied)).toBe("pack/face.woff2: the disk is full.");
    expect(errorText(failed("EACCES", { path: "from", dest: "to" }))).toMatch(/^from: /);
  });

  it("leaves a fault that it does not know in its own words", () => {
    expect(errorText(failed("EWHATEVER", { path: "place" }))).toBe("EWHATEVER: in the system's words");
  });

  it("names nothing where the library as a whole ran out of memory", () => {
    expect(errorText(failed("ERR_WORKER_OUT_OF_MEMORY", { path: "" }))).toMatch(/^a routine takes more memory/);
  });
});
