import fs from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../..", import.meta.url));

/** Every place where somebody from outside can reach the product, by file, sorted. */
export function findEdges(): { actions: string[]; routes: string[]; pages: string[] } {
  const files = fs
    .readdirSync(path.join(root, "app"), { recursive: true, encoding: "utf8" })
    .map((file) => `app/${file.split(path.sep).join("/")}`)
    .sort();
  return {
    actions: files.filter((file) => file.endsWith(".ts") && isAction(file)),
    routes: files.filter((file) => /\/route\.tsx?$/.test(file)),
    pages: files.filter((file) => /\/page\.tsx?$/.test(file)),
  };
}

/** Whatever file says so, wherever it lies: what it exports can be called from outside. */
function isAction(file: string): boolean {
  return /^\s*["']use server["']/m.test(fs.readFileSync(path.join(root, file), "utf8"));
}
