/**
 * MusicXML text of a solo part with a piano reduction, as notation programs export it: indented, with stems, beams,
 * positions, slurs, articulations and dynamics; about 6 kB a bar, 3.6 MB for 600 bars. The same text each time.
 *
 * @param isTutti whether the soloist rests in a bar, by index: by default in eight of every 24.
 */
export function writeSyntheticScore(
  barCount: number,
  isTutti: (index: number) => boolean = (index) => index % 24 >= 16,
): string {
  const bars = Array.from({ length: barCount }, (_, index) => index);
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n',
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">\n',
    '<score-partwise version="4.0">\n  <work>\n    <work-title>Synthetic concerto</work-title>\n  </work>\n  <part-list>\n',
    '    <score-part id="P1">\n      <part-name>Clarinet in Bb</part-name>\n    </score-part>\n',
    '    <score-part id="P2">\n      <part-name>Piano</part-name>\n    </score-part>\n  </part-list>\n',
    '  <part id="P1">\n',
    ...bars.map((index) => writeSoloBar(index, isTutti(index))),
    '  </part>\n  <part id="P2">\n',
    ...bars.map(writePianoBar),
    "  </part>\n</score-partwise>\n",
  ].join("");
}

const divisions = 12;
const steps = ["C", "D", "E", "F", "G", "A", "B"];

function writeSoloBar(index: number, isTutti: boolean): string {
  const attributes = `      <attributes>
        <divisions>${divisions}</divisions>
        <key><fifths>2</fifths></key>
        <time><beats>4</beats><beat-type>4</beat-type></time>
        <clef><sign>G</sign><line>2</line></clef>
        <transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>
      </attributes>\n`;
  const head = `    <measure number="${index + 1}" width="412.55">\n${index === 0 ? attributes : ""}`;
  if (isTutti) {
    const rest = `      <note>\n        <rest measure="yes"/>\n        <duration>${4 * divisions}</duration>\n        <voice>1</voice>\n      </note>\n`;
    return `${head}${rest}    </measure>\n`;
  }
  const notes = Array.from({ length: 6 }, (_, at) =>
    writeNote(index * 5 + at, {
      octave: 5,
      duration: 8,
      type: "quarter",
      voice: 1,
      staff: null,
      place: at % 3,
      isTriplet: true,
    }),
  );
  return `${head}${writeDynamics(index, null)}${notes.join("")}    </measure>\n`;
}

function writePianoBar(index: number): string {
  const attributes = `      <attributes>
        <divisions>${divisions}</divisions>
        <key><fifths>0</fifths></key>
        <time><beats>4</beats><beat-type>4</beat-type></time>
        <staves>2</staves>
        <clef number="1"><sign>G</sign><line>2</line></clef>
        <clef number="2"><sign>F</sign><line>4</line></clef>
      </attributes>\n`;
  const right = Array.from({ length: 8 }, (_, at) =>
    writeNote(index * 3 + at, {
      octave: 4,
      duration: 6,
      type: "eighth",
      voice: 1,
      staff: 1,
      place: at % 4,
      isTriplet: false,
    }),
  );
  const left = Array.from({ length: 2 }, (_, at) => {
    const shape = {
      octave: 2,
      duration: 2 * divisions,
      type: "half",
      voice: 5,
      staff: 2,
      place: 0,
      isTriplet: false,
    };
    return writeNote(index + at, shape) + writeNote(index + at + 2, { ...shape, octave: 3, isChord: true });
  });
  const backup = `      <backup>\n        <duration>${4 * divisions}</duration>\n      </backup>\n`;
  const head = `    <measure number="${index + 1}" width="412.55">\n${index === 0 ? attributes : ""}`;
  return `${head}${writeDynamics(index, 1)}${right.join("")}${backup}${left.join("")}    </measure>\n`;
}

interface Shape {
  readonly octave: number;
  readonly duration: number;
  readonly type: string;
  readonly voice: number;
  readonly staff: number | null;
  /** In the beamed group. */
  readonly place: number;
  readonly isTriplet: boolean;
  readonly isChord?: boolean;
}

function writeNote(seed: number, shape: Shape): string {
  const beam =
    shape.type !== "eighth"
      ? ""
      : `        <beam number="1">${["begin", "continue", "continue", "end"][shape.place]}</beam>\n`;
  const triplet = shape.isTriplet
    ? "        <time-modification>\n          <actual-notes>3</actual-notes>\n          <normal-notes>2</normal-notes>\n        </time-modification>\n"
    : "";
  return [
    `      <note default-x="${(80.37 + 17.25 * shape.place).toFixed(2)}" default-y="-${(seed % 40) + 0.5}">\n`,
    shape.isChord ? "        <chord/>\n" : "",
    `        <pitch>\n          <step>${steps[seed % 7]}</step>\n          <octave>${shape.octave + (seed % 2)}</octave>\n        </pitch>\n`,
    `        <duration>${shape.duration}</duration>\n        <voice>${shape.voice}</voice>\n        <type>${shape.type}</type>\n${triplet}        <stem>up</stem>\n`,
    shape.staff === null ? "" : `        <staff>${shape.staff}</staff>\n`,
    beam,
    writeNotations(seed),
    "      </note>\n",
  ].join("");
}

function writeNotations(seed: number): string {
  if (seed % 4 === 1)
    return "        <notations>\n          <articulations>\n            <staccato/>\n          </articulations>\n        </notations>\n";
  return "";
}

function writeDynamics(index: number, staff: number | null): string {
  if (index % 4 !== 0) return "";
  const place = staff === null ? "" : `        <staff>${staff}</staff>\n`;
  return `      <direction placement="below">\n        <direction-type>\n          <dynamics>\n            <mf/>\n          </dynamics>\n        </direction-type>\n${place}      </direction>\n`;
}
