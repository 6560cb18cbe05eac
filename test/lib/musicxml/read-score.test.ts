import { zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { readScore } from "@/lib/musicxml/read-score";
import { readTree } from "@/lib/musicxml/read-tree";
import { writeTree } from "@/lib/musicxml/write-tree";
import { quarters } from "@/lib/score/quarters";
import type { ReadScore, Score } from "@/lib/score/score";
import { barRest, encode, note, type PartSource, sourceOf, usualAttributes, words } from "./music-source";
import {
  barLengths,
  counts,
  fifths,
  labels,
  metres,
  offsets,
  partNames,
  partOf,
  repeats,
  restLengths,
  shapes,
  sounding,
  tempi,
  words as wordsIn,
  written,
} from "./score-views";

function readText(text: string): ReadScore {
  const source = readScore(encode(text));
  if (!source.ok) throw new Error(JSON.stringify(source.problem));
  return source.value;
}

const read = (...parts: readonly PartSource[]): ReadScore => readText(sourceOf(...parts));
const score = (...measures: readonly string[]): Score => read({ measures }).score;
const kindsOf = ({ notices }: ReadScore): string[] => notices.map(({ kind }) => kind);
const noteIds = (of: Score, part = 0): string =>
  partOf(of, part)
    .notes.map(({ id }) => id)
    .join(" ");
const whole = note("C5", 8);

describe("ids", () => {
  it("are the file's own where they can be, else made of the place", () => {
    const { score: found } = read(
      {
        measures: [
          `<measure id="m-1" number="1">${usualAttributes}${whole}${whole.replace("<note", '<note id="mine"')}</measure>`,
          whole,
        ],
      },
      { measures: [whole, `<measure number="2">${whole}</measure>`] },
    );
    expect(found.bars.map(({ id }) => id)).toEqual(["m-1", "b1"]);
    expect(noteIds(found)).toBe("n0-0-0 mine n0-1-0");
    expect(noteIds(found, 1)).toBe("n1-0-0 n1-1-0");
  });

  it("never occur twice, whatever the file claims", () => {
    const again = read({
      measures: [
        whole.replace("<note", '<note id="P1"') + whole.replace("<note", '<note id="n0-0-0"'),
        whole.replace("<note", '<note id="n0-0-0"'),
      ],
    });
    // "P1" is the part's; the first note is given "n0-0-0", so that the others cannot keep it.
    expect(noteIds(again.score)).toBe("n0-0-0 n0-0-1 n0-1-0");
    expect(kindsOf(again)).toContain("id-replaced");
  });

  it("stand in the tree as in the score, in every part", () => {
    const text = sourceOf({ measures: [whole] }, { measures: [whole] });
    const tree = readTree(encode(text));
    if (!tree.ok) throw new Error(tree.problem.kind);
    const ids = [...writeTree(tree.value).matchAll(/<([\w-]+)[^>]*? id="([^"]+)"/g)].map(
      ([, name, id]) => `${name} ${id}`,
    );
    expect(ids).toEqual([
      "score-part P1",
      "score-part P2",
      "part P1",
      "measure b0",
      "note n0-0-0",
      "part P2",
      "measure b0-p1",
      "note n1-0-0",
    ]);
  });
});

describe("bars", () => {
  it("last as long as the longest voice", () => {
    const found = read({
      measures: [`${note("C5", 6)}<backup><duration>6</duration></backup>${note("C4", 8, "", "2")}`, whole],
    });
    expect(barLengths(found.score)).toBe("4 4");
  });

  it("last as long as the longest part, and the shorter part is told", () => {
    const found = read({ measures: [whole, whole] }, { name: "Piano", measures: [note("C4", 6), whole] });
    expect(barLengths(found.score)).toBe("4 4");
    expect(found.notices).toMatchObject([{ kind: "bar-incomplete", partName: "Piano", barLabel: "1" }]);
  });

  it("last as long as their metre when nothing is in them", () => {
    expect(
      barLengths(
        score(whole, "", `<attributes><time><beats>3</beats><beat-type>8</beat-type></time></attributes>`),
      ),
    ).toBe("4 4 3/2");
  });

  it("take a rest of the whole bar at any length that the file gives it", () => {
    const threeFour =
      "<attributes><divisions>2</divisions><time><beats>3</beats><beat-type>4</beat-type></time></attributes>";
    const found = read({ measures: [threeFour + barRest(6), barRest(8), note("C5", 6)] });
    expect(barLengths(found.score)).toBe("3 3 3");
    expect(restLengths(found.score)).toBe("3 3");
    expect(found.notices).toMatchObject([{ kind: "rest-length", barLabel: "2" }]);
  });

  it("give such a rest their own length where the notes of another part reach further", () => {
    const found = read({ measures: [barRest(8), barRest(8)] }, { measures: [whole, note("C4", 12)] });
    expect(barLengths(found.score)).toBe("4 6");
    expect(restLengths(found.score)).toBe("4 6");
    expect(kindsOf(found)).toEqual(["bar-too-long", "rest-length"]);
  });

  it("know a pickup at the start, and inside only where it starts a phrase", () => {
    const half = (number: string, content: string) =>
      `<measure number="${number}" implicit="yes">${content}</measure>`;
    const backward = '<barline location="right"><repeat direction="backward"/></barline>';
    const found = score(
      half("0", usualAttributes + note("C5", 2)),
      whole,
      `<measure number="2">${note("C5", 6)}${backward}</measure>`,
      half("X1", note("C5", 2)),
      `<measure number="3">${note("C5", 4)}</measure>`,
      half("X2", note("C5", 4)),
    );
    expect(labels(found)).toBe("0 2 2 X1 3 X2");
    expect(shapes(found)).toBe("p.ipii");
  });

  it("take a new metre inside a bar from the next bar on", () => {
    const found = read({
      measures: [
        note("C5", 4) +
          "<attributes><time><beats>2</beats><beat-type>4</beat-type></time></attributes>" +
          note("C5", 4),
        note("C5", 4),
      ],
    });
    expect(metres(found.score)).toBe("4/4 | 2/4");
    expect(kindsOf(found)).toEqual(["metre-inside-bar"]);
  });

  it("are added, empty, to a part that is too short", () => {
    const found = read({ measures: [whole, whole, whole] }, { name: "Piano", measures: [whole] });
    expect(found.score.bars.length).toBe(3);
    expect(found.notices).toMatchObject([{ kind: "bars-missing", partName: "Piano" }]);
  });

  it("tile the piece at exact fractions", () => {
    const found = score(
      `<attributes><divisions>3</divisions></attributes>${note("C5", 1)}`,
      note("C5", 2),
      note("C5", 1),
    );
    expect(found.bars.map(({ start }) => start)).toEqual([quarters(0), quarters(1, 3), quarters(1)]);
  });
});

describe("time inside a bar", () => {
  it("goes by backup and forward, and chords do not move it", () => {
    const chord = note("E5", 2).replace("<pitch>", "<chord/><pitch>");
    const found = score(
      note("C5", 2) +
        chord +
        "<forward><duration>2</duration></forward>" +
        note("D5", 4) +
        "<backup><duration>6</duration></backup>" +
        note("C4", 6, "", "2"),
    );
    expect(offsets(found)).toBe("0 0 1 2");
    expect(written(found)).toBe("C5 E5 C4 D5");
  });

  it("takes decimal divisions and durations for what they are", () => {
    const found = score(
      `<attributes><divisions>2.5</divisions></attributes>${whole.replace("<duration>8", "<duration>1.25")}`,
    );
    expect(partOf(found).notes[0]?.duration).toEqual(quarters(1, 2));
  });

  it("finds the missing divisions from a note that says its type", () => {
    const found = readText(
      sourceOf({
        measures: [`<measure number="1">${note("C5", 360, "<type>quarter</type><dot/>")}</measure>`],
      }),
    );
    expect(partOf(found.score).notes[0]?.duration).toEqual(quarters(3, 2));
    expect(found.notices).toMatchObject([{ kind: "divisions-missing", partName: "Part 1", barLabel: "1" }]);
  });

  it("takes the drawn value where the duration is impossible", () => {
    const broken = note(
      "C5",
      -7,
      "<type>eighth</type><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification>",
    );
    expect(partOf(score(broken + whole)).notes[0]?.duration).toEqual(quarters(1, 3));
  });
});

describe("bars repeated by a sign", () => {
  const sign = (count: number, staff = "") =>
    `<attributes><measure-style${staff}><measure-repeat type="start">${count}</measure-repeat></measure-style></attributes>`;
  const stop = '<attributes><measure-style><measure-repeat type="stop"/></measure-style></attributes>';

  it("play what they repeat, under ids of their own", () => {
    const found = read({
      measures: [
        note("C5", 8),
        note("D5", 4) + note("E5", 4),
        sign(2) + barRest(8),
        "",
        stop + note("F5", 8),
      ],
    });
    expect(written(found.score)).toBe("C5 D5 E5 C5 D5 E5 F5");
    expect(offsets(found.score)).toBe("0 0 2 0 0 2 0");
    expect(noteIds(found.score)).toBe("n0-0-0 n0-1-0 n0-1-1 n0-2-r0 n0-3-r0 n0-3-r1 n0-4-0");
    expect(counts(found.score)).toBe("7+0");
    expect(found.notices).toMatchObject([
      { kind: "measure-repeat", barLabel: "3" },
      { kind: "measure-repeat", barLabel: "4" },
    ]);
  });

  it("keep notes that are written out, and the other staff", () => {
    const staff = (number: number) => `<staff>${number}</staff>`;
    const both = `${note("C5", 8, staff(1))}<backup><duration>8</duration></backup>${note("C3", 8, staff(2), "5")}`;
    const found = score(
      usualAttributes.replace("</attributes>", "<staves>2</staves></attributes>") + both,
      sign(1, ' number="2"') + note("D5", 8, staff(1)),
      note("E5", 8, staff(1)),
    );
    expect(written(found)).toBe("C5 C3 D5 C3 E5 C3");
  });

  it("are not mistaken for bars of rest that are drawn as one", () => {
    const many = "<attributes><measure-style><multiple-rest>2</multiple-rest></measure-style></attributes>";
    expect(counts(score(whole, many + barRest(8), barRest(8)))).toBe("1+2");
  });
});

describe("the order of playing", () => {
  const jumpsIn = (found: Score): string =>
    found.bars
      .map(({ jumps }) => {
        const named = [
          jumps.segno && `segno ${jumps.segno}`,
          jumps.coda && `coda ${jumps.coda}`,
          jumps.toCoda && `to ${jumps.toCoda}`,
          jumps.dalSegno && `ds ${jumps.dalSegno}`,
        ];
        return [...named, jumps.daCapo && "dc", jumps.fine && "fine"].filter(Boolean).join("+") || ".";
      })
      .join(" | ");
  const glyph = (name: string) => `<direction><direction-type><${name}/></direction-type></direction>`;

  it("is taken from sound elements, wherever they stand", () => {
    const found = read({
      measures: [
        `<sound segno="s1"/>${whole}`,
        `${whole}<direction><direction-type><words>Al segno</words></direction-type><sound dalsegno="s1"/></direction>`,
        `${whole}<sound fine="yes"/>`,
      ],
    });
    expect(jumpsIn(found.score)).toBe("segno s1 | ds s1 | fine");
    expect(kindsOf(found)).toEqual([]);
  });

  it.each([
    ["D.C. al Fine", "dc"],
    ["Da capo", "dc"],
    ["D. S. al Coda", "ds segno"],
    ["dal segno al fine", "ds segno"],
    ["To Coda", "to coda"],
    ["al Coda", "to coda"],
    ["Fine", "fine"],
    ["Coda", "coda coda"],
  ])("is taken from the words “%s” when there is no sound", (text, expected) => {
    const found = read({ measures: [whole, whole + words(text)] }, { measures: [whole, whole] });
    expect(jumpsIn(found.score)).toBe(`. | ${expected}`);
    expect(kindsOf(found)).toEqual(text === "Coda" ? [] : ["jump-from-print"]);
  });

  it.each([
    "con fuoco",
    "D.S.",
    "finement",
    "Segno di pace",
    "poco a poco da capo a fondo e con molta espressione sempre",
  ])("is not taken from “%s” unless it is a sign", (text) => {
    expect(jumpsIn(score(whole + words(text)))).toBe(text === "D.S." ? "ds segno" : ".");
  });

  it("counts a sign at the end of a bar for the next, and explains two coda signs", () => {
    expect(
      jumpsIn(
        score(
          whole + glyph("segno"),
          whole + glyph("coda"),
          whole + words("D.S. al Coda"),
          glyph("coda") + whole,
        ),
      ),
    ).toBe(". | segno segno | to coda+ds segno | coda coda");
  });

  it("reads repeats and endings on either side of a bar line", () => {
    const line = (location: string, content: string) =>
      `<barline location="${location}">${content}</barline>`;
    const found = score(
      whole + line("right", '<repeat direction="forward"/>'),
      line("left", '<ending number="1, 2" type="start"/>') +
        whole +
        line("right", '<ending number="1, 2" type="stop"/><repeat direction="backward" times="3"/>'),
      line("left", '<ending number="3" type="start"/>') +
        whole +
        line("right", '<ending number="3" type="discontinue"/>'),
      line("left", '<repeat direction="backward"/>') + whole,
    );
    expect(repeats(found)).toBe(". |:[1,2.1,2]:|x3 [3.3]:|x2 .");
  });
});

describe("tempo", () => {
  const metronome = (content: string, text = "") =>
    `<direction><direction-type>${text === "" ? "" : `<words>${text}</words></direction-type><direction-type>`}<metronome>${content}</metronome></direction-type></direction>`;
  const unit = (type: string, dots = 0) => `<beat-unit>${type}</beat-unit>${"<beat-unit-dot/>".repeat(dots)}`;

  it("is printed in any unit, with words beside it", () => {
    const found = score(
      metronome(`${unit("quarter", 1)}<per-minute>c. 60</per-minute>`, "Andante") + whole,
      metronome(`${unit("half")}<per-minute>72.5</per-minute>`) + whole,
    );
    expect(tempi(found)).toBe("Andante90 metronome, 145 metronome");
    expect(wordsIn(found)).toBe("0:0 Andante");
  });

  it("follows from the one before when a value is set equal to another", () => {
    const found = score(
      metronome(`${unit("quarter")}<per-minute>120</per-minute>`) + whole,
      metronome(unit("quarter") + unit("quarter", 1)) + whole,
    );
    // The beat lasts half a second before and after; it is a dotted quarter afterwards.
    expect(tempi(found)).toBe("120 metronome, 180 metronome");
  });

  it("comes from sound elements in the middle of a bar, moved by an offset", () => {
    const found = score(
      note("C5", 4) +
        '<direction><direction-type><words>rit.</words></direction-type><sound tempo="54"><offset>1</offset></sound><offset>2</offset></direction>' +
        note("C5", 4) +
        '<sound tempo="60"/>',
      whole,
    );
    expect(found.tempoMarks).toMatchObject([
      { words: "rit.", quartersPerMinute: 54, source: "sound", onset: quarters(3), barIndex: 0 },
      { words: null, quartersPerMinute: 60, onset: quarters(4), barIndex: 0 },
    ]);
  });

  it("is one mark for all that the parts say at a place, the printed number first", () => {
    const found = read(
      { measures: [`<sound tempo="119.7"/>${words("Allegro")}${whole}`] },
      { measures: [metronome(`${unit("quarter")}<per-minute>120</per-minute>`, "Allegro") + whole] },
    );
    expect(tempi(found.score)).toBe("Allegro120 metronome");
    expect(kindsOf(found)).toEqual([]);
  });

  it("is kept without a number where only words tell it, and words of other things are none", () => {
    const found = score(words("Lento assai") + whole, words("dolce") + whole);
    expect(tempi(found)).toBe("Lento assai? words");
    expect(wordsIn(found)).toBe("0:0 Lento assai, 1:0 dolce");
  });
});

describe("transposing parts", () => {
  const transpose = (content: string, staff = "") =>
    usualAttributes
      .replace("<fifths>0", "<fifths>2")
      .replace("</attributes>", `<transpose${staff}>${content}</transpose></attributes>`);

  it("sound as written less the transposition, and lend the piece its sounding key", () => {
    const found = score(
      transpose("<diatonic>-1</diatonic><chromatic>-2</chromatic>") + note("D5", 8),
      `<attributes><key><fifths>-1</fifths></key></attributes>${note("E4", 8)}`,
    );
    expect(sounding(found)).toBe("C5 D4");
    expect(fifths(found)).toBe("0 -3");
  });

  it("leave the key to a part at pitch when there is one", () => {
    const horn = transpose("<diatonic>-4</diatonic><chromatic>-7</chromatic>").replace(
      "<fifths>2",
      "<fifths>0",
    );
    const { score: found } = read(
      { measures: [horn + note("C5", 8)] },
      { measures: [usualAttributes.replace("<fifths>0", "<fifths>-3") + whole] },
    );
    expect(fifths(found)).toBe("-3");
  });

  it("are spelled as usual when the file gives semitones only", () => {
    expect(sounding(score(transpose("<chromatic>-9</chromatic>") + note("A4", 8)))).toBe("C4");
    expect(
      sounding(
        score(transpose("<chromatic>-2</chromatic><octave-change>-1</octave-change>") + note("D5", 8)),
      ),
    ).toBe("C4");
  });

  it("may transpose one staff only", () => {
    const staff = (number: number) => `<staff>${number}</staff>`;
    const found = score(
      transpose(
        "<diatonic>0</diatonic><chromatic>0</chromatic><octave-change>-1</octave-change>",
        ' number="2"',
      ) +
        note("C5", 8, staff(1)) +
        "<backup><duration>8</duration></backup>" +
        note("C5", 8, staff(2), "2"),
    );
    expect(sounding(found)).toBe("C5 C4");
    expect(partOf(found).transpositions).toEqual([]);
  });
});

describe("small print", () => {
  it("knows cue notes by element and by size, and hidden ones", () => {
    const found = score(
      note("C5", 2).replace("<pitch>", "<cue/><pitch>") +
        note("C5", 2, '<type size="cue">quarter</type>') +
        note("C5", 4).replace("<note>", '<note print-object="no">'),
    );
    expect(partOf(found).notes.map(({ isCue, isHidden }) => [isCue, isHidden])).toEqual([
      [true, false],
      [true, false],
      [false, true],
    ]);
  });

  it("joins words that change their face, and syllables over their elision", () => {
    const lyric = "<lyric><text>d'a</text><elision>‿</elision><text>mo</text></lyric>";
    const found = score(
      '<direction><direction-type><words>poco</words><words font-weight="bold">rit.</words></direction-type></direction>' +
        note("C5", 8, lyric),
    );
    expect(wordsIn(found)).toBe("0:0 poco rit.");
    expect(partOf(found).notes[0]?.lyric).toBe("d'a‿mo");
  });

  it("names parts by what is printed and by their instrument", () => {
    const listed =
      '<part-abbreviation>Cl.</part-abbreviation><score-instrument id="I1"><instrument-name>Clarinet</instrument-name><instrument-sound>wind.reed.clarinet.bflat</instrument-sound></score-instrument><midi-instrument id="I1"><midi-program>72</midi-program></midi-instrument>';
    const { score: found } = read(
      { name: "", listed, measures: [whole] },
      { name: "Piano\n  forte", measures: [whole] },
    );
    expect(partNames(found)).toBe("Clarinet · Piano forte");
    expect(found.parts[0]).toMatchObject({
      abbreviation: "Cl.",
      soundId: "wind.reed.clarinet.bflat",
      midiProgram: 72,
      role: "solo",
    });
  });

  it("finds the title in the credits when nothing else gives one", () => {
    const credits =
      "<credit><credit-type>title</credit-type><credit-words>Romanze</credit-words></credit><credit><credit-type>composer</credit-type><credit-words>A. N. Other</credit-words></credit>";
    const text = sourceOf({ measures: [whole] }).replace("<part-list>", `${credits}<part-list>`);
    expect(readText(text).score).toMatchObject({ title: "Romanze", movement: null, composer: "A. N. Other" });
  });

  it("says of a fermata on a bar line that no note is held by it", () => {
    expect(kindsOf(read({ measures: [`${whole}<barline><fermata/></barline>`] }))).toEqual([
      "fermata-on-bar-line",
    ]);
  });
});

describe("files of other shapes", () => {
  const partwise = sourceOf(
    { name: "Flöte", measures: [whole, note("D5", 8)] },
    { name: "Piano", measures: [note("C4", 8), barRest(8)] },
  );
  const expected = readText(partwise).score;

  it("are the same score in timewise order", () => {
    const list = /<part-list>.*<\/part-list>/s.exec(partwise)?.[0] ?? "";
    const measures = [...partwise.matchAll(/<measure number="(\d)">(.*?)<\/measure>/gs)];
    const turned = ["1", "2"].map((number) => {
      const parts = measures
        .filter(([, own]) => own === number)
        .map(([, , content], index) => `<part id="P${index + 1}">${content}</part>`);
      return `<measure number="${number}">${parts.join("")}</measure>`;
    });
    expect(
      readText(`<score-timewise version="4.0">${list}${turned.join("")}</score-timewise>`).score,
    ).toEqual(expected);
  });

  const utf16 = (text: string, isLittle: boolean, mark: string): Uint8Array => {
    const bytes = new Uint8Array((text.length + mark.length) * 2);
    const view = new DataView(bytes.buffer);
    for (const [at, unit] of [...`${mark}${text}`].entries())
      view.setUint16(at * 2, unit.charCodeAt(0), isLittle);
    return bytes;
  };

  it.each([
    ["UTF-8 with a mark", encode(`\ufeff${partwise}`)],
    ["UTF-16 little-endian with a mark", utf16(partwise.replace("UTF-8", "UTF-16"), true, "\ufeff")],
    ["UTF-16 big-endian without a mark", utf16(partwise.replace("UTF-8", "UTF-16"), false, "")],
    [
      "Latin-1",
      Uint8Array.from(partwise.replace("UTF-8", "ISO-8859-1"), (character) => character.charCodeAt(0)),
    ],
    [
      "a container",
      zipSync({
        "META-INF/container.xml": encode(
          '<container><rootfiles><rootfile full-path="s/score.xml"/></rootfiles></container>',
        ),
        "s/score.xml": encode(partwise),
      }),
    ],
    [
      "a container that stores without packing",
      zipSync(
        {
          "META-INF/container.xml": encode(
            '<container><rootfiles><rootfile full-path="a.musicxml"/></rootfiles></container>',
          ),
          "a.musicxml": encode(partwise),
        },
        { level: 0 },
      ),
    ],
  ])("are the same score in %s", (_name, bytes) => {
    const source = readScore(bytes);
    if (!source.ok) throw new Error(source.problem.kind);
    expect(source.value).toEqual({ score: expected, notices: [] });
  });
});
