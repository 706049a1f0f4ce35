// Loaded before the command: keeps a list of what is about to be changed on the disk, a line each, in the file COUNTLEAF_OPS,
// and from line COUNTLEAF_FAULT_AT (a number, the first is 1, or how it begins) does what COUNTLEAF_FAULT says: "kill" ends the process, an error code makes
// every call fail from there on; ENOSPC those only that need room.
import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";

const { fstatSync, openSync, writeSync } = fs;
const { COUNTLEAF_OPS: list, COUNTLEAF_FAULT: fault, COUNTLEAF_FAULT_AT: at = "" } = process.env;

const width = 200;
const file = openSync(list, "a");

function about(name, path) {
  writeSync(file, `${`${name} ${path}`.padEnd(width - 1).slice(0, width - 1)}\n`);
  const number = fstatSync(file).size / width;
  if (fault === undefined || !(/^\d+$/.test(at) ? number >= Number(at) : `${name} ${path}`.startsWith(at))) return;
  if (fault === "kill") process.kill(process.pid, "SIGKILL");
  if (fault === "ENOSPC" && !/^(writeFile|mkdir|copyFile|cp|link)/.test(name)) return;
  throw Object.assign(new Error(`${fault}: injected, ${name} '${path}'`), { code: fault, path: String(path) });
}

function watch(object, name, refuse) {
  const real = object[name];
  object[name] = function (...args) {
    try {
      about(name, args[0]);
    } catch (error) {
      return refuse(error, args);
    }
    return real.apply(this, args);
  };
}

const names = ["writeFile", "mkdir", "rename", "rm", "rmdir", "copyFile", "cp", "link", "unlink"];
for (const name of names) {
  watch(fs, `${name}Sync`, (error) => {
    throw error;
  });
  watch(fs.promises, name, (error) => Promise.reject(error));
  watch(fs, name, (error, args) => void args.at(-1)(error));
}
syncBuiltinESMExports();
