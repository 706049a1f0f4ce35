const named: Readonly<Record<string, string>> = {
  amp: "&",
  lt: "<",
  gt: ">",
  nbsp: " ",
  quot: '"',
  apos: "'",
  lrm: "",
  rlm: "",
};

/**
 * The words of a line of captions: no marks of a format, no names of sounds ("[music]"), nobody's name before what was said.
 *
 * @example plainText("<c.loud>&gt;&gt; INES: Step </c>[claps]") // "Step"
 */
export function plainText(line: string): string {
  return line
    .replace(/<[^<>]{0,200}>|\{\\[^{}]{0,200}\}/g, "")
    .replace(/&(#\d{1,7}|#x[\da-f]{1,6}|[a-z]{2,5});/gi, (whole, name: string) => characterOf(name) ?? whole)
    .replace(
      /\[[^\]]{0,80}\]|[♪♫♬]|\((?:[a-z ]{1,30}(?:music|laughs|laughter|claps|applause|inaudible)[a-z ]{0,30}|music|laughs|laughter|claps|applause|inaudible)\)/gi,
      " ",
    )
    .replace(/^\s*(?:>>+\s*)?(?:-\s+)?(?:\p{Lu}[\p{Lu} .'-]{1,30}:\s)?/u, "")
    .replace(/[\p{Cc}\p{Cf}]+/gu, " ")
    .replace(/\s+/g, " ")
    .trim();
}

function characterOf(name: string): string | undefined {
  if (!name.startsWith("#")) return named[name.toLowerCase()];
  const code = /^#x/i.test(name) ? Number.parseInt(name.slice(2), 16) : Number(name.slice(1));
  return code > 31 && code <= 0x10ffff && (code < 0xd800 || code > 0xdfff) ? String.fromCodePoint(code) : " ";
}
