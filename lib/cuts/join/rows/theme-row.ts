import { type JoinEdges, sayBar } from "../join-edges";
import type { JoinRow } from "../join-row";
import { findThemesKept } from "../themes";

/** Whether the themes that the cut takes are heard elsewhere. */
export function assessTheme({ heard, cut, fromPlace, toPlace }: JoinEdges): JoinRow | null {
  const { heardElsewhere, lost } = findThemesKept(heard.themes, fromPlace.bar, toPlace.bar);
  const [first] = lost;
  const common = { kind: "theme" as const, noteIds: [] };
  const figures = { kept: heardElsewhere.map(({ from }) => from), lost: [...lost] };
  if (first !== undefined) {
    const sentence = `The passage from ${sayBar(heard, first)} on is heard nowhere outside the cut.`;
    return { ...common, grade: "needs-a-touch", sentence, figures, bars: [...lost] };
  }
  const [kept] = heardElsewhere;
  const sentence = kept
    ? `What begins in ${sayBar(heard, kept.from)} is heard ${kept.elsewhere < kept.from ? "before it" : "again"}, from ${sayBar(heard, kept.elsewhere)} on.`
    : "The cut takes no theme that the piece comes back to.";
  const bars = kept ? [kept.from, kept.elsewhere] : [cut.from.barIndex, cut.to.barIndex];
  return { ...common, grade: "clean", sentence, figures, bars };
}
