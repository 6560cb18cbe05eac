import { compose } from "./compose";
import { INSTRUMENT_IDS, INSTRUMENTS } from "./instruments";
import type { PartContent } from "./musicxml/part";
import { scoreDocument } from "./musicxml/score";

/** The concertino movement as full score: MusicXML 4.0, eleven parts, the same bars as the reduction. */
export function writeFullScore(): string {
  const { bars, orchestra, dynamics, tenorClef } = compose();
  const parts = INSTRUMENT_IDS.map((id, i): PartContent => {
    const { clef, name, abbreviation, sound, program, writtenAbove } = INSTRUMENTS[id];
    return {
      id: `P${i + 1}`,
      name,
      abbreviation,
      sound,
      program,
      writtenAbove,
      staves: [{ clef, first: orchestra[id], tenorClefBars: tenorClef[id] }],
      dynamics: id === "solo" ? [] : dynamics,
    };
  });
  const partOf = (id: (typeof INSTRUMENT_IDS)[number]) => `P${INSTRUMENT_IDS.indexOf(id) + 1}`;
  return scoreDocument(parts, bars, [
    { first: partOf("fl"), last: partOf("hn") },
    { first: partOf("vl1"), last: partOf("cb") },
  ]);
}
