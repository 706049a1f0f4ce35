/** Whether a chapter's title speaks of a run rather than of teaching: "Run-through: Verse", "Verse, full tempo". */
export function isRunThrough(title: string): boolean {
  return runs.test(title);
}

const runs =
  /\brun[- ]?throughs?\b|\bfrom the top\b|\b(?:full|up to) (?:tempo|speed)\b|\b(?:to|with) (?:the )?(?:music|song|track)\b|\ball together\b|\bwhole (?:dance|routine|thing)\b|\b(?:recap|review|practi[cs]e)\b/i;
