import { describe, expect, it } from "vitest";
import { assessHands } from "@/lib/hands/assess-hands";
import { barAtTempo } from "@/lib/hands/at-tempo";
import { findPassages } from "@/lib/hands/find-passages";
import { usualHands } from "@/lib/hands/hands-profile";
import { readScore } from "@/lib/musicxml/read-score";
import { readTempoMap } from "@/lib/score/tempo-map";
import { corpusFolder, readCorpusFile } from "./corpus-folder";

/**
 * Real piano parts, printed because somebody plays them: hardly a bar of them cannot be played. Beside each the bars that
 * are called the hardest, which a pianist who opens the score can judge.
 */
const hardest: readonly (readonly [file: string, bars: string])[] = [
  [
    "solo-piano/chopin_065-1-BH-001.mxl",
    "106–110 octaves in a row, right; 222–224 octaves in a row, right; 225–225 stretch, right",
  ],
  [
    "solo-piano/dobrzynski_monbar_16_aria.mxl",
    "169–177 repeated note, left; 188–193 run, left; 123–133 run, right",
  ],
  ["solo-piano/mlynarski_op11_1.mxl", "7–7 stretch, left; 117–119 run, left; 3–4 stretch, left"],
  ["solo-piano/wieniawski_op14_2.mxl", "15–15 stretch, left"],
  ["solo-piano/wieniawski_op22_1.mxl", "144–150 leap, left; 240–240 leap, left; 246–248 leap, left"],
  ["solo-piano/wieniawski_op22_2.mxl", "83–87 run, left; 15–15 stretch, left; 42–42 run, left"],
  [
    "solo-piano/wieniawski_op4.mxl",
    "33–33 stretch, left; 36–37 octaves in a row, right; 134–135 stretch, left",
  ],
  ["songs/bantock_old_fisherman.mxl", ""],
  ["songs/berlioz_nuits_d_ete_1_villanelle.mxl", ""],
  ["songs/haydn_mermaids_song.mxl", ""],
  ["songs/lang_abermals_am_see.mxl", "1–11 stretch, left; 128–138 stretch, left"],
  [
    "songs/schubert_erlkoenig.mxl",
    "137–137 repeated chord, left; 135–135 repeated chord, left; 136–136 repeated chord, right",
  ],
  ["songs/schumann_dichterliebe_9.mxl", ""],
  ["songs/wagner_wesendonck_5_traeume.mxl", "38–38 stretch, left"],
  [
    "pairs/chopin_op11_1_piano_with_tutti_reduction.mxl",
    "351–351 leap, left; 397–399 run, right; 456–458 leap, left",
  ],
  ["pairs/haydn_104_1_reduction.mxl", ""],
  ["pairs/moniuszko_ruiny_vocal_score.mxl", "36–36 stretch, left; 63–63 stretch, left"],
];

describe.skipIf(corpusFolder === null)("piano parts that are played", () => {
  it.each(hardest)("%s", (file, expected) => {
    const source = readScore(readCorpusFile(file));
    if (!source.ok) throw new Error(source.problem.kind);
    const { score } = source.value;
    const bars = assessHands(score, readTempoMap(score), usualHands).bars.map((bar) => barAtTempo(bar, 1));
    const played = bars.filter(({ printed }) => printed !== null);
    const impossible = played.filter(({ verdict }) => verdict === "not playable");
    expect(impossible.length / played.length).toBeLessThan(0.05);
    const told = findPassages(bars)
      .filter(({ isEasyWhenShared }) => !isEasyWhenShared)
      .sort((a, b) => b.difficulty - a.difficulty)
      .slice(0, 3)
      .map(({ fromBar, toBar, kind, hand }) => {
        return `${score.bars[fromBar]?.label}–${score.bars[toBar]?.label} ${kind}, ${hand}`;
      });
    expect(told.join("; ")).toBe(expected);
  });
});
