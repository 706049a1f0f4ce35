// Known faults in what ships and in what it is made with, since much of that is bundled, where the registry answers that
// question; a plain line where it does not.
import { spawnSync } from "node:child_process";

const { stdout, status } = spawnSync("npm", ["audit", "--json"], { encoding: "utf8" });
const report = JSON.parse(stdout || "{}");
if (report.metadata?.vulnerabilities === undefined) {
  console.log("Not audited: the registry in use does not answer audits.");
} else {
  const { total } = report.metadata.vulnerabilities;
  console.log(`Audited: ${total} known faults.`);
  process.exitCode = status ?? 1;
}
