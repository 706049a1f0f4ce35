import { type CST, type LineCounter, Parser } from "yaml";

/** More than is looked at, and where it begins. */
export interface TooMuch {
  readonly offset: number;
  readonly message: string;
}

const mostCharacters = 500_000;
const mostEntries = 50_000;
const deepest = 40;

const tooDeep = "Lists stand in lists too deep here: write it flatter.";

/** The tokens of a YAML text, as long as it is such as somebody could have written. */
export function tokensOf(text: string, counter: LineCounter): readonly CST.Token[] | TooMuch {
  if (text.length > mostCharacters) {
    const message = `There are more than ${mostCharacters} characters here: divide them over several files.`;
    return { offset: 0, message };
  }
  try {
    const tokens = [...new Parser(counter.addNewLine).parse(text)];
    return tooMuchIn(tokens) ?? tokens;
  } catch (error) {
    // The text nests deeper than calls can.
    if (error instanceof RangeError) return { offset: 0, message: tooDeep };
    throw error;
  }
}

/** What of any token leads further down. */
interface TokenPart {
  readonly offset?: number;
  readonly items?: readonly unknown[];
  readonly value?: unknown;
  readonly key?: unknown;
}

/* Walks with a list of its own: the tokens may nest deeper than calls can. */
function tooMuchIn(tokens: readonly CST.Token[]): TooMuch | undefined {
  let layer: readonly TokenPart[] = tokens;
  let entries = 0;
  // A mapping or list is two layers: itself and its entries.
  for (let deep = 0; layer.length > 0; deep++) {
    const offset = layer.find((part) => part.offset !== undefined)?.offset ?? 0;
    if (deep > 2 * deepest) return { offset, message: tooDeep };
    const below: TokenPart[] = [];
    for (const { items = [], value, key } of layer) {
      entries += items.length;
      for (const part of [...items, value, key]) if (typeof part === "object" && part !== null) below.push(part);
    }
    if (entries > mostEntries) {
      return { offset, message: `There are more than ${mostEntries} entries here: divide them over several files.` };
    }
    layer = below;
  }
  return undefined;
}
