import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { gap, type Literal, literalsOf } from "./literals.js";

/*
 * What is said to people stands in src/wording. The command's words (src/cli), findings (src/reading, and the checks and
 * problems of src/routine) and the files that a new library starts with (templates/new) have their own places; everywhere
 * else a text that reads like words for people fails here.
 */

const rooms = ["src/publishing", "src/teaching", "src/build", "src/typesetting", "templates/pages", "templates/script"];

/** Files whose words are no page's, paper's, caption's, plan's or player's. */
const elsewhere: readonly { readonly why: string; readonly place: string }[] = [
  { why: "what the command says where the machine does not let it build", place: "src/build/error-text.ts" },
  { why: "what the command says where a build would empty what is published", place: "src/build/emptied.ts" },
  { why: "what the command says of folders that it can't build from or into", place: "src/build/folders.ts" },
  { why: "the progress that the command prints", place: "src/build/make-pack.ts" },
  { why: "what stands before a fault of an output", place: "src/build/publish.ts" },
  { why: "served mistakes speak the language of findings, which they show", place: "src/build/live/" },
  { why: "PDF syntax", place: "src/typesetting/pdf/" },
];

const structure = /^(Document|Sect|Table|Figure|Link|Code|Lbl|Span|Row|Column|Artifact|Layout|Block)$/;

/** Texts that read like words and are none: the whole text, or what stands before it. */
const technical: readonly Technical[] = [
  { why: "an error that is thrown is for who runs the command", before: /Error\($/ },
  { why: "a type of structure element (ISO 32000-1, 14.8.4), or what is said of one", text: structure },
  { why: "a block of a WebVTT file", text: /^(WEBVTT|NOTE) / },
  { why: "a style sheet", text: /^<style>/ },
  { why: "a selector of the style sheet's kind", before: /\b(querySelector(All)?|closest|matches|part)\($/ },
  {
    why: "the same for fields of a form",
    text: /^(select|input|textarea)(\[[^\]]+\])?(, (select|input|textarea)(\[[^\]]+\])?)+$/,
  },
  { why: "classes of a move's counts and of who dances it", text: /^(on long|group alone|cell listed)$/ },
  { why: "a rule of the content security policy", text: /^[a-z]+-src '/ },
  { why: "a rule of a style sheet", text: /^(src: url\(|@supports )/ },
  { why: "a type of schema.org", before: /"@type":$/ },
  {
    why: "keys of a routine file, as they are written there",
    text: new RegExp(`^[ -]*(?:\\{ )?[a-z-]+: (?:about |yes)?${gap}*(?:, need: ${gap} \\}${gap})?$`),
  },
  { why: "the name of something kept in the browser", text: /^countleaf (track|group) / },
  { why: "what is printed on a key of the keyboard", text: /^<kbd>Esc<\/kbd>$/ },
  { why: "a key of the keyboard, as UI Events KeyboardEvent key Values names it", text: /^(Escape|Enter)$/ },
  { why: "a media query", before: /matchMedia\($/ },
  { why: "an attribute", text: /^ data-[a-z]+$/ },
];

interface Technical {
  readonly why: string;
  readonly text?: RegExp;
  readonly before?: RegExp;
}

function fits({ text, before }: Literal, technical: Technical): boolean {
  return technical.text?.test(text) === true || technical.before?.test(before) === true;
}

/** A word of two letters or more, or a value that is set in. */
const word = `(?:\\p{L}[\\p{L}’'-]+|${gap})`;
const sentence = new RegExp(`${word}[.,;:!?]? ${word}`, "u");
const capitalised = /^\p{Lu}\p{Ll}+$/u;
const letters = /\p{L}{2,}/u;

/** True where a text reads like words for people. */
function saysSomething({ text, before, template }: Literal): boolean {
  if (template && /(^|\W)html$/.test(before))
    return [textOf(text), ...spokenAttributes(text)].some((part) => letters.test(part));
  const words = text.includes("<") ? textOf(text) : text;
  return capitalised.test(words.trim()) || (sentence.test(words) && letters.test(words));
}

/** What stands between the tags of a piece of markup. */
function textOf(markup: string): string {
  return markup.replace(/<[^>]*>/g, " ").replace(/&#?\w+;/g, " ");
}

/** Values of the attributes that are read out or shown. */
function spokenAttributes(markup: string): readonly string[] {
  return [...markup.matchAll(/\b(?:aria-label|alt|placeholder|title)="([^"]*)"/g)].map(([, value = ""]) => value);
}

const root = resolve(import.meta.dirname, "..");

function filesOf(room: string): readonly string[] {
  const names = readdirSync(join(root, room), { recursive: true, encoding: "utf8" });
  return names
    .filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"))
    .map((name) => relative(root, join(root, room, name)).replaceAll("\\", "/"))
    .filter((file) => !elsewhere.some(({ place }) => file.startsWith(place)));
}

function saidBy(program: string): readonly string[] {
  return literalsOf(program)
    .filter((literal) => saysSomething(literal) && !technical.some((one) => fits(literal, one)))
    .map(({ text }) => text);
}

describe("what is said to people", () => {
  it.each(rooms)("stands in src/wording and not in %s", (room) => {
    const found = filesOf(room).flatMap((file) =>
      saidBy(readFileSync(join(root, file), "utf8")).map((text) => `${file}: ${text}`),
    );
    expect(found).toEqual([]);
  });
});

describe("the search for it", () => {
  /** In a sample, "#{" begins a value of a template. */
  const saidBySample = (sample: string) => saidBy(sample.replaceAll("#{", "${"));

  it.each([
    ["a sentence", 'say("It is danced twice");', ["It is danced twice"]],
    ["a label of one word", 'const label = "Practise";', ["Practise"]],
    ["a number of things", "const text = `#{n} counts`;", [`${gap} counts`]],
    ["a text within a value of a template", "html`<p>#{on && `on #{n} walls`}</p>`;", [`on ${gap} walls`]],
    ["a word in markup", "html`<p>#{n} counts</p>`;", [`<p>${gap} counts</p>`]],
    ["a word that is read out", 'html`<a aria-label="go">#{n}</a>`;', [`<a aria-label="go">${gap}</a>`]],
  ])("finds %s", (_, sample, said) => {
    expect(saidBySample(sample)).toEqual(said);
  });

  it.each([
    ["comments", "// It is danced twice\nconst a = 1; /* Take care */"],
    ["types", 'type A = "First of all" | "Second";'],
    ["patterns", 'const a = /say `It is #{danced}` "twice"/.test(b) ? 1 / 2 : 3;'],
    ["identifiers and markup", 'html`<p class="move of #{kind}"><b>#{n}</b></p>`; const a = { kind: "as-taught" };'],
    ["errors", "throw new Error(`The room #{name} has no door`);"],
  ])("passes over %s", (_, sample) => {
    expect(saidBySample(sample)).toEqual([]);
  });

  it("lists nothing that is not there", () => {
    for (const { place, why } of elsewhere) expect(existsSync(join(root, place)), why).toBe(true);
    const texts = rooms
      .flatMap((room) => filesOf(room))
      .flatMap((file) => literalsOf(readFileSync(join(root, file), "utf8")));
    for (const one of technical)
      expect(
        texts.some((literal) => fits(literal, one)),
        one.why,
      ).toBe(true);
  });
});
