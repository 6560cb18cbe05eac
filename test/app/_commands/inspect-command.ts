import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll } from "vitest";

const root = fileURLToPath(new URL("../../..", import.meta.url));

/** A folder of its own for the files of one test file; it goes when the tests have run. `write` says where a file is. */
export function openFolder() {
  const folder = mkdtempSync(path.join(tmpdir(), "inspect-"));
  afterAll(() => rmSync(folder, { recursive: true }));
  const write = (name: string, content: string | Uint8Array): string => {
    const file = path.join(folder, name);
    writeFileSync(file, content);
    return file;
  };
  return { folder, write };
}

/** `npm run -s inspect -- …`, as it is called from the command line. */
export function inspect(...args: string[]) {
  const command = ["app/_commands/run-script.mjs", "app/_commands/inspect.ts", ...args];
  const { status, stdout, stderr } = spawnSync(process.execPath, command, { cwd: root, encoding: "utf8" });
  return { status, stdout, stderr };
}
