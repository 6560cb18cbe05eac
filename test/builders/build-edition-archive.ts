import { hashBytes } from "@/lib/edition/archive/archive-entries";
import type { ArchivedEdition, EditionArchive } from "@/lib/edition/archive/edition-archive";
import { toCutTerms } from "@/lib/edition/cut-terms";
import { type EditionContent, hashEdition, type Marks, noMarks } from "@/lib/edition/edition-content";
import { printedTempo } from "@/lib/edition/tempo-terms";
import { writeScore } from "@/lib/musicxml/write-score";
import type { CutSpan } from "@/lib/score/cut-span";
import { at, buildScore } from "./build-score";

const bars = (bar: string) => Array.from({ length: 20 }, () => bar).join(" | ");

/** Twenty bars of 4/4 at 60: a bar lasts four seconds. */
export const archivedScore = buildScore({
  ...{ title: "Concertino", metre: "4/4", tempo: 60 },
  ...{ solo: bars("c5:w"), piano: bars("c3:w") },
});

export const archivedSource = new TextEncoder().encode(writeScore(archivedScore));

/** What the three editions of `buildEditionArchive` leave out, unless the caller says otherwise. */
const usualCuts: readonly (readonly CutSpan[])[] = [
  [],
  [{ from: at(8), to: at(12) }],
  [
    { from: at(4, 2), to: at(5, 2) },
    { from: at(10), to: at(12) },
  ],
];

/** An archive whose editions have these cuts, one after the other, the last with these marks, approved by both players. */
export function buildEditionArchive(
  cutsOfEach = usualCuts,
  source = archivedSource,
  lastMarks: Partial<Marks> = {},
): EditionArchive {
  const sourceHash = hashBytes(source);
  const editions: ArchivedEdition[] = [];
  for (const [index, cuts] of cutsOfEach.entries()) {
    const number = index + 1;
    const content: EditionContent = {
      ...noMarks,
      ...(index === cutsOfEach.length - 1 ? lastMarks : {}),
      ...{ schema: 2, sourceHash, partRoles: { P1: "solo", P2: "reduction" } },
      cuts: cuts.map((cut) => toCutTerms(cut, sourceHash)),
      tempo: {
        ...printedTempo,
        tempi: [{ at: { barIndex: 16, offset: "0" }, quartersPerMinute: 60 + 20 * number }],
      },
    };
    const hash = hashEdition(content);
    const at = `2026-05-0${number}T10:00:00.000Z`;
    editions.push({
      ...{ number, hash, previousHash: editions.at(-1)?.hash ?? null, frozenAt: at, content },
      approvals: [
        { name: "Nerys Quill", role: "pianist", at: `2026-05-0${number}T09:00:00.000Z`, hash },
        { name: "Matthis Orban", role: "soloist", at, hash },
      ],
    });
  }
  return {
    piece: { title: "Concertino", movement: null, composer: "Ve\u0301ra N.", soloInstrument: "Flute" },
    rendererVersion: "engraver-1",
    editions,
    sources: [{ hash: sourceHash, fileName: "concertino.musicxml", bytes: source }],
  };
}
