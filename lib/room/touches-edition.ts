import type { RecordChange } from "./find-changed-records";

/** Whether a change is of something that an edition is made of: a breath, a cue, or a comment that is or was to be printed. */
export function touchesEdition({ map, before, after }: RecordChange): boolean {
  if (map === "breaths" || map === "cues") return true;
  return map === "comments" && (isPrinted(before) || isPrinted(after));
}

function isPrinted(record: unknown): boolean {
  return (record as { print?: unknown } | undefined)?.print === true;
}
