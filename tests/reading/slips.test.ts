import { expect, it } from "vitest";
import { readYaml } from "../fixtures/from-yaml.js";

const told = (lines: string) =>
  readYaml(`sections:\n  - name: A\n    counts:\n      - ${lines}`)
    .findings.map(({ message }) => message)
    .join(" ");
const long = "walk on ".repeat(200).trim();

it.each([
  ["1-4:\n          do: Walk\n          say down", "Put a colon and a space after `say`: `say: down`."],
  ["1-4: { do: Walk, say down }", "If `say` is the key, put a colon and a space after it: `say: down`."],
  ["1-4:\n          do: Walk\n          hit:true", "Put a space after the colon: `hit: true`."],
  ["1-4: { do: Walk, hit:true }", "If `hit` is the key, put a colon and a space after it: `hit: true`."],
  ["1,3,: Walk", "`1,3,` ends with a comma; leave it out: `1,3`."],
  ["1-4:\n          do: Walk\n          hit: true,", "Leave out the comma at the end: `hit: true`."],
  ["1-4: { do: Walk, hit: true },", "There is a comma too many here: write `- 1-4: { do: Walk, hit: true }`."],
  ["1-4: { do: Walk, , hit: true }", "There is a comma too many here: write `- 1-4: { do: Walk, hit: true }`."],
  [`1-8: ${long}`, "`1-8` has 1599 characters, and a text here has 1000 at most"],
])("%s", (lines, message) => expect(told(lines)).toContain(message));

it("a line that a message says to write is whole, however long", () => {
  const text = "Wait: as long as the tide takes to come in over the flats and to go out again, and then walk";
  expect(told(`1-8: ${text}`)).toContain(`put it in quotes: \`1-8: "${text}"\`.`);
});
