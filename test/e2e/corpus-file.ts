import fs from "node:fs";
import path from "node:path";
import { root } from "@/app/_commands/folders.mjs";

/** A real score beside the project, or in the folder named by `COLLA_CORPUS`; null when it is not there. */
export function findCorpusFile(name: string): string | null {
  const folder = process.env.COLLA_CORPUS ?? path.join(root, "..", "shared", "corpus");
  const file = path.join(folder, name);
  return fs.existsSync(file) ? file : null;
}
