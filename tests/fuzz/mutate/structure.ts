import { type Document, isCollection, isMap, isPair, isScalar, type Node, type Pair, parseDocument, visit } from "yaml";
import type { Random } from "../random.js";
import { keys, values } from "./words.js";

/** A file's front matter, without its lines of dashes, and what follows. */
export function halvesOf(text: string): { readonly yaml: string; readonly body: string } {
  const [, yaml, body] = /^---\n([\s\S]*?\n)---\n([\s\S]*)$/.exec(text) ?? [];
  return { yaml: yaml ?? "", body: body ?? "" };
}

/** Changes the tree of a front matter: parts vanish, move, change their kind or come from another file. */
export function mutateStructure(text: string, random: Random, other: string): string {
  const { yaml, body } = halvesOf(text);
  const document = parseDocument(yaml, { uniqueKeys: false, logLevel: "silent" });
  if (document.errors.length > 0) return text;
  for (let times = 1 + random.below(3); times > 0; times--) change(document, random, other);
  try {
    return `---\n${document.toString({ lineWidth: random.pick([0, 80]), flowCollectionPadding: random.chance(50) })}---\n${body}`;
  } catch {
    // Not every tree can be written, for example one with a line break in a key of a flow mapping.
    return text;
  }
}

function pairsOf(document: Document): Pair<Node, Node | null>[] {
  const pairs: Pair<Node, Node | null>[] = [];
  visit(document, { Pair: (_, pair) => void pairs.push(pair as Pair<Node, Node | null>) });
  return pairs;
}

function change(document: Document, random: Random, other: string): void {
  const pairs = pairsOf(document);
  if (pairs.length === 0) return;
  const pair = random.pick(pairs);
  const donor = random.pick(pairs);
  const strange = () => document.createNode(random.pick(random.pick(values)));
  const ways: readonly (() => void)[] = [
    () => {
      pair.value = strange();
    },
    () => {
      pair.key = document.createNode(random.pick(keys));
    },
    () => {
      pair.value = copyOf(donor.value);
    },
    () => {
      [pair.value, donor.value] = [copyOf(donor.value), copyOf(pair.value)];
    },
    () => {
      pair.value = document.createNode([pair.value, pair.value]);
    },
    () => {
      pair.value = document.createNode({ [random.pick(keys)]: pair.value });
    },
    () => {
      pair.value = null;
    },
    () => {
      if (isCollection(pair.value)) pair.value.flow = !pair.value.flow;
    },
    () => changeItems(pair.value, random),
    () => changeItems(pair.value, random),
    () => {
      if (isScalar(pair.value))
        pair.value.type = random.pick(["QUOTE_DOUBLE", "QUOTE_SINGLE", "BLOCK_FOLDED", "BLOCK_LITERAL"]);
    },
    () => {
      const strangers = pairsOf(parseDocument(halvesOf(other).yaml, { uniqueKeys: false, logLevel: "silent" }));
      const stranger = strangers.length > 0 ? random.pick(strangers) : pair;
      const { value } = pair;
      if (isMap(value)) value.items.push(copyOfPair(stranger));
      else pair.value = copyOf(stranger.value);
    },
  ];
  random.pick(ways)();
}

function changeItems(value: Node | null, random: Random): void {
  if (!isCollection(value) || value.items.length === 0) return;
  const { items } = value;
  const at = random.below(items.length);
  const item = items[at];
  const twin = isPair(item) ? copyOfPair(item as Pair<Node, Node | null>) : copyOf(item as Node | null);
  const ways: readonly (() => void)[] = [
    () => items.splice(at, 1),
    () => items.splice(random.below(items.length), 0, twin),
    () => items.splice(random.below(items.length), 0, ...items.splice(at, 1)),
    () => items.reverse(),
    () => items.splice(0, at),
  ];
  random.pick(ways)();
}

function copyOf(node: Node | null | undefined): Node | null {
  return (node?.clone() as Node | undefined) ?? null;
}

function copyOfPair(pair: Pair<Node, Node | null>): Pair<Node, Node | null> {
  return pair.clone() as Pair<Node, Node | null>;
}
