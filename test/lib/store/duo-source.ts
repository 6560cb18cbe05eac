/** What a source for a duo is made of; everything has a default. */
export interface DuoSource {
  readonly title?: string;
  readonly bars?: number;
  /** Bars, by index, in which the soloist rests. */
  readonly tutti?: readonly [from: number, to: number];
}

/**
 * A clarinet in B flat and a piano in 4/4 at 120 quarters a minute, as MusicXML bytes: one whole note a bar in each,
 * except that the clarinet rests in the tutti.
 */
export function duoSource({ title = "Concertino", bars = 24, tutti = [8, 16] }: DuoSource = {}): Uint8Array {
  const indices = Array.from({ length: bars }, (_, index) => index);
  const isTutti = (index: number) => index >= tutti[0] && index < tutti[1];
  const solo = indices.map((index) => bar(index, soloStart, isTutti(index) ? rest : note("C", 5)));
  const piano = indices.map((index) =>
    bar(index, "", `${note("C", 4)}${backup}${note("C", 3, 2)}`, pianoStart),
  );
  return new TextEncoder().encode(`<?xml version="1.0" encoding="UTF-8"?>
<score-partwise version="4.0">
  <work><work-title>${title}</work-title></work>
  <part-list>
    <score-part id="P1"><part-name>Clarinet in B♭</part-name></score-part>
    <score-part id="P2"><part-name>Piano</part-name></score-part>
  </part-list>
  <part id="P1">${solo.join("")}</part>
  <part id="P2">${piano.join("")}</part>
</score-partwise>`);
}

const time = "<time><beats>4</beats><beat-type>4</beat-type></time>";
const soloStart = `<attributes><divisions>1</divisions><key><fifths>0</fifths></key>${time}<clef><sign>G</sign><line>2</line></clef>
  <transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes><sound tempo="120"/>`;
const pianoStart = `<attributes><divisions>1</divisions><key><fifths>0</fifths></key>${time}<staves>2</staves>
  <clef number="1"><sign>G</sign><line>2</line></clef><clef number="2"><sign>F</sign><line>4</line></clef></attributes>`;
const rest = `<note><rest measure="yes"/><duration>4</duration><voice>1</voice></note>`;
const backup = "<backup><duration>4</duration></backup>";

function note(step: string, octave: number, staff?: number): string {
  const place = staff === undefined ? "" : `<staff>${staff}</staff>`;
  return `<note><pitch><step>${step}</step><octave>${octave}</octave></pitch><duration>4</duration><voice>${staff ?? 1}</voice><type>whole</type>${place}</note>`;
}

function bar(index: number, soloAttributes: string, music: string, attributes = soloAttributes): string {
  return `<measure number="${index + 1}">${index === 0 ? attributes : ""}${music}</measure>`;
}
