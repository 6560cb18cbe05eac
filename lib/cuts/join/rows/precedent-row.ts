import { asGoodAsEqual, type Precedent } from "../find-precedent";
import { type JoinEdges, sayBar } from "../join-edges";
import type { JoinRow } from "../join-row";
import { precedentOf } from "../join-signs";
import type { Heard } from "../listen";

function say(heard: Heard, { kind, barIndex, semitones, likeness }: Precedent): string {
  const bar = sayBar(heard, barIndex);
  const [much, as] = likeness >= asGoodAsEqual ? ["", "as"] : ["nearly ", "much as"];
  const before = sayBar(heard, Math.max(0, barIndex - 1));
  if (kind === "same-before")
    return `What stands before the cut stands ${much}the same before ${bar}: the join sounds ${as} ${before} goes to ${bar}.`;
  if (kind === "same-after")
    return `The music goes on ${much}the same after the cut as without it: the join sounds ${as} ${before} goes to ${bar}.`;
  return `The composer makes ${much}this join at ${bar}${semitones === 0 ? "" : ", on another degree"}.`;
}

/** Where the piece makes the join itself. */
export function assessPrecedent({ heard, cut, before, after }: JoinEdges): JoinRow | null {
  if (!before || !after) return null;
  const precedent = precedentOf(heard, cut);
  return {
    kind: "precedent",
    grade: "clean",
    sentence: precedent ? say(heard, precedent) : "The piece makes this join nowhere itself.",
    figures: {
      precedent: precedent?.kind ?? null,
      likeness: precedent?.likeness ?? null,
      semitones: precedent?.semitones ?? null,
    },
    noteIds: [],
    bars: precedent ? [precedent.barIndex] : [],
  };
}
