import { existsSync, readdirSync, readFileSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";

const besideProject = fileURLToPath(new URL("../../../shared/corpus", import.meta.url));

function findFolder(): string | null {
  const folder = process.env.COLLA_CORPUS ?? besideProject;
  if (existsSync(folder)) return folder;
  console.log(`Skipped: no corpus of real scores at ${folder} (COLLA_CORPUS names another folder).`);
  return null;
}

/** Where real scores lie that the project does not contain; null, with a printed line, when they are absent. */
export const corpusFolder: string | null = findFolder();

const isScore = (file: string): boolean => /\.(mxl|musicxml|xml)$/.test(file);

/** Paths of scores inside the corpus, such as "songs/x.mxl", sorted; empty when the corpus is absent. */
export function corpusScores(...folders: readonly string[]): string[] {
  const root = corpusFolder;
  if (root === null) return [];
  return folders.flatMap((folder) =>
    readdirSync(path.join(root, folder))
      .filter(isScore)
      .toSorted()
      .map((file) => `${folder}/${file}`),
  );
}

export function readCorpusFile(file: string): Uint8Array {
  if (corpusFolder === null) throw new RangeError("The corpus is absent");
  return readFileSync(path.join(corpusFolder, file));
}
