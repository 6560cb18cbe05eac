import type { ZipProblem } from "@/lib/zip/zip-problem";
import { archiveLimits } from "./archive-limits";

/** Why an exported edition cannot be read at all. */
export type ArchiveProblem =
  | { readonly kind: "not-an-archive" }
  | { readonly kind: "file-too-large"; readonly byteLength: number }
  | { readonly kind: "not-unpacked"; readonly problem: ZipProblem }
  | { readonly kind: "file-missing"; readonly name: string }
  /** `fault`: where in it, and what was expected. */
  | { readonly kind: "file-unreadable"; readonly name: string; readonly fault: string };

const megabytes = (bytes: number) => `${Math.round(bytes / 1e6)} MB`;

/** What an archive was meant to be. */
export type ArchiveKind = "edition" | "piece";

const notOne = {
  edition:
    "This is not an exported edition (a .zip file). Choose the file that was downloaded as “edition.zip”.",
  piece:
    "This is not a piece that was taken away (a .zip file). Choose the file that was saved under “Take it with you”.",
} as const satisfies Record<ArchiveKind, string>;

const unsafeReasons = {
  "too-many-entries": `it holds more than ${archiveLimits.entries} files`,
  "too-large": `it unpacks to more than ${megabytes(archiveLimits.totalBytes)}, or a file in it to more than ${megabytes(archiveLimits.entryBytes)}`,
  ratio: "it unpacks to far more than any score of its size would",
  "false-size": "it unpacks to another size than it says",
} as const;

/**
 * One or two sentences: what is wrong and what to do. File names and faults may hold text of the file's own.
 *
 * @param of what the file was meant to be.
 */
export function sayArchiveProblem(problem: ArchiveProblem, of: ArchiveKind = "edition"): string {
  const askAgain = `Export the ${of} again, or ask for another copy.`;
  switch (problem.kind) {
    case "not-an-archive":
      return notOne[of];
    case "file-too-large":
      return `The file is ${megabytes(problem.byteLength)}; at most ${megabytes(archiveLimits.fileBytes)} are read.`;
    case "not-unpacked":
      return sayZipProblem(problem.problem, askAgain);
    case "file-missing":
      return `The archive is not whole: ${problem.name.slice(0, 100)} is missing. ${askAgain}`;
    case "file-unreadable":
      return `In the archive, ${problem.name.slice(0, 100)} is not what it should be (${problem.fault.slice(0, 200)}). ${askAgain}`;
  }
}

function sayZipProblem(problem: ZipProblem, askAgain: string): string {
  switch (problem.kind) {
    case "broken":
      return `The archive is damaged or cut off. ${askAgain}`;
    case "encrypted":
      return "The archive is locked with a password. Save it without one.";
    case "unsafe":
      return `The archive was not unpacked: ${unsafeReasons[problem.reason]}. ${askAgain}`;
  }
}
