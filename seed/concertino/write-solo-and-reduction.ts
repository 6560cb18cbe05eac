import { compose } from "./compose";
import { INSTRUMENTS } from "./instruments";
import type { PartContent } from "./musicxml/part";
import { scoreDocument } from "./musicxml/score";

/** The concertino movement for clarinet and piano: MusicXML 4.0, the solo part and the reduction. */
export function writeSoloAndReduction(): string {
  const { bars, orchestra, right, left, dynamics } = compose();
  const { solo } = INSTRUMENTS;
  const clarinet: PartContent = {
    id: "P1",
    ...solo,
    staves: [{ clef: solo.clef, first: orchestra.solo }],
    dynamics: [],
  };
  const piano: PartContent = {
    id: "P2",
    name: "Piano",
    abbreviation: "Pno.",
    sound: "keyboard.piano.grand",
    program: 1,
    writtenAbove: { diatonic: 0, chromatic: 0 },
    staves: [
      { clef: { sign: "G", line: 2 }, ...right },
      { clef: { sign: "F", line: 4 }, ...left },
    ],
    dynamics,
  };
  return scoreDocument([clarinet, piano], bars);
}
