import { type Zippable, zipSync } from "fflate";

/** What reading one bad file must come to. */
export interface HostileFile {
  readonly name: string;
  readonly bytes: () => Uint8Array;
  /** Reading it is much work, so that it gets a process of its own. */
  readonly isLarge?: true;
  /** The problem's kind, or the notices that must be among those told; an empty list: read as if nothing were. */
  readonly expected: { readonly problem: string } | { readonly notices: readonly string[] };
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

const head = '<?xml version="1.0" encoding="UTF-8"?>\n';
const list = '<part-list><score-part id="P1"><part-name>Flute</part-name></score-part></part-list>';
const attributes =
  "<attributes><divisions>2</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time></attributes>";
const note = (inner = "<duration>8</duration>", more = ""): string =>
  `<note><pitch><step>C</step><octave>5</octave></pitch>${inner}<voice>1</voice>${more}</note>`;
const bar = (content: string, number = 1): string => `<measure number="${number}">${content}</measure>`;
const part = (content: string, id = "P1"): string => `<part id="${id}">${content}</part>`;
const score = (content: string, top = list): string =>
  `${head}<score-partwise version="4.0">${top}${content}</score-partwise>`;
/** A score of one bar. */
const oneBar = (content: string): string => score(part(bar(`${attributes}${content}`)));
const good = oneBar(note());

const text = (name: string, content: string, expected: HostileFile["expected"]): HostileFile => ({
  name,
  bytes: () => encode(content),
  expected,
});
/** Made only when it is asked for. */
const large = (name: string, content: () => string, expected: HostileFile["expected"]): HostileFile => ({
  name,
  bytes: () => encode(content()),
  isLarge: true,
  expected,
});
const listed = (count: number, make: (at: number) => string): string =>
  Array.from({ length: count }, (_, at) => make(at)).join("");
const problem = (kind: string) => ({ problem: kind });
const tooLong = problem("token-too-long");
const titled = (title: string): string =>
  good.replace("<part-list>", `<work><work-title>${title}</work-title></work><part-list>`);
const notices = (...kinds: string[]) => ({ notices: kinds });
const fine = notices();

function utf16(content: string, order: "le" | "be", mark: boolean): Uint8Array {
  const units = mark ? `\ufeff${content}` : content;
  const bytes = new Uint8Array(units.length * 2);
  const view = new DataView(bytes.buffer);
  for (let at = 0; at < units.length; at += 1) view.setUint16(at * 2, units.charCodeAt(at), order === "le");
  return bytes;
}

function latin1(content: string): Uint8Array {
  return Uint8Array.from(content, (character) => character.charCodeAt(0));
}

function joined(...pieces: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    all.set(piece, at);
    at += piece.length;
  }
  return all;
}

const container = (path: string): string =>
  `${head}<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`;

function mxl(files: Record<string, string | Uint8Array>): Uint8Array {
  const entries: Zippable = Object.create(null);
  for (const [name, content] of Object.entries(files)) {
    entries[name] = typeof content === "string" ? encode(content) : content;
  }
  return zipSync(entries, { level: 6 });
}

const mxlOf = (content: string | Uint8Array): Uint8Array =>
  mxl({ "META-INF/container.xml": container("score.xml"), "score.xml": content });

/** Changes a field of the named entry in the central directory and, where it stands there too, in its local header. */
function patched(
  bytes: Uint8Array,
  name: string,
  field: { central: number; local: number; size: 2 | 4 },
  value: number,
): Uint8Array {
  const copy = bytes.slice();
  const view = new DataView(copy.buffer);
  const set = (at: number) =>
    field.size === 4 ? view.setUint32(at, value, true) : view.setUint16(at, value, true);
  for (let at = 0; at + 46 < copy.length; at += 1) {
    const signature = view.getUint32(at, true);
    const isCentral = signature === 0x02014b50;
    if (!isCentral && signature !== 0x04034b50) continue;
    const start = at + (isCentral ? 46 : 30);
    const length = view.getUint16(at + (isCentral ? 28 : 26), true);
    if (new TextDecoder().decode(copy.subarray(start, start + length)) !== name) continue;
    set(at + (isCentral ? field.central : field.local));
  }
  return copy;
}

const flags = { central: 8, local: 6, size: 2 } as const;
const method = { central: 10, local: 8, size: 2 } as const;
const checkSum = { central: 16, local: 14, size: 4 } as const;
const originalSize = { central: 24, local: 22, size: 4 } as const;

const billionLaughs = `${head}<!DOCTYPE score-partwise [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;"><!ENTITY d "&c;&c;&c;&c;&c;&c;&c;&c;&c;&c;">]>`;
const rest = '<note><rest measure="yes"/><duration>8</duration><voice>1</voice></note>';

const repeatSign =
  '<attributes><measure-style><measure-repeat type="start">1</measure-repeat></measure-style></attributes>';

const notXml: readonly HostileFile[] = [
  { name: "an empty file", bytes: () => new Uint8Array(0), expected: problem("empty-file") },
  text("a single byte", "x", problem("not-musicxml")),
  text("a single angle bracket", "<", problem("not-well-formed")),
  text("white space only", " \n\t ", problem("not-musicxml")),
  {
    name: "an image (PNG)",
    bytes: () => latin1("\x89PNG\r\n\x1a\n\0\0\0\rIHDR"),
    expected: problem("not-musicxml"),
  },
  {
    name: "an image (JPEG)",
    bytes: () => latin1("\xff\xd8\xff\xe0\0\x10JFIF"),
    expected: problem("not-musicxml"),
  },
  text("a PDF", "%PDF-1.7\n1 0 obj", problem("not-musicxml")),
  text("JSON", '{"score": []}', problem("not-musicxml")),
  text(
    "a web page",
    "<!DOCTYPE html><html><body><script>alert(1)</script></body></html>",
    problem("not-musicxml"),
  ),
  text("a MIDI file", "MThd\0\0\0\x06", problem("not-musicxml")),
  { name: "zeros", bytes: () => new Uint8Array(100_000), expected: problem("not-musicxml") },
  {
    name: "more bytes than are taken",
    isLarge: true,
    bytes: () => new Uint8Array(64_000_001).fill(32),
    expected: problem("file-too-large"),
  },
];

const brokenXml: readonly HostileFile[] = [
  text("cut off in the declaration", head.slice(0, 20), problem("not-well-formed")),
  text("cut off in the part list", good.slice(0, 100), problem("not-well-formed")),
  text("cut off in a tag", good.slice(0, good.indexOf("<pitch>") + 4), problem("not-well-formed")),
  text("cut off in an attribute", good.slice(0, good.indexOf('number="1"') + 8), problem("not-well-formed")),
  text("cut off after the last bar", good.slice(0, good.indexOf("</part>")), problem("not-well-formed")),
  text("cut off in a comment", `${head}<score-partwise><!-- `, problem("not-well-formed")),
  {
    name: "cut off in a character",
    bytes: () => joined(encode(good), Uint8Array.of(0xe2, 0x82)),
    expected: problem("encoding-broken"),
  },
  text(
    "tags that cross",
    `${head}<score-partwise><part-list></score-partwise></part-list>`,
    problem("not-well-formed"),
  ),
  text("text after the end", `${good}<more/>`, problem("not-well-formed")),
  text("an attribute twice", good.replace('id="P1">', 'id="P1" id="P2">'), problem("not-well-formed")),
  text(
    "control characters",
    oneBar(note("<duration>8</duration>", "<lyric><text>\u0001</text></lyric>")),
    problem("not-well-formed"),
  ),
  text("NUL bytes", good.replace("Flute", "Fl\0te"), problem("not-well-formed")),
  text("a reference to no character", good.replace("Flute", "&#0;"), problem("not-well-formed")),
];

const entities: readonly HostileFile[] = [
  text(
    "an entity bomb",
    `${billionLaughs}<score-partwise>&d;</score-partwise>`,
    problem("declarations-refused"),
  ),
  text(
    "an entity of quadratic growth",
    `${head}<!DOCTYPE x [<!ENTITY a "${"a".repeat(100_000)}">]><score-partwise>${"&a;".repeat(10_000)}</score-partwise>`,
    problem("declarations-refused"),
  ),
  text(
    "an external entity",
    `${head}<!DOCTYPE x [<!ENTITY f SYSTEM "file:///etc/passwd">]><score-partwise>&f;</score-partwise>`,
    problem("declarations-refused"),
  ),
  text(
    "a parameter entity",
    `${head}<!DOCTYPE x [<!ENTITY % p SYSTEM "http://localhost/x.dtd"> %p;]><score-partwise/>`,
    problem("declarations-refused"),
  ),
  text(
    "an attribute list declaration",
    `${head}<!DOCTYPE x [<!ATTLIST note onload CDATA "x">]><score-partwise/>`,
    problem("declarations-refused"),
  ),
  text("an entity that nothing declares", good.replace("Flute", "&flute;"), problem("not-well-formed")),
  text(
    "an external document type",
    good.replace(head, `${head}<!DOCTYPE score-partwise SYSTEM "http://localhost:1/evil.dtd">`),
    fine,
  ),
  text(
    "an inclusion",
    good.replace("<part id", '<xi:include href="file:///etc/passwd" parse="text"/><part id'),
    fine,
  ),
  text(
    "style sheets and instructions",
    good.replace(
      head,
      `${head}<?xml-stylesheet type="text/xsl" href="http://localhost/evil.xsl"?><?php exit(); ?>`,
    ),
    fine,
  ),
];

const excess: readonly HostileFile[] = [
  text("nesting of 100,000", `${head}${"<a>".repeat(100_000)}${"</a>".repeat(100_000)}`, problem("too-deep")),
  text(
    "nesting of 100,000 inside a bar, never closed",
    `${head}<score-partwise><part><measure>${"<a>".repeat(100_000)}`,
    problem("too-deep"),
  ),
  text(
    "nesting just beyond the limit",
    oneBar(`${"<a>".repeat(62)}${"</a>".repeat(62)}`),
    problem("too-deep"),
  ),
  text("nesting at the limit", oneBar(`${note()}${"<a>".repeat(60)}${"</a>".repeat(60)}`), fine),
  large(
    "a million attributes",
    () => `${head}<score-partwise ${listed(1_000_000, (at) => ` a${at}=""`)}/>`,
    tooLong,
  ),
  text(
    "10,000 attributes",
    `${head}<score-partwise ${listed(10_000, (at) => ` a${at}=""`)}/>`,
    problem("too-many-attributes"),
  ),
  large(
    "an attribute of 30 MB",
    () => good.replace('number="1"', `number="${"1".repeat(30_000_000)}"`),
    tooLong,
  ),
  large("a title of 30 MB", () => titled("a".repeat(30_000_000)), tooLong),
  text("a title of 300 kB", titled("a".repeat(300_000)), notices("text-cut")),
  text(
    "words, a syllable and a mark of 300 kB",
    oneBar(
      `<direction><direction-type><words>${"w".repeat(300_000)}</words></direction-type></direction>${note("<duration>8</duration>", `<lyric><text>${"l".repeat(300_000)}</text></lyric>`)}`,
    ),
    notices("text-cut"),
  ),
  text(
    "a name, a number and an id of 300 kB",
    good
      .replace("Flute", "Flute ".repeat(50_000))
      .replace('number="1"', `number="${"1".repeat(300_000)}" id="${"a".repeat(300_000)}"`),
    notices("id-replaced"),
  ),
  large(
    "a comment of 30 MB",
    () => good.replace("<part id", `<!--${"a-".repeat(15_000_000)}--><part id`),
    tooLong,
  ),
  large(
    "a comment that holds 10 million tags",
    () => good.replace("<part id", `<!--${"<a>".repeat(10_000_000)}--><part id`),
    tooLong,
  ),
  large(
    "a CDATA section of 30 MB",
    () => good.replace("Flute", `<![CDATA[${"]<".repeat(15_000_000)}]]>`),
    tooLong,
  ),
  large(
    "an instruction of 30 MB",
    () => good.replace("<part id", `<?a ${"?<".repeat(15_000_000)}?><part id`),
    tooLong,
  ),
  large(
    "a line end in an attribute, 30 million times",
    () => good.replace('number="1"', `number="${"\n".repeat(30_000_000)}"`),
    tooLong,
  ),
  large("white space of 60 MB", () => good.replace("<part id", `${" ".repeat(60_000_000)}<part id`), tooLong),
  large(
    "30 million line ends",
    () => good.replace("<part id", `${"\r\n".repeat(30_000_000)}<part id`),
    tooLong,
  ),
  large("ten million references", () => good.replace("Flute", "&amp;".repeat(10_000_000)), tooLong),
  large(
    "two million references in 50 texts",
    () =>
      score(
        part(
          listed(50, (at) =>
            bar(
              `<direction><direction-type><words>${"&amp;".repeat(40_000)}</words></direction-type></direction>`,
              at,
            ),
          ),
        ),
      ),
    notices("text-cut"),
  ),
  large("three million elements", () => oneBar("<a/>".repeat(3_000_000)), problem("too-many-elements")),
  large("900,000 elements of no use", () => oneBar(`${note()}${"<a/>".repeat(900_000)}`), fine),
  text("10,000 parts", score(listed(10_000, (at) => part(bar(rest), `P${at}`))), problem("too-many-parts")),
  text("100,000 empty bars", score(part("<measure/>".repeat(100_000))), problem("too-many-bars")),
  text("15,000 empty bars", score(part("<measure/>".repeat(15_000))), fine),
  large(
    "400 parts of 2,000 bars",
    () => score(listed(400, (at) => part("<measure/>".repeat(2_000), `P${at}`))),
    problem("too-many-bars"),
  ),
  text(
    "a part of 15,000 bars beside 100 of none",
    score(part("<measure/>".repeat(15_000)) + listed(100, (at) => part("", `Q${at}`))),
    problem("too-many-bars"),
  ),
  large(
    "100 parts of 1,500 bars",
    () => score(listed(100, (at) => part("<measure/>".repeat(1_500), `P${at}`))),
    notices("part-not-listed"),
  ),
  text(
    "timewise of 10,000 parts",
    `${head}<score-timewise>${list}${bar(listed(10_000, (at) => part(rest, `P${at}`)))}</score-timewise>`,
    problem("too-many-parts"),
  ),
  text(
    "timewise of a new part in each of 2,000 bars",
    `${head}<score-timewise>${list}${listed(2_000, (at) => bar(part(rest, `P${at}`)))}</score-timewise>`,
    problem("too-many-parts"),
  ),
  text(
    "timewise of 100 parts, a bar each of 10,000",
    `${head}<score-timewise>${list}${listed(10_000, (at) => bar(part(rest, `P${at % 100}`)))}</score-timewise>`,
    problem("too-many-bars"),
  ),
  large(
    "300,000 notes in a bar",
    () => oneBar("<note><rest/></note>".repeat(300_000)),
    problem("too-many-notes"),
  ),
  large(
    "200,000 rests without a type in a bar",
    () => oneBar(listed(200_000, (at) => `<note><rest/><voice>${at}</voice></note>`)),
    fine,
  ),
  large(
    "100,000 notes repeated by a sign over 1,000 bars",
    () =>
      score(
        part(bar(`${attributes}${"<note/>".repeat(100_000)}`) + bar(repeatSign, 2) + bar("").repeat(998)),
      ),
    problem("too-many-notes"),
  ),
  large(
    "100,000 signs to repeat bars",
    () => score(part(bar(attributes + note()) + bar(repeatSign.repeat(100_000), 2))),
    notices("measure-repeat"),
  ),
  large(
    "200,000 signs on a note",
    () =>
      oneBar(
        note(
          "<duration>8</duration>",
          `<notations>${'<slur type="start"/>'.repeat(100_000)}<articulations>${"<accent/>".repeat(100_000)}</articulations></notations>`,
        ),
      ),
    fine,
  ),
  large(
    "200,000 verses on a note",
    () => oneBar(note("<duration>8</duration>", "<lyric><text>la</text></lyric>".repeat(200_000))),
    fine,
  ),
  large(
    "300,000 words in a direction",
    () =>
      oneBar(
        `<direction><direction-type>${"<words>a</words>".repeat(300_000)}</direction-type></direction>${note()}`,
      ),
    fine,
  ),
  large(
    "300,000 keys in a bar",
    () =>
      score(
        part(
          bar(
            `${attributes}<attributes>${"<key><fifths>1</fifths></key>".repeat(300_000)}</attributes>${note()}`,
          ) + bar("").repeat(10_000),
        ),
      ),
    fine,
  ),
  large(
    "a number of 400,000 zeros",
    () => oneBar(note(`<duration>${"0".repeat(400_000)}x</duration>`)),
    notices("duration-unreadable"),
  ),
  text(
    "50,000 faults",
    oneBar(note("<duration>-1</duration>", "<staff>-1</staff>").repeat(50_000)),
    notices("duration-unreadable", "staff-unknown"),
  ),
  text(
    "2,000 faulty bars",
    score(part(listed(2_000, (at) => bar(note("<duration>x</duration>"), at)))),
    notices("duration-unreadable", "more-notices"),
  ),
];

const encodings: readonly HostileFile[] = [
  text(
    "UTF-8 that calls itself UTF-16",
    good.replace("UTF-8", "UTF-16"),
    notices("encoding-declared-falsely"),
  ),
  {
    name: "UTF-16 little-endian without a mark",
    bytes: () => utf16(good.replace("UTF-8", "UTF-16"), "le", false),
    expected: fine,
  },
  {
    name: "UTF-16 big-endian with a mark",
    bytes: () => utf16(good.replace("UTF-8", "UTF-16"), "be", true),
    expected: fine,
  },
  {
    name: "UTF-16 that calls itself UTF-8",
    bytes: () => utf16(good, "le", true),
    expected: notices("encoding-declared-falsely"),
  },
  {
    name: "UTF-16 with an odd number of bytes",
    bytes: () => utf16(good, "le", true).slice(0, -1),
    expected: problem("encoding-broken"),
  },
  {
    name: "UTF-16 with half a character",
    bytes: () => utf16(good.replace("Flute", "\ud800"), "le", true),
    expected: problem("encoding-broken"),
  },
  {
    name: "a mark of the wrong byte order",
    bytes: () => joined(Uint8Array.of(0xff, 0xfe), utf16(good, "be", false)),
    expected: problem("not-musicxml"),
  },
  {
    name: "UTF-32",
    bytes: () => joined(Uint8Array.of(0xff, 0xfe, 0, 0), new Uint8Array(400)),
    expected: problem("encoding-unknown"),
  },
  text("an encoding that does not exist", good.replace("UTF-8", "klingon-1"), problem("encoding-unknown")),
  text("UTF-7", good.replace("UTF-8", "UTF-7"), problem("encoding-unknown")),
  {
    name: "Latin-1 that calls itself UTF-8",
    bytes: () => latin1(good.replace("Flute", "Fl\xf6te")),
    expected: problem("encoding-broken"),
  },
  {
    name: "Latin-1 that says so",
    bytes: () => latin1(good.replace("Flute", "Fl\xf6te").replace("UTF-8", "ISO-8859-1")),
    expected: fine,
  },
  {
    name: "a UTF-8 mark that calls itself Latin-1",
    bytes: () => joined(Uint8Array.of(0xef, 0xbb, 0xbf), encode(good.replace("UTF-8", "ISO-8859-1"))),
    expected: notices("encoding-declared-falsely"),
  },
  {
    name: "bytes that are no UTF-8",
    bytes: () => joined(encode(good), Uint8Array.of(0xc0, 0xaf)),
    expected: problem("encoding-broken"),
  },
];

const containers: readonly HostileFile[] = [
  {
    name: "a zip bomb",
    isLarge: true,
    bytes: () => mxlOf(new Uint8Array(60_000_000)),
    expected: problem("container-unsafe"),
  },
  {
    name: "a zip bomb that hides its size",
    isLarge: true,
    bytes: () => patched(mxlOf(new Uint8Array(300_000_000)), "score.xml", originalSize, 1_000),
    expected: problem("container-unsafe"),
  },
  {
    name: "a container that claims 4 GB",
    bytes: () => patched(mxlOf(good), "score.xml", originalSize, 0xffff_fff0),
    expected: problem("container-unsafe"),
  },
  {
    name: "a container that claims 500 kB too much",
    bytes: () => patched(mxlOf(good), "score.xml", originalSize, 500_000),
    expected: problem("container-broken"),
  },
  {
    name: "a zip bomb as the list of the container",
    isLarge: true,
    bytes: () => mxl({ "META-INF/container.xml": new Uint8Array(60_000_000) }),
    expected: problem("container-unsafe"),
  },
  {
    name: "5,000 files in a container",
    bytes: () => mxl(Object.fromEntries(Array.from({ length: 5_000 }, (_, at) => [`f${at}`, ""]))),
    expected: problem("container-unsafe"),
  },
  { name: "a container in a container", bytes: () => mxlOf(mxlOf(good)), expected: problem("not-musicxml") },
  {
    name: "a path that leads out",
    bytes: () => mxl({ "META-INF/container.xml": container("../../etc/passwd") }),
    expected: problem("container-without-score"),
  },
  {
    name: "an entry whose name leads out",
    bytes: () =>
      mxl({
        "../../etc/cron.d/x.xml": good,
        "META-INF/container.xml": container("score.xml"),
        "score.xml": good,
      }),
    expected: fine,
  },
  {
    name: "an absolute path",
    bytes: () => mxl({ "META-INF/container.xml": container("/etc/passwd"), "a.txt": "x" }),
    expected: problem("container-without-score"),
  },
  {
    name: "only an entry with an absolute name",
    bytes: () => mxl({ "/etc/score.xml": good }),
    expected: problem("container-without-score"),
  },
  {
    name: "a score named __proto__ that is not there",
    bytes: () => mxl({ "META-INF/container.xml": container("__proto__") }),
    expected: problem("container-without-score"),
  },
  {
    name: "a score named constructor that is not there",
    bytes: () => mxl({ "META-INF/container.xml": container("constructor") }),
    expected: problem("container-without-score"),
  },
  {
    name: "no list, one score",
    bytes: () => mxl({ "piece.musicxml": good, "piece.pdf": "%PDF" }),
    expected: notices("container-without-list"),
  },
  {
    name: "no list, two scores",
    bytes: () => mxl({ "a.musicxml": good, "b.xml": good }),
    expected: problem("container-without-score"),
  },
  {
    name: "a list that names a file that is not there",
    bytes: () => mxl({ "META-INF/container.xml": container("a.xml"), "b.xml": good }),
    expected: notices("container-without-list"),
  },
  {
    name: "a list that is no XML",
    bytes: () => mxl({ "META-INF/container.xml": "container", "b.xml": good }),
    expected: notices("container-without-list"),
  },
  {
    name: "a list with an entity bomb",
    bytes: () =>
      mxl({ "META-INF/container.xml": `${billionLaughs}<container>&d;</container>`, "b.xml": good }),
    expected: problem("declarations-refused"),
  },
  {
    name: "a locked container",
    bytes: () => patched(mxlOf(good), "score.xml", flags, 1),
    expected: problem("container-encrypted"),
  },
  {
    name: "an unknown way of packing",
    bytes: () => patched(mxlOf(good), "score.xml", method, 99),
    expected: problem("container-broken"),
  },
  {
    name: "a wrong check sum",
    bytes: () => patched(mxlOf(good), "score.xml", checkSum, 12_345),
    expected: problem("container-broken"),
  },
  {
    name: "damaged packed bytes",
    bytes: () => damaged(mxlOf(good.repeat(3))),
    expected: problem("container-broken"),
  },
  {
    name: "a container cut off",
    bytes: () => mxlOf(good).slice(0, 200),
    expected: problem("container-broken"),
  },
  {
    name: "a directory that lies outside",
    bytes: () => withDirectoryAt(mxlOf(good), 0x7fff_ffff),
    expected: problem("container-broken"),
  },
  { name: "a score of no bytes", bytes: () => mxlOf(""), expected: problem("empty-file") },
  { name: "an empty container", bytes: () => zipSync({}), expected: problem("container-without-score") },
  {
    name: "a picture as the score",
    bytes: () => mxlOf(latin1("\x89PNG\r\n\x1a\n")),
    expected: problem("not-musicxml"),
  },
];

function damaged(bytes: Uint8Array): Uint8Array {
  const copy = bytes.slice();
  const at = copy.length - 300;
  copy.fill(0xff, at, at + 60);
  return copy;
}

function withDirectoryAt(bytes: Uint8Array, offset: number): Uint8Array {
  const copy = bytes.slice();
  new DataView(copy.buffer).setUint32(copy.length - 6, offset, true);
  return copy;
}

const evil = "&lt;script&gt;alert(1)&lt;/script&gt;";
const markup: readonly HostileFile[] = [
  text(
    "markup in the title",
    good.replace("<part-list>", `<work><work-title>${evil}</work-title></work><part-list>`),
    fine,
  ),
  text("markup in a part's name", good.replace("Flute", "&lt;img src=x onerror=alert(1)&gt;"), fine),
  text(
    "markup in words",
    oneBar(`<direction><direction-type><words>${evil}</words></direction-type></direction>${note()}`),
    fine,
  ),
  text(
    "markup in a lyric",
    oneBar(note("<duration>8</duration>", `<lyric><text>${evil}</text></lyric>`)),
    fine,
  ),
  text(
    "markup in CDATA",
    oneBar(
      `<direction><direction-type><words><![CDATA[<svg onload=alert(1)>]]></words></direction-type></direction>${note()}`,
    ),
    fine,
  ),
  text(
    "elements of a page in words",
    oneBar(
      `<direction><direction-type><words><script>alert(1)</script></words></direction-type></direction>${note()}`,
    ),
    fine,
  ),
  text("markup in a bar number", good.replace('number="1"', 'number="&lt;b onclick=alert(1)&gt;"'), fine),
  text(
    "markup in ids",
    good.replace("<note>", '<note id="&quot;&gt;&lt;script&gt;">'),
    notices("id-replaced"),
  ),
  text(
    "an address that runs",
    good.replace("<part-list>", '<credit><link xlink:href="javascript:alert(1)"/></credit><part-list>'),
    fine,
  ),
];

const structure: readonly HostileFile[] = [
  text("another root", `${head}<opus><title>x</title></opus>`, problem("wrong-root")),
  text("another root around parts", good.replaceAll("score-partwise", "mei"), problem("wrong-root")),
  text(
    "a root with a prefix",
    good
      .replaceAll("score-partwise", "m:score-partwise")
      .replace("<m:score-partwise", '<m:score-partwise xmlns:m="urn:x"'),
    problem("wrong-root"),
  ),
  text(
    "a picture in XML",
    `${head}<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>`,
    problem("wrong-root"),
  ),
  text("a score of nothing", `${head}<score-partwise/>`, problem("no-parts")),
  text("no part", score(""), problem("no-parts")),
  text("a part without bars", score(part("")), problem("no-bars")),
  text("bars without notes", score(part(bar("").repeat(8))), fine),
  text(
    "a part that is not listed",
    score(part(bar(rest)) + part(bar(rest), "P9")),
    notices("part-not-listed"),
  ),
  text("no list of parts", score(part(bar(rest)), ""), notices("part-not-listed")),
  text(
    "a listed part that is missing",
    score(
      part(bar(rest)),
      list.replace(
        "</part-list>",
        '<score-part id="P2"><part-name>Piano</part-name></score-part></part-list>',
      ),
    ),
    notices("part-missing"),
  ),
  text("two parts of one id", score(part(bar(rest)) + part(bar(rest))), notices("part-id-repeated")),
  text("a part without an id", score(`<part>${bar(rest)}</part>`), notices("part-without-id")),
  text(
    "parts named __proto__ and constructor",
    score(part(bar(rest), "__proto__") + part(bar(rest), "constructor")),
    notices("part-not-listed"),
  ),
  text(
    "notes and bars of one id",
    score(part(`<measure id="a">${note().replace("<note>", '<note id="a">')}</measure><measure id="a"/>`)),
    notices("id-replaced"),
  ),
  text(
    "parts of different length",
    score(part(bar(rest).repeat(3)) + part(bar(rest), "P2")),
    notices("bars-missing"),
  ),
  text(
    "timewise without parts",
    `${head}<score-timewise>${list}<measure number="1"/></score-timewise>`,
    problem("no-parts"),
  ),
  text("timewise without bars", `${head}<score-timewise>${list}</score-timewise>`, problem("no-parts")),
  text(
    "timewise with a part that comes and goes",
    `${head}<score-timewise>${list}${bar(part(rest) + part(rest, "P2"))}${bar(part(rest))}${bar(part(rest, "P2"))}</score-timewise>`,
    notices("part-not-listed"),
  ),
  text(
    "timewise with parts in parts",
    `${head}<score-timewise>${list}${bar(part(part(rest)))}</score-timewise>`,
    fine,
  ),
];

const attributesWith = (divisions: string): string =>
  `<attributes><divisions>${divisions}</divisions></attributes>`;
const lengths: readonly HostileFile[] = [
  text("a negative duration", oneBar(note("<duration>-8</duration>")), notices("duration-unreadable")),
  text("a duration of 0", oneBar(note("<duration>0</duration>")), notices("duration-zero")),
  text(
    "a duration that is no number",
    oneBar(note("<duration>NaN</duration>")),
    notices("duration-unreadable"),
  ),
  text("a duration of 1e308", oneBar(note("<duration>1e308</duration>")), notices("duration-unreadable")),
  text(
    "a duration of 400 digits",
    oneBar(note(`<duration>${"9".repeat(400)}</duration>`)),
    notices("duration-unreadable"),
  ),
  text(
    "a duration of 9007199254740993",
    oneBar(note("<duration>9007199254740993</duration>")),
    notices("duration-unreadable"),
  ),
  text("no duration", oneBar(note("")), notices("duration-unreadable")),
  text(
    "divisions of 0",
    score(part(bar(`${attributesWith("0")}${note()}`))),
    notices("divisions-impossible", "divisions-missing"),
  ),
  text(
    "negative divisions",
    score(part(bar(`${attributesWith("-4")}${note()}`))),
    notices("divisions-impossible"),
  ),
  text(
    "divisions that are no number",
    score(part(bar(`${attributesWith("many")}${note()}`))),
    notices("divisions-impossible"),
  ),
  text(
    "divisions of 1e308",
    score(part(bar(`${attributesWith("1e308")}${note()}`))),
    notices("divisions-impossible"),
  ),
  text(
    "divisions of 999,999,999,999,999",
    score(part(bar(`${attributesWith("999999999999999")}${note("<duration>1</duration>")}`))),
    notices("duration-unreadable"),
  ),
  text(
    "divisions of 0.000000001",
    score(part(bar(`${attributesWith("0.000000001")}${note("<duration>1</duration>")}`))),
    notices("duration-unreadable"),
  ),
  text(
    "no divisions",
    score(part(bar(note("<duration>480</duration>", "<type>quarter</type>")))),
    notices("divisions-missing"),
  ),
  text(
    "divisions that never fit together",
    score(
      part(
        bar(
          [99_991, 99_989, 99_971]
            .map((prime) => `${attributesWith(`${prime}`)}${note("<duration>1</duration>")}`)
            .join(""),
        ),
      ),
    ),
    problem("time-not-exact"),
  ),
  text(
    "bars that never fit together",
    score(
      part(
        [99_991, 99_989]
          .map((prime) => bar(`${attributesWith(`${prime}`)}${note("<duration>1</duration>")}`))
          .join(""),
      ),
    ),
    problem("time-not-exact"),
  ),
  text(
    "a bar without end",
    oneBar("<forward><duration>180000</duration></forward>".repeat(3)),
    problem("time-not-exact"),
  ),
  text(
    "a forward beyond all time",
    oneBar(`<forward><duration>99999999</duration></forward>${note()}`),
    notices("duration-unreadable"),
  ),
  text(
    "a backup to before the bar",
    oneBar(`${note()}<backup><duration>999</duration></backup>${note()}`),
    notices("backup-too-far"),
  ),
  text(
    "a negative backup",
    oneBar(`${note()}<backup><duration>-4</duration></backup>`),
    notices("duration-unreadable"),
  ),
  text(
    "a chord that joins nothing",
    oneBar(note("<duration>8</duration>").replace("<pitch>", "<chord/><pitch>")),
    notices("chord-without-note"),
  ),
  text(
    "notes beyond the bar",
    score(part(bar(`${attributes}${note("<duration>40</duration>")}`) + bar(note(), 2))),
    notices("bar-too-long"),
  ),
  text(
    "voices of different length",
    score(
      part(bar(`${attributes}${note()}`) + bar(note(), 2)) +
        part(bar(`${attributes}${note("<duration>2</duration>")}`), "P2"),
    ),
    notices("bar-incomplete"),
  ),
  text(
    "a bar's rest of the wrong length",
    score(part(bar(attributes + note()) + bar(rest.replace("8", "99"), 2))),
    notices("rest-length"),
  ),
];

const signs: readonly HostileFile[] = [
  text("a metre of no beats", good.replace("<beats>4", "<beats>0"), notices("metre-unreadable")),
  text("a metre in thirds", good.replace("<beat-type>4", "<beat-type>3"), notices("metre-unusual")),
  text("a metre of letters", good.replace("<beats>4", "<beats>4+x"), notices("metre-unreadable")),
  text("a metre of 9e15", good.replace("<beats>4", "<beats>9000000000000000"), notices("metre-unreadable")),
  text(
    "a metre of 100,000 sums",
    good.replace("<beats>4", `<beats>${"1+".repeat(100_000)}1`),
    notices("metre-unreadable"),
  ),
  text(
    "a metre in prime parts",
    good.replace(
      /<beats>.*<\/beat-type>/,
      [997, 991, 983, 977, 971, 967]
        .map((prime) => `<beats>1</beats><beat-type>${prime}</beat-type>`)
        .join(""),
    ),
    notices("metre-unreadable"),
  ),
  text(
    "an alteration that is no number",
    oneBar(note().replace("<octave>", "<alter>NaN</alter><octave>")),
    notices("alteration-unreadable"),
  ),
  text("an octave of 999", oneBar(note().replace("<octave>5", "<octave>999")), notices("pitch-unreadable")),
  text(
    "a step that does not exist",
    oneBar(note().replace("<step>C", "<step>H")),
    notices("pitch-unreadable"),
  ),
  text(
    "a staff of −1",
    oneBar(note("<duration>8</duration>", "<staff>-1</staff>")),
    notices("staff-unknown"),
  ),
  text(
    "a staff of 1e9",
    oneBar(note("<duration>8</duration>", "<staff>1000000000</staff>")),
    notices("staff-unknown"),
  ),
  text(
    "a billion staves",
    good.replace("</attributes>", "<staves>1000000000</staves></attributes>"),
    notices("staff-unknown"),
  ),
  text("a key of 1e9 sharps", good.replace("<fifths>0", "<fifths>1000000000"), notices("key-unreadable")),
  text(
    "a transposition of 1e9",
    good.replace("</attributes>", "<transpose><chromatic>1000000000</chromatic></transpose></attributes>"),
    notices("transposition-unreadable"),
  ),
  ...["0", "-1", "1000000000", "NaN", "", "1e308"].map((tempo) =>
    text(`a tempo of “${tempo}”`, oneBar(`<sound tempo="${tempo}"/>${note()}`), notices("tempo-impossible")),
  ),
  text(
    "a metronome without a number",
    oneBar(
      `<direction><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>fast</per-minute></metronome></direction-type></direction>${note()}`,
    ),
    notices("tempo-impossible"),
  ),
  text(
    "a tempo set equal to one that is unknown",
    oneBar(
      `<direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit>half</beat-unit></metronome></direction-type></direction>${note()}`,
    ),
    notices("tempo-relation-unknown"),
  ),
  text(
    "a repeat of 1e9 times",
    oneBar(`${note()}<barline><repeat direction="backward" times="1000000000"/></barline>`),
    notices("repeat-count-impossible"),
  ),
  text(
    "repeats in repeats without end",
    score(
      part(
        Array.from({ length: 300 }, (_, at) =>
          bar(
            `<barline location="left"><repeat direction="forward"/></barline>${rest}<barline><repeat direction="backward" times="99"/></barline>`,
            at,
          ),
        ).join(""),
      ),
    ),
    notices("divisions-missing"),
  ),
  text(
    "a repeat that goes nowhere",
    oneBar(`<barline location="left"><repeat direction="backward"/></barline>${note()}`),
    notices("repeat-unreadable"),
  ),
  text(
    "an ending without a number",
    oneBar(`<barline location="left"><ending type="start" number=""/></barline>${note()}`),
    notices("ending-without-number"),
  ),
  text(
    "an ending of a billion numbers",
    oneBar(`<barline location="left"><ending type="start" number="1-999999999"/></barline>${note()}`),
    fine,
  ),
  text(
    "a sign that repeats bars before the first",
    oneBar(
      `<attributes><measure-style><measure-repeat type="start">4</measure-repeat></measure-style></attributes>${note()}`,
    ),
    notices("measure-repeat-unreadable"),
  ),
  text(
    "a tuplet of nothing",
    oneBar(
      note(
        "",
        "<type>quarter</type><time-modification><actual-notes>0</actual-notes><normal-notes>x</normal-notes></time-modification>",
      ),
    ),
    notices("duration-unreadable"),
  ),
  text(
    "slurs, tremolos and shifts of nonsense",
    oneBar(
      `<direction><direction-type><octave-shift type="sideways" size="x"/></direction-type></direction>${note("<duration>8</duration>", '<notations><slur number="evil" type="x"/><ornaments><tremolo>999</tremolo></ornaments></notations>')}`,
    ),
    fine,
  ),
];

export const hostileFiles: readonly HostileFile[] = [
  ...notXml,
  ...brokenXml,
  ...entities,
  ...excess,
  ...encodings,
  ...containers,
  ...markup,
  ...structure,
  ...lengths,
  ...signs,
];

/** Texts of the `markup` files, as they must come out. */
export const evilText = "<script>alert(1)</script>";
export const goodFile: Uint8Array = encode(good);
