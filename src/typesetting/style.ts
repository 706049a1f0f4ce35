/** How a text is set; `figures` is bold with digits of one width and a plain zero, for times that stand under each other. */
export type Style = "regular" | "bold" | "italic" | "figures";

/**
 * A function of a text and its style that works each out once: a sheet tries several sizes, and a library says the same
 * things often. When there are very many it forgets them all.
 */
export function remembered<Found>(make: (text: string, style: Style) => NonNullable<Found>, most = 10_000) {
  const known: Record<Style, Map<string, NonNullable<Found>>> = {
    regular: new Map(),
    bold: new Map(),
    italic: new Map(),
    figures: new Map(),
  };
  return (text: string, style: Style): NonNullable<Found> => {
    const inStyle = known[style];
    const before = inStyle.get(text);
    if (before !== undefined) return before;
    const made = make(text, style);
    if (inStyle.size >= most) inStyle.clear();
    inStyle.set(text, made);
    return made;
  };
}
