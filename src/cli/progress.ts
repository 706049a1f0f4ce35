/** A line that says how far it is and what came last, on a terminal only; silent where the output goes elsewhere. */
export function showProgress(stream: NodeJS.WriteStream = process.stderr) {
  if (!stream.isTTY) return { tell: () => {}, clear: () => {} };
  return {
    tell: (finished: number, all: number, what: string) => {
      const line = `${finished} of ${all} ${what}`;
      stream.write(`\r\u001b[K${[...line].slice(0, (stream.columns ?? 80) - 1).join("")}`);
    },
    clear: () => {
      stream.write("\r\u001b[K");
    },
  };
}
