/**
 * Texts that would act if any page took them for markup. Each calls `acted` with the place it was written in, and
 * each element carries `data-hostile`, so that it is found even where it does nothing.
 */
export const hostile = {
  title: `Sonata</title><script data-hostile>acted("title")</script>`,
  movement: `Lento <img data-hostile src=x onerror=acted("movement")>`,
  composer: `O. Vell <svg data-hostile onload=acted("composer")>`,
  soloName: `Oboe"><img data-hostile src=x onerror='acted("solo")'>`,
  pianoName: `Piano</svg><iframe data-hostile srcdoc="<script>parent.acted('piano')</script>">`,
  partId: `P1"><b data-hostile onfocus=acted("id") autofocus tabindex=1>`,
  // No longer: of a bar number 40 characters are kept.
  barNumber: `7"><img src=x onerror=acted()>`,
  tempo: `Andante {{acted("tempo")}} \${acted("tempo")}`,
  words: `dolce <a data-hostile href="javascript:acted('words')">x</a>`,
  fromCdata: `<details data-hostile open ontoggle=acted("cdata")>`,
  escapedTwice: `&#x3c;script data-hostile&#x3e;acted("twice")&#x3c;/script&#x3e; &lt;b&gt;`,
  mark: `A</text></svg><svg/data-hostile/onload=acted("mark")>`,
  lyric: `<svg/data-hostile/onload=acted("lyric")>`,
  dynamics: `sfz<script/data-hostile>acted("dynamics")</script>`,
  fileName: `Sonata <img data-hostile src=x onerror=acted('file')>.musicxml`,
  pianist: `Ruth <img data-hostile src=x onerror=acted("pianist")>`,
  soloist: `Josse "'><svg data-hostile onload=acted("soloist")>`,
  reason: `Long </script><script data-hostile>acted("reason")</script> <a href="javascript:acted('reason')">tutti</a>`,
  comment: `Yes <img data-hostile src=x onerror=acted("comment")> [so](javascript:acted('comment'))`,
} as const;

/** Where the bar with the hostile number stands, from 0. */
const hostileBar = 6;
const barCount = 20;
/** The solo is silent from the first to before the second, from 0. */
const [silentFrom, silentTo] = [4, 16];

/** A sonata movement of 20 bars, oboe and piano, whose every text is hostile; it is otherwise sound MusicXML. */
export function writeHostileScore(): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>\n<?xml-stylesheet type="text/xsl" href="javascript:acted()"?>\n',
    '<score-partwise version="4.0" xmlns:xlink="http://www.w3.org/1999/xlink">',
    `<work><work-title>${xml(hostile.title)}</work-title></work>`,
    `<movement-title>${xml(hostile.movement)}</movement-title>`,
    `<identification><creator type="composer">${xml(hostile.composer)}</creator>`,
    `<rights>${xml(hostile.words)}</rights></identification>`,
    '<credit page="1"><link xlink:href="javascript:acted(\'link\')"/>',
    `<credit-words>${xml(hostile.title)}</credit-words></credit><part-list>`,
    scorePart(hostile.partId, hostile.soloName),
    scorePart("P2", hostile.pianoName),
    `</part-list><part id="${xml(hostile.partId)}">`,
    ...Array.from({ length: barCount }, (_, index) => soloBar(index)),
    '</part><part id="P2">',
    ...Array.from({ length: barCount }, (_, index) => pianoBar(index)),
    "</part></score-partwise>\n",
  ].join("");
}

function scorePart(id: string, name: string): string {
  return `<score-part id="${xml(id)}"><part-name>${xml(name)}</part-name><part-abbreviation>${xml(name)}</part-abbreviation></score-part>`;
}

function soloBar(index: number): string {
  const isSilent = index >= silentFrom && index < silentTo;
  const texts = [
    [0, direction(`<words font-family="x&quot; onload=&quot;acted()">${xml(hostile.words)}</words>`)],
    [0, direction(`<dynamics><other-dynamics>${xml(hostile.dynamics)}</other-dynamics></dynamics>`)],
    [1, direction(`<words><![CDATA[${hostile.fromCdata}]]></words>`)],
    [2, direction(`<words>${xml(hostile.escapedTwice)}</words>`)],
    // A bar that cannot be right, for a remark that names its part and number.
    [hostileBar, "<note><rest/><duration>-4</duration><voice>1</voice></note>"],
  ] as const;
  const own = texts.flatMap(([at, text]) => (at === index ? [text] : []));
  const lyric = index === 1 ? `<lyric><text>${xml(hostile.lyric)}</text></lyric>` : "";
  const notes = isSilent ? rest : note("C", 5, 1, lyric);
  return measure(index, `${index === 0 ? attributes(1) : ""}${own.join("")}${notes}`);
}

function pianoBar(index: number): string {
  const mark = direction(`<rehearsal>${xml(hostile.mark)}</rehearsal>`);
  const tempo = direction(
    `<words>${xml(hostile.tempo)}</words></direction-type><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>60</per-minute></metronome>`,
  );
  const own = index === 0 ? `${attributes(2)}${tempo}` : index === silentFrom ? mark : "";
  const backup = "<backup><duration>4</duration></backup>";
  return measure(index, `${own}${note("E", 4, 1)}${backup}${note("A", 2, 2)}`);
}

const rest = '<note><rest measure="yes"/><duration>4</duration><voice>1</voice></note>';

function measure(index: number, content: string): string {
  const number = index === hostileBar ? xml(hostile.barNumber) : `${index + 1}`;
  return `<measure number="${number}">${content}</measure>`;
}

function attributes(staves: 1 | 2): string {
  const clefs = [
    '<clef number="1"><sign>G</sign><line>2</line></clef>',
    '<clef number="2"><sign>F</sign><line>4</line></clef>',
  ];
  const metre = "<time><beats>4</beats><beat-type>4</beat-type></time>";
  return `<attributes><divisions>1</divisions><key><fifths>0</fifths></key>${metre}<staves>${staves}</staves>${clefs.slice(0, staves).join("")}</attributes>`;
}

function note(step: string, octave: number, staff: 1 | 2, more = ""): string {
  const pitch = `<pitch><step>${step}</step><octave>${octave}</octave></pitch>`;
  return `<note>${pitch}<duration>4</duration><voice>${staff}</voice><type>whole</type><staff>${staff}</staff>${more}</note>`;
}

function direction(type: string): string {
  return `<direction placement="above"><direction-type>${type}</direction-type></direction>`;
}

const escapes: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

function xml(text: string): string {
  return text.replace(/[&<>"]/g, (sign) => escapes[sign] ?? sign);
}
