import { describe, expect, test } from "vitest";
import { hashText } from "@/lib/edition/hash-terms";
import { rewriteTermsSchema } from "@/lib/edition/rewrite-terms";
import { assessHands } from "@/lib/hands/assess-hands";
import { barAtTempo } from "@/lib/hands/at-tempo";
import { usualHands } from "@/lib/hands/hands-profile";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeRewrites } from "@/lib/musicxml/rewrite/write-rewrites";
import { scoreFromTree } from "@/lib/musicxml/score-from-tree";
import { assignRoles } from "@/lib/score/assign-roles";
import { readTempoMap } from "@/lib/score/tempo-map";
import { rewritePassage } from "@/lib/study/rewrite-passage";
import { UNPIANISTIC_PLACES } from "@/seed/concertino/planted";
import { writeSoloAndReduction } from "@/seed/concertino/write-solo-and-reduction";

const tree = readTree(new TextEncoder().encode(writeSoloAndReduction()));
if (!tree.ok) throw new Error(tree.problem.kind);
const { score } = scoreFromTree(tree.value);
const map = readTempoMap(score);
const { bars: demands } = assessHands(score, map, usualHands);
const indexOf = (label: string) => score.bars.find((bar) => bar.label === label)?.index ?? -1;

const offersFor = ({ bars }: (typeof UNPIANISTIC_PLACES)[number]) =>
  rewritePassage({
    ...{ score, map, demands, hands: usualHands, pace: 1, sourceHash: hashText("the concertino") },
    fromBar: indexOf(bars.from),
    toBar: indexOf(bars.to),
  });

describe.each(UNPIANISTIC_PLACES)("$kind in bars $bars.from to $bars.to", (place) => {
  const offers = offersFor(place);
  const [best] = offers;

  test("can be written so that it lies under the hands", () => {
    expect(offers.length).toBeGreaterThan(1);
    expect(best?.difficultyAfter).toBeLessThan(50);
    for (const { difficultyBefore, difficultyAfter } of offers)
      expect(difficultyAfter).toBeLessThan(difficultyBefore);
  });

  test("keeps bass, top line and harmony first of all", () => {
    const shareOf = ({ kept, of }: { kept: number; of: number }) => kept / of;
    expect(shareOf(best?.fidelity.bass ?? { kept: 0, of: 1 })).toBe(1);
    expect(shareOf(best?.fidelity.topLine ?? { kept: 0, of: 1 })).toBeGreaterThan(0.95);
    expect(shareOf(best?.fidelity.harmony ?? { kept: 0, of: 1 })).toBeGreaterThan(0.85);
  });

  test("its terms are those of an edition", () => {
    for (const { terms } of offers) expect(rewriteTermsSchema.parse(terms)).toEqual(terms);
  });

  test("written into the source and read again, the bars are as long as before and no harder than was said", () => {
    for (const { terms } of offers) {
      const written = writeRewrites(tree.value, score, [{ ...terms, shown: "in place" }]);
      const roles = Object.fromEntries(score.parts.map(({ id, role }) => [id, role]));
      const again = assignRoles(scoreFromTree(written).score, roles);
      expect(again.bars.map(({ length }) => length)).toEqual(score.bars.map(({ length }) => length));
      const read = assessHands(again, readTempoMap(again), usualHands).bars;
      const verdicts = read
        .slice(terms.from.barIndex, terms.to.barIndex + 1)
        .map((bar) => barAtTempo(bar, 1).verdict);
      expect(verdicts).not.toContain("not playable");
    }
  });
});
