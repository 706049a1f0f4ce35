/**
 * What somebody said as words alone. Captions come from anywhere: no sign stays that means something to a file, to Markdown, to a
 * page or to a terminal, none that nobody sees, and no address that a page would make a link of.
 *
 * @param most characters
 * @example plainWords("step_[left](javascript:x)\n# and clap") // "step left javascript x and clap"
 */
export function plainWords(text: string, most = 120): string {
  const plain = text
    .normalize("NFC")
    .replace(/[\p{Default_Ignorable_Code_Point}\p{Cf}\p{Me}]+/gu, "")
    .replace(/[^\p{L}\p{M}\p{N}.,;!?'’()&%+-]+/gu, " ")
    .replace(/[.,;!?]+(?=[^\s.,;!?)])/g, (signs) => (/^[,;]/.test(signs) ? `${signs} ` : " "))
    .replace(/\s+/g, " ")
    .replace(/^[^\p{L}\p{N}]+/u, "")
    .trim();
  const letters = [...plain];
  return letters.length <= most
    ? plain
    : `${letters
        .slice(0, most - 1)
        .join("")
        .trimEnd()}…`;
}
