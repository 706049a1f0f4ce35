// Loaded before a command that is measured: writes what the whole process has used, threads included, to a file as it ends.
import { writeFileSync } from "node:fs";
import { isMainThread } from "node:worker_threads";

if (isMainThread)
  process.on("exit", () => {
    const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
    writeFileSync(
      process.env.COUNTLEAF_USAGE,
      JSON.stringify({ cpu: (userCPUTime + systemCPUTime) / 1e6, megabytes: maxRSS / 1024 }),
    );
  });
