import { expect, test } from "vitest";
import { folderOf, keyOf, tooMuch } from "../../templates/script/shelf.js";

const home = "https://saltmarsh.example/dances/";
const at = (...paths: readonly string[]) => paths.map((path) => home + path);

test("a folder, the page in it, and that page in any view are one page", () => {
  for (const address of [
    "routines/low-tide/",
    "routines/low-tide/index.html?side=mirrored",
    "routines/low-tide/#counts",
  ])
    expect(keyOf(home + address)).toBe(`${home}routines/low-tide/index.html`);
  expect(keyOf(`${home}?q=chair`)).toBe(`${home}index.html`);
});

test("a routine's files belong to it, whatever the folder of the site is called; what pages share belongs to none", () => {
  expect(folderOf(`${home}routines/low-tide/handout-2.pdf`, home)).toBe("routines/low-tide/");
  expect(folderOf("https://x.example/routines/index.html", "https://x.example/routines/")).toBe("");
  expect(folderOf(`${home}assets/style.css`, home)).toBe("");
});

test("beyond the limit the routine that was visited longest ago goes, with all that is its own", () => {
  const shelf = at(
    "index.html",
    "routines/anchor/index.html",
    "routines/anchor/map-1.svg",
    "routines/buoy/index.html",
    "assets/old.js",
    "workshops/cove/index.html",
    // It was opened again a while after its page was kept.
    "routines/anchor/map-2.svg",
    "assets/new.js",
  );
  expect(tooMuch(shelf, home, { folders: 3, shared: 3 })).toEqual([]);
  expect(tooMuch(shelf, home, { folders: 2, shared: 3 })).toEqual(at("routines/buoy/index.html"));
  expect(tooMuch(shelf, home, { folders: 1, shared: 3 })).toEqual(
    at("routines/buoy/index.html", "workshops/cove/index.html"),
  );
  expect(tooMuch(shelf, home, { folders: 0, shared: 3 })).toHaveLength(5);
  expect(tooMuch(shelf, home, { folders: 3, shared: 1 })).toEqual(at("index.html", "assets/old.js"));
});
