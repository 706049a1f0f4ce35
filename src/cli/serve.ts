import { errorText } from "../build/error-text.js";
import { serveLibrary } from "../build/live/serve.js";
import { formatFindings } from "../reading/report.js";
import { readArguments } from "./arguments.js";
import { done, usageError } from "./status.js";

const usage = "countleaf serve [--content DIR] [--port NUMBER] [--host ADDRESS]\n";

export async function serveCommand(args: readonly string[]): Promise<number> {
  const given = readArguments(args, usage, ["content", "port", "host"]);
  if (typeof given === "number") return given;
  const { content = "content", port, host } = given.options;
  if (port !== undefined && !(/^\d+$/.test(port) && Number(port) < 65536)) {
    process.stderr.write(`countleaf: \`--port\` is a number below 65536, not ${port}\n${usage}`);
    return usageError;
  }
  const calledOff = new Promise((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.once(signal, resolve);
  });
  let last = "";
  const serving = await serveLibrary({
    content,
    ...(port === undefined ? {} : { port: Number(port) }),
    ...(host === undefined ? {} : { host }),
    told: ({ findings, sources }) => {
      const text = formatFindings(findings, sources);
      if (text !== last) process.stderr.write(text || "All is mended.\n");
      last = text;
    },
    failed: (error) => process.stderr.write(`countleaf: ${errorText(error)}\n`),
  });
  process.stdout.write(`The library is at ${serving.address} and follows what you save. Ctrl-C ends it.\n`);
  await calledOff;
  await serving.close();
  return done;
}
