import type { JoinEdges } from "./join-edges";
import { findTorn } from "./rows/held-row";
import { findTornSlurs } from "./rows/slurs-row";
import { sayCount } from "./say-music";
import { findUpbeat } from "./upbeats";

/** One thing to change in the notes around a join when the edition is written. */
export interface WritersWork {
  readonly kind: "break-tie" | "strike-again" | "end-slur" | "begin-slur" | "mend-hairpin" | "add-upbeat";
  readonly sentence: string;
  readonly noteIds: readonly string[];
}

/** What the edition has to change at a join. All but the upbeat is done when it is written. */
export function findWritersWork(edges: JoinEdges): WritersWork[] {
  const { heard, cut, before, after, fromTicks, toTicks } = edges;
  const { broken, struckAgain } = findTorn(edges);
  const { ends, begins } = findTornSlurs(edges);
  const torn = (time: number) => heard.sides.signs.hairpins.some(({ from, to }) => from < time && to > time);
  const into = after ? findUpbeat(heard, cut.to.barIndex, toTicks) : null;
  const out = before ? findUpbeat(heard, cut.from.barIndex, fromTicks) : null;
  const work: WritersWork[] = [];
  const add = (kind: WritersWork["kind"], sentence: string, noteIds: readonly string[]) =>
    work.push({ kind, sentence, noteIds });
  if (broken.length > 0)
    add(
      "break-tie",
      `Let ${sayCount(broken.length, "note")} end at the cut.`,
      broken.map(({ id }) => id),
    );
  if (struckAgain.length > 0)
    add(
      "strike-again",
      `Strike ${sayCount(struckAgain.length, "held note")} again at the landing.`,
      struckAgain.map(({ id }) => id),
    );
  if (ends.length > 0)
    add(
      "end-slur",
      `End ${sayCount(ends.length, "slur")} at the cut.`,
      ends.map(({ firstNoteId }) => firstNoteId),
    );
  if (begins.length > 0)
    add(
      "begin-slur",
      `Begin ${sayCount(begins.length, "slur")} at the landing.`,
      begins.map(({ lastNoteId }) => lastNoteId),
    );
  if (torn(fromTicks) || torn(toTicks)) add("mend-hairpin", "End or begin the hairpin at the join.", []);
  if (into && !out) add("add-upbeat", "Add the upbeat to the landing before the join.", into.noteIds);
  return work;
}
