import type { CutSpan } from "@/lib/score/cut-span";
import { findJoinEdges, type JoinEdges } from "./join-edges";
import { type JoinGrade, type JoinRow, worstGrade } from "./join-row";
import { findJoinSigns, type JoinSigns } from "./join-signs";
import { linkNotes } from "./link-notes";
import type { Heard } from "./listen";
import { findRepair, type RepairedJoin } from "./repair-join";
import { assessHarmony } from "./rows/harmony-row";
import { assessHeld } from "./rows/held-row";
import { assessKey } from "./rows/key-row";
import { assessLeadIn } from "./rows/lead-in-row";
import { assessLoudness } from "./rows/loudness-row";
import { assessMelody } from "./rows/melody-row";
import { assessMetre } from "./rows/metre-row";
import { assessPhrase } from "./rows/phrase-row";
import { assessPrecedent } from "./rows/precedent-row";
import { assessRest } from "./rows/rest-row";
import { assessSlurs } from "./rows/slurs-row";
import { assessSmoothness } from "./rows/smoothness-row";
import { assessTempo } from "./rows/tempo-row";
import { assessTexture } from "./rows/texture-row";
import { assessTheme } from "./rows/theme-row";
import { assessUpbeat } from "./rows/upbeat-row";
import { findWritersWork, type WritersWork } from "./writers-work";

/** What is heard where a cut brings two places together. */
export interface JoinAssessment {
  readonly cut: CutSpan;
  /** The worst of the rows. */
  readonly grade: JoinGrade;
  /** In a fixed order: key, harmony, phrase, melody and loudness first, the five that a card draws. */
  readonly rows: readonly JoinRow[];
  readonly signs: JoinSigns;
  /** What has to be written anew around the join, whatever the grade. */
  readonly toWrite: readonly WritersWork[];
  /** The same cut moved a little, where that is graded better; null where it is not. */
  readonly repaired: RepairedJoin | null;
}

const rowsInOrder: readonly ((edges: JoinEdges) => JoinRow | null)[] = [
  assessKey,
  assessHarmony,
  assessPhrase,
  assessMelody,
  assessLoudness,
  assessMetre,
  assessHeld,
  assessSlurs,
  assessUpbeat,
  assessTexture,
  assessTempo,
  assessLeadIn,
  assessRest,
  assessTheme,
  assessPrecedent,
  assessSmoothness,
];

/** The rows alone, for searching: not all of them are linked to notes yet. Ask `checkCut` first. */
export function assessRows(heard: Heard, cut: CutSpan): JoinRow[] {
  return rowsOf(findJoinEdges(heard, cut));
}

const rowsOf = (edges: JoinEdges): JoinRow[] => rowsInOrder.flatMap((assess) => assess(edges) ?? []);

/**
 * Judges the join of one cut, with evidence for every verdict. A row that does not apply is left out: without music on
 * one side there is nothing to compare, and without a solo part no lead-in.
 *
 * @throws RangeError if the cut cannot be made; ask `checkCut` first.
 */
export function assessJoin(heard: Heard, cut: CutSpan): JoinAssessment {
  const checked = heard.checkCut(cut);
  if (!checked.ok) throw new RangeError(`Not a cut that can be made: ${checked.problem.kind}`);
  const edges = findJoinEdges(heard, cut);
  const rows = rowsOf(edges);
  const grade = worstGrade(rows.map((row) => row.grade));
  return {
    cut,
    grade,
    rows: rows.map((row) => linkNotes(edges, row)),
    signs: findJoinSigns(heard, cut),
    toWrite: findWritersWork(edges),
    repaired: grade === "clean" ? null : findRepair(heard, cut, rows, (other) => assessRows(heard, other)),
  };
}
