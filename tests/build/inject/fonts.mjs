// Loaded before the command: no font can be read.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

const { readFileSync } = fs;
fs.readFileSync = (path, ...rest) => {
  if (/\.woff2?$/.test(String(path))) throw new Error("no font today");
  return readFileSync(path, ...rest);
};
syncBuiltinESMExports();
