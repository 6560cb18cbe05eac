import { checkPieceArchive, type PieceCheck } from "@/lib/archive/check-piece-archive";
import { type ReadPieceArchive, readPieceArchive } from "@/lib/archive/read-piece-archive";
import { sayArchiveProblem } from "@/lib/edition/archive/archive-problem";
import { failure, type Result, success } from "@/lib/score/result";
import { findMusicFaults } from "./piece-music";

/** Something that was looked at in a piece that was taken along. */
export interface InspectedCheck {
  readonly about: PieceCheck["about"] | "music";
  readonly holds: boolean;
  readonly sentences: readonly string[];
}

export interface InspectedPiece {
  readonly read: ReadPieceArchive;
  readonly checks: readonly InspectedCheck[];
  /** Whether all of them hold. */
  readonly isWhole: boolean;
}

/**
 * Reads a piece that was taken along and checks all that can be checked without the server it came from: files, hashes,
 * seal, chain, agreement, people, and whether everything can be played in its music.
 *
 * @returns or, when files of it cannot be read at all, a sentence for each.
 */
export function inspectPiece(bytes: Uint8Array): Result<InspectedPiece, readonly string[]> {
  const read = readPieceArchive(bytes);
  if (!read.ok) return failure(read.problem.map((problem) => sayArchiveProblem(problem, "piece")));
  const checked = checkPieceArchive(read.value);
  const checks = [...checked, checkMusic(read.value, checked)];
  return success({ read: read.value, checks, isWhole: checks.every(({ holds }) => holds) });
}

/** What is not what was packed is not looked into further. */
function checkMusic({ archive }: ReadPieceArchive, checked: readonly PieceCheck[]): InspectedCheck {
  const isMusicHere = checked.every(
    ({ about, holds }) => holds || (about !== "sources" && about !== "piece"),
  );
  const faults = isMusicHere ? findMusicFaults(archive) : [];
  const right = isMusicHere
    ? "Every cut, tempo and rest can be played in its music."
    : "Whether it can be played was not looked at.";
  return {
    about: "music",
    holds: faults.length === 0,
    sentences: faults.length === 0 ? [right] : faults,
  };
}

/** A sentence for everything that is wrong with an archive; none when it may be brought in. */
export function listPieceFaults(inspected: Result<InspectedPiece, readonly string[]>): readonly string[] {
  if (!inspected.ok) return inspected.problem;
  return inspected.value.checks.flatMap(({ holds, sentences }) => (holds ? [] : sentences));
}
