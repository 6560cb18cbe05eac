import type { JoinEdges } from "../join-edges";
import type { JoinRow } from "../join-row";
import { isRepeat } from "../join-signs";
import { jumpBetween } from "../own-jumps";
import { phraseBegins } from "../places";

/** Jumps that so few of the piece's own bar lines make are heard. Source: ours. */
const rare = 0.05;

/** Register and number of voices on both sides, against how the piece itself changes them. */
export function assessTexture(edges: JoinEdges): JoinRow | null {
  const { heard, cut, before, after } = edges;
  if (!before || !after) return null;
  const [register, parts] = [jumpBetween("centroid", before, after), jumpBetween("parts", before, after)];
  const isRare = (kind: "centroid" | "parts", jump: number | null) =>
    jump !== null && jump > 0 && heard.jumps.shareAsLarge(kind, jump) < rare;
  const beginsPhrase = edges.toPlace.phraseStart >= phraseBegins;
  const jumps = [
    ...(isRare("centroid", register) ? ["the register"] : []),
    ...(isRare("parts", parts) ? ["the number of voices"] : []),
  ];
  const isHeard = jumps.length > 0 && !beginsPhrase && !isRepeat(edges);
  const what = jumps.join(" and ");
  const verb = jumps.length > 1 ? "change" : "changes";
  const sentence =
    jumps.length > 0
      ? `${what.charAt(0).toUpperCase()}${what.slice(1)} ${verb} suddenly${beginsPhrase ? ", with a new phrase" : ""}.`
      : "Register and voices go on much as before.";
  return {
    kind: "texture",
    grade: isHeard ? "needs-a-touch" : "clean",
    sentence,
    figures: { registerJumpSemitones: register, partsJump: parts },
    noteIds: [],
    bars: [cut.from.barIndex, cut.to.barIndex],
  };
}
