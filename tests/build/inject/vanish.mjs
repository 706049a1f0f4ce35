// Loaded before the command: the file COUNTLEAF_VANISH is gone as soon as its folder has been listed.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { dirname, resolve } from "node:path";

const { COUNTLEAF_VANISH: file } = process.env;
const { readdir } = fs.promises;
fs.promises.readdir = async (folder, ...rest) => {
  const names = await readdir(folder, ...rest);
  if (resolve(String(folder)) === dirname(file)) fs.rmSync(file, { force: true });
  return names;
};
syncBuiltinESMExports();
