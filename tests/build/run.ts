import { type ChildProcess, spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, readlinkSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const root = resolve(import.meta.dirname, "../..");
const ownMain = join(root, "dist/cli/main.js");

export interface Run {
  readonly status: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
}

export interface RunOptions {
  readonly cwd?: string;
  /** The command itself; this checkout's, where left out. */
  readonly main?: string;
  readonly env?: Readonly<Record<string, string>>;
  /** A module of `inject/` that is loaded before the command, into every thread. */
  readonly inject?: string;
  /** Given the running process. */
  readonly meanwhile?: (child: ChildProcess) => void;
}

/** Runs the command as a process of its own. */
export function countleaf(args: readonly string[], options: RunOptions = {}): Promise<Run> {
  const inject =
    options.inject === undefined
      ? []
      : ["--import", pathToFileURL(join(import.meta.dirname, "inject", `${options.inject}.mjs`)).href];
  const child = spawn(process.execPath, [...inject, options.main ?? ownMain, ...args], {
    cwd: options.cwd ?? root,
    env: { ...process.env, ...options.env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const text = { out: "", err: "" };
  child.stdout.on("data", (data) => {
    text.out += data;
  });
  child.stderr.on("data", (data) => {
    text.err += data;
  });
  options.meanwhile?.(child);
  return new Promise((done, failed) => {
    child.on("error", failed);
    child.on("close", (status, signal) => done({ status, signal, ...text }));
  });
}

/** Every file below a folder and a digest of its bytes. A folder that is not there is undefined. */
export function treeOf(folder: string): Readonly<Record<string, string>> | undefined {
  if (!existsSync(folder)) return undefined;
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => !entry.isDirectory());
  const named = files.map((entry): [string, string] => {
    const path = join(entry.parentPath, entry.name);
    const bytes = entry.isSymbolicLink() ? readlinkSync(path) : readFileSync(path);
    return [path.slice(folder.length + 1).replaceAll("\\", "/"), createHash("sha256").update(bytes).digest("hex")];
  });
  return Object.fromEntries(named.sort(([a], [b]) => (a < b ? -1 : 1)));
}

/** What lies beside a published folder and should not: anything but the cache for the next build. */
export function litterBeside(out: string): readonly string[] {
  const beside = `.countleaf-${basename(out)}`;
  const files = readdirSync(dirname(out), { recursive: true, encoding: "utf8" });
  const ours = [basename(out), beside, join(beside, "cache.json")];
  return files.filter((name) => !ours.includes(name) && !name.startsWith(join(basename(out), "/")));
}

/** A routine of one phrase. */
export function routineText(title: string, cue = "Step right and close"): string {
  return `---
title: ${title}
choreographer: Ines Varga
date: 2026-10-02
music: { tempo: 96, accents: [4], first-count: 0:14.2 }
start: { facing: front, weight: left }
sections:
  - name: Kerb
    counts:
      - 1-2: { do: ${cue}, step: [right, left] }
        3-4: { do: Clap, hit: true }
        5-8: hold
---
A routine of one phrase.
`;
}

/** Writes a content folder: files by their path in it. */
export function writeContent(folder: string, files: Readonly<Record<string, string>>): void {
  for (const [path, text] of Object.entries({ "library.yaml": "name: Kerbside Room\n", ...files })) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

/** Puts a copy of a folder in another one's place. */
export function replaceFolder(from: string, to: string): void {
  rmSync(to, { recursive: true, force: true });
  cpSync(from, to, { recursive: true });
}
