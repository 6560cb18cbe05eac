import { corpusFolder } from "../corpus/corpus-folder";
import type { Heard, Share } from "../corpus/heard-of-orchestra";
import { measurePair, pairs, settings } from "../corpus/rewrites-on-pairs";

type Row = Record<string, string | number>;

const percent = ({ kept, of }: Share): number => Math.round((1000 * kept) / Math.max(1, of)) / 10;

const say = ({ pitchClasses, melody, bass }: Heard): string =>
  [pitchClasses, melody, bass].map((share) => percent(share).toFixed(1)).join(" / ");

/** What of the orchestra is heard from the piano in awkward bars: pitch classes / melody / bass, in per cent. */
export const benchmark = {
  name: "Rewrites against the full score: pitch classes / melody / bass that are heard, per cent",
  async run(): Promise<Row[]> {
    if (corpusFolder === null) return [];
    return pairs.flatMap((pair) =>
      settings.map((setting): Row => {
        const figures = measurePair(pair, setting);
        const { before, after } = figures.difficulty;
        const mean = (sum: number) => Math.round(sum / Math.max(1, figures.rewritten));
        return {
          music: pair.name,
          hands: setting.hands,
          pace: setting.pace,
          passages: `${figures.rewritten} of ${figures.passages}`,
          bars: figures.bars,
          difficulty: `${mean(before)} → ${mean(after)}`,
          "as printed": say(figures.print),
          "our rewrite": say(figures.rewrite),
          "every other note": say(figures.everyOther),
          "inner notes": say(figures.innerOnly),
        };
      }),
    );
  },
};
