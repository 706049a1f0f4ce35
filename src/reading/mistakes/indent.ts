import { longestLine, type Mistake, type Spot } from "./mistake.js";

/** A line as far as its place among the others matters. */
interface Step {
  readonly line: number;
  /** Column of its key, from 0, after the dashes of a list. */
  readonly column: number;
  readonly key: string;
  readonly dash: boolean;
  /** Whether the line ends with its colon, so that what belongs to it stands below. */
  readonly opens: boolean;
}

function stepsOf(lines: readonly string[]): Step[] {
  return lines.flatMap((text, index) => {
    if (text.length > longestLine) return [];
    const [, start = "", key] = /^( *(?:- +)*)("[^"]*"|'[^']*'|[^\s"'#[\]{},][^:]*?) *:(?: |$)/.exec(text) ?? [];
    if (key === undefined) return [];
    const opens = /: *(#.*)?$/.test(text);
    return [{ line: index + 1, column: start.length, key, dash: start.includes("-"), opens }];
  });
}

/* Where a line has to begin, from the lines before and after it; nothing where they do not tell. */
function aimOf(steps: readonly Step[], index: number): number | undefined {
  const [before, step, after] = [steps[index - 1], steps[index], steps[index + 1]];
  if (!before || !step || step.dash) return undefined;
  const follows = after && !after.dash ? after.column : -1;
  const around = steps.slice(0, index).map(({ column }) => column);
  if (step.opens) {
    if (around.includes(step.column)) return undefined;
    const isAlike = (other: Step) => /^\d/.test(other.key) === /^\d/.test(step.key) && other.column < follows;
    return steps.slice(0, index).findLast(isAlike)?.column;
  }
  // Nothing can belong to a line that is complete: so the one after it has the column.
  if (follows > step.column && around.includes(follows)) return follows;
  if (before.opens) return follows > before.column ? follows : before.column + 2;
  if (follows === before.column || step.column > before.column) return before.column;
  // A line that closes others begins where one of them began.
  return around.includes(step.column) ? step.column : around.findLast((column) => column > step.column);
}

/** A line that begins in another column than the lines that it belongs to. */
export function indent({ lines, line, code }: Spot): Mistake | undefined {
  if (!["BAD_INDENT", "BLOCK_AS_IMPLICIT_KEY", "MULTILINE_IMPLICIT_KEY", "MISSING_CHAR"].includes(code))
    return undefined;
  const steps = stepsOf(lines);
  const near = steps.findIndex((step) => step.line >= line);
  for (const index of [near - 1, near, near + 1]) {
    const step = steps[index];
    const aim = aimOf(steps, index);
    if (!step || aim === undefined || aim === step.column) continue;
    const beside = steps[index - 1]?.column === aim ? steps[index - 1] : steps[index + 1];
    return {
      line: step.line,
      column: step.column + 1,
      rule: "indent",
      message: `This line starts in column ${step.column + 1}, but the lines that it belongs to start in column ${aim + 1}${beside?.column === aim ? `, as \`${beside.key}\` does` : ""}.`,
      moved: true,
      fixed: (text, at) => (at === step.line ? `${" ".repeat(aim)}${text.trimStart()}` : text),
    };
  }
  return undefined;
}

/** Lines below a line that is complete in itself, and further in than it: a line between is missing, or all are too far in. */
export function block({ lines, line, code }: Spot): Mistake | undefined {
  if (code !== "BLOCK_AS_IMPLICIT_KEY" && code !== "MULTILINE_IMPLICIT_KEY") return undefined;
  const steps = stepsOf(lines);
  const index = steps.findIndex((step) => step.line === line);
  const [above, first] = [steps[index], steps[index + 1]];
  if (!above || !first || above.opens || first.column <= above.column) return undefined;
  const end = lines.findIndex((text, at) => at >= line && text.trim() !== "" && text.search(/\S/) <= above.column);
  const isInside = (at: number) => at > line && (end < 0 || at <= end);
  return {
    line: first.line,
    column: first.column + 1,
    rule: "indent",
    message: `This line stands further in than \`${above.key}\` above it, which is complete. Start both in the same column, or write the line that is missing between them.`,
    moved: true,
    fixed: (text, at) => (isInside(at) ? text.replace(" ".repeat(first.column - above.column), "") : text),
  };
}
