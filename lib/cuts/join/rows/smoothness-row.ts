import { asGoodAsEqual } from "../find-precedent";
import type { JoinEdges } from "../join-edges";
import type { JoinGrade, JoinRow } from "../join-row";
import { findJoinSigns, precedentOf } from "../join-signs";
import { sayShare } from "../say-music";

/** Shares of the piece's own bar lines that are rougher: below the first a join is vetoed. Source: ours. */
export const tooRough = 0.05;
const somewhatRough = 0.1;

function gradeShare(share: number): JoinGrade {
  if (share < tooRough) return "rough";
  return share < somewhatRough ? "needs-a-touch" : "clean";
}

/** How readily the second side follows the first, among the piece's own places with the same beat. */
export function assessSmoothness({ heard, cut, before, after }: JoinEdges): JoinRow | null {
  if (!before || !after) return null;
  const share = findJoinSigns(heard, cut).smoothness;
  const precedent = precedentOf(heard, cut);
  const isMade = precedent !== null && precedent.likeness >= asGoodAsEqual;
  const grade = isMade ? "clean" : gradeShare(share);
  const place = cut.to.offset.num === 0 ? "bar lines" : "places at this beat";
  const much =
    share < tooRough
      ? `Rougher than nearly all of the piece's own ${place}`
      : `Smoother than ${sayShare(share)} of the piece's own ${place}`;
  return {
    kind: "smoothness",
    grade,
    sentence: isMade && share < somewhatRough ? `${much}, but the piece makes this join itself.` : `${much}.`,
    figures: { shareRougher: share },
    noteIds: [],
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
}
