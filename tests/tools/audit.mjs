// Known faults in what ships and in what it is made with, since much of that is bundled. Ends with 0 where there is none, 1 where
// there are some, and 3 where the registry does not answer that question: then nobody knows, and it is not passed.
import { spawnSync } from "node:child_process";

const { stdout, stderr } = spawnSync("npm", ["audit", "--json"], { encoding: "utf8" });
const report = reportIn(stdout ?? "");
const total = report?.metadata?.vulnerabilities?.total;
if (typeof total === "number") {
  console.log(`Audited: ${total} known faults.`);
  process.exitCode = total === 0 ? 0 : 1;
} else {
  const [why] = (report?.error?.summary || report?.message || stderr || "no answer").split("\n");
  console.log(
    `NOT AUDITED: the registry in use did not say what faults are known (${why.replace(/https?:\S+/g, "it")}).`,
  );
  process.exitCode = 3;
}

function reportIn(text) {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
