import type { JoinEdges } from "../join-edges";
import type { JoinGrade, JoinRow } from "../join-row";
import { findJoinSigns } from "../join-signs";

/** Rougher than 95 % of the piece's own bar lines is too rough; see `isTooRough`. Source: the shares are ours. */
export const tooRough = 0.05;
const somewhatRough = 0.1;

/** How readily the second side follows the first, among the piece's own bar lines. */
export function assessSmoothness({ heard, cut, before, after }: JoinEdges): JoinRow | null {
  if (!before || !after) return null;
  const share = findJoinSigns(heard, cut).smoothness;
  const grade: JoinGrade = share < tooRough ? "rough" : share < somewhatRough ? "needs-a-touch" : "clean";
  const percent = Math.round(100 * share);
  const place = cut.to.offset.num === 0 ? "bar lines" : "places at this beat";
  const sentence =
    grade === "rough"
      ? `Rougher than nearly all of the piece's own ${place}.`
      : `Smoother than ${percent} % of the piece's own ${place}.`;
  return {
    kind: "smoothness",
    grade,
    sentence,
    figures: { shareRougher: share },
    noteIds: [],
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
}
