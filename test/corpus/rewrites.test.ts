import { describe, expect, it } from "vitest";
import { corpusFolder } from "./corpus-folder";
import type { Heard, Share } from "./heard-of-orchestra";
import { measurePair, pairs, settings } from "./rewrites-on-pairs";

const shareOf = ({ kept, of }: Share) => kept / of;
const kinds = ["pitchClasses", "melody", "bass"] as const satisfies readonly (keyof Heard)[];

/** What a rewrite keeps at least of what the print gives of the orchestra. Figures: `npm run bench -- rewrite-fidelity`. */
const leastOfPrint = { pitchClasses: 0.8, melody: 0.94, bass: 0.98 };

const cases = pairs.flatMap((pair) => settings.map((setting) => ({ pair, setting })));

/** Against something outside: the full score, in the bars that are awkward in the reduction. */
describe.skipIf(corpusFolder === null)("what of the orchestra is heard in a rewrite", () => {
  it.each(cases)("$pair.name, $setting.hands at $setting.pace of the tempo", ({ pair, setting }) => {
    const figures = measurePair(pair, setting);
    expect(figures.rewritten / figures.passages).toBeGreaterThan(0.75);
    expect(figures.difficulty.after).toBeLessThan(0.9 * figures.difficulty.before);
    for (const kind of kinds) {
      expect(figures.print[kind].of, kind).toBeGreaterThan(15);
      const [print, rewrite] = [shareOf(figures.print[kind]), shareOf(figures.rewrite[kind])];
      expect(rewrite / print, kind).toBeGreaterThan(leastOfPrint[kind]);
      // A thinning without any thought loses more of everything.
      expect(shareOf(figures.everyOther[kind]), kind).toBeLessThan(rewrite - 0.03);
    }
    // Without their outer notes chords lose the melody or the bass.
    expect(shareOf(figures.innerOnly.melody) + shareOf(figures.innerOnly.bass)).toBeLessThanOrEqual(
      shareOf(figures.rewrite.melody) + shareOf(figures.rewrite.bass),
    );
  });
});
