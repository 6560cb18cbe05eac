import { describe, expect, it } from "vitest";
import { applyCuts } from "@/lib/musicxml/cut/apply-cuts";
import { writeTree } from "@/lib/musicxml/write-tree";
import { textOf } from "@/lib/musicxml/xml-tree";
import { findFaults } from "./find-faults";
import {
  all,
  backup,
  bars,
  cut,
  direction,
  labels,
  music,
  note,
  opening,
  source,
  tie,
  xml,
} from "./small-source";

const whole = (pitch: string) => note(pitch, 16);
const apply = (tree: ReturnType<typeof source>, ...cuts: string[]) =>
  applyCuts(tree, cuts.map(cut), { marks: false });

describe("applyCuts", () => {
  it("changes nothing without a cut", () => {
    const tree = source([whole("C5"), whole("D5")]);
    expect(writeTree(applyCuts(tree, [], { marks: true }).tree)).toBe(writeTree(tree));
    expect(music(bars(applyCuts(tree, [cut("2 to 2")], { marks: true }).tree)[1])).toBe("D5:16");
  });

  it("leaves the source as it was", () => {
    const tree = source([whole("C5"), whole("D5"), whole("E5")]);
    const before = writeTree(tree);
    apply(tree, "2+1 to 3+2");
    expect(writeTree(tree)).toBe(before);
  });

  it("keeps numbers and ids, of bars and notes", () => {
    const tree = source([whole("C5"), whole("D5"), whole("E5"), whole("F5")]);
    const left = apply(tree, "2 to 4").tree;
    expect(labels(left)).toEqual(["1", "4"]);
    expect(bars(left).map((bar) => bar.attributes.id)).toEqual(["b0", "b3"]);
    expect(bars(left).flatMap((bar) => all(bar, "note").map((each) => each.attributes.id))).toEqual([
      "n0-0-0",
      "n0-3-0",
    ]);
  });

  it("carries out several cuts, also such as touch, at the start and at the end", () => {
    const tree = source(["C5", "D5", "E5", "F5", "G5", "A5", "B5"].map(whole));
    expect(labels(apply(tree, "1 to 2", "3 to 4", "4 to 5", "7 to 8").tree)).toEqual(["2", "5", "6"]);
  });

  it.each([
    ["reversed", "3 to 2"],
    ["beyond the end", "2 to 9"],
    ["outside its bar", "2+5 to 3"],
    ["of the whole piece", "1 to 5"],
  ])("refuses a cut %s", (_, text) => {
    expect(() => apply(source(["C5", "D5", "E5", "F5"].map(whole)), text)).toThrow(RangeError);
  });
});

describe("a cut inside bars", () => {
  const piece = () =>
    source([
      ["C5", "D5", "E5", "F5"].map((pitch) => note(pitch, 4)).join(""),
      whole("r"),
      ["G5", "A5", "B5", "C6"].map((pitch) => note(pitch, 4)).join(""),
    ]);

  it("makes one bar of two parts that add up to the metre, with the number of the first", () => {
    const { tree, joins } = apply(piece(), "1+2 to 3+2");
    expect(labels(tree)).toEqual(["1"]);
    expect(music(bars(tree)[0])).toBe("C5:4 D5:4 B5:4 C6:4");
    expect(joins[0]?.sentenceParts).toMatchObject({ beforeLabel: "1", afterLabel: "3", isOneBar: true });
    expect(all(bars(tree)[0], "bar-style").map(textOf)).toEqual(["light-light"]);
  });

  it("leaves two short bars when they do not add up", () => {
    const { tree } = apply(piece(), "1+2 to 3+1");
    expect(labels(tree)).toEqual(["1", "3"]);
    expect(bars(tree).map(music)).toEqual(["C5:4 D5:4", "A5:4 B5:4 C6:4"]);
  });

  it("writes each voice through before the next", () => {
    const two = (upper: string[], lower: string[]) =>
      upper.map((pitch) => note(pitch, 4)).join("") +
      backup(16) +
      lower.map((pitch) => note(pitch, 4, { voice: 2 })).join("");
    const tree = source([
      two(["C5", "D5", "E5", "F5"], ["C4", "D4", "E4", "F4"]),
      two(["G5", "A5", "B5", "C6"], ["G4", "A4", "B4", "C5"]),
    ]);
    const { tree: left } = apply(tree, "1+1 to 2+1");
    expect(music(bars(left)[0])).toBe("C5:4 A5:4 B5:4 C6:4 C4:4 A4:4 B4:4 C5:4");
    expect(all(bars(left)[0], "backup").map((each) => textOf(all(each, "duration")[0] ?? null))).toEqual([
      "16",
    ]);
  });

  it("shortens what is held into the cut and strikes again what is held out of it, with a notice", () => {
    const tree = source([whole("C5"), whole("D5")]);
    const { tree: left, notices } = apply(tree, "1+1 to 2+3");
    expect(bars(left).map(music)).toEqual(["C5:4", "D5:4"]);
    expect(notices.map(({ kind, barLabel }) => [kind, barLabel])).toEqual([["note-struck-again", "2"]]);
  });

  it("ties values when no single one is so long", () => {
    const { tree } = apply(source([whole("C5"), whole("D5")]), "1+5/2 to 2");
    expect(music(bars(tree)[0])).toBe("C5:8( )C5:2");
    expect(all(bars(tree)[0], "type").map(textOf)).toEqual(["half", "eighth"]);
  });

  it("keeps chords together when they are divided", () => {
    const { tree } = apply(source([whole("C5") + whole("+E5"), whole("D5")]), "1+5/2 to 2");
    expect(music(bars(tree)[0])).toBe("C5:8( E5:8( )C5:2 )E5:2");
  });

  it("gives a voice that rests through a joined bar one rest", () => {
    const rest = '<note><rest measure="yes"/><duration>16</duration><voice>1</voice></note>';
    const { tree } = apply(source([rest, whole("C5"), rest]), "1+2 to 3+2");
    expect(music(bars(tree)[0])).toBe("r:16");
  });

  it("takes the middle out of one bar", () => {
    const { tree } = apply(piece(), "1+1 to 1+3");
    expect(labels(tree)).toEqual(["1", "2", "3"]);
    expect(music(bars(tree)[0])).toBe("C5:4 F5:4");
  });

  it("counts finer when the cut asks for it", () => {
    const { tree } = apply(source([whole("C5"), whole("D5")]), "1+1/3 to 2");
    expect(textOf(all(bars(tree)[0], "divisions")[0] ?? null)).toBe("12");
    expect(music(bars(tree)[0])).toBe("C5:4");
    expect(music(bars(tree)[1])).toBe("D5:48");
  });
});

describe("what spans notes", () => {
  const between = (start: string, stop: string) => [
    note("C5", 8, { notations: start }) + note("D5", 8),
    whole("E5"),
    whole("F5"),
    note("G5", 8, { notations: stop }) + note("A5", 8),
  ];
  const marks = (bar: Parameters<typeof all>[0], name: string) =>
    all(bar, name).map(({ attributes }) => attributes.type);

  it.each(["slur", "tuplet", "wavy-line"])("ends a %s on the last note before a cut", (name) => {
    const inside = (type: string) => {
      const mark = `<${name} type="${type}" number="1"/>`;
      return name === "wavy-line" ? `<ornaments>${mark}</ornaments>` : mark;
    };
    const { tree } = apply(source(between(inside("start"), inside("stop"))), "2 to 5");
    expect(all(bars(tree)[0], "note").map((each) => marks(each, name))).toEqual([["start"], ["stop"]]);
  });

  it("begins a slur again on the first note after a cut", () => {
    const tree = source(between('<slur type="start" number="2"/>', '<slur type="stop" number="2"/>'));
    const { tree: left } = apply(tree, "1 to 3");
    expect(marks(bars(left)[0], "slur")).toEqual(["start"]);
    expect(marks(bars(left)[1], "slur")).toEqual(["stop"]);
  });

  it("takes a slur away that has one note left", () => {
    const tree = source(between('<slur type="start"/>', '<slur type="stop"/>'));
    expect(marks(bars(apply(tree, "1+2 to 5").tree)[0], "slur")).toEqual([]);
    expect(marks(bars(apply(tree, "1 to 4").tree)[0], "slur")).toEqual([]);
  });

  it("takes a glissando away, which would lead nowhere", () => {
    const tree = source(
      between('<glissando type="start" line-type="wavy"/>', '<glissando type="stop" line-type="wavy"/>'),
    );
    expect(all(bars(apply(tree, "2 to 5").tree)[0], "glissando")).toEqual([]);
  });

  it.each([
    ["wedge", '<wedge type="crescendo" number="1"/>', '<wedge type="stop" number="1"/>', "crescendo"],
    ["octave-shift", '<octave-shift type="down" size="8"/>', '<octave-shift type="stop" size="8"/>', "down"],
    ["pedal", '<pedal type="start" line="yes"/>', '<pedal type="stop" line="yes"/>', "start"],
    ["dashes", '<dashes type="start" number="1"/>', '<dashes type="stop" number="1"/>', "start"],
    ["bracket", '<bracket type="start" line-end="down"/>', '<bracket type="stop" line-end="down"/>', "start"],
  ])("ends and begins a %s around a cut", (name, start, stop, started) => {
    const tree = source([
      direction(start) + whole("C5"),
      whole("D5"),
      whole("E5"),
      whole("F5") + direction(stop),
    ]);
    const before = apply(tree, "2 to 5").tree;
    expect(marks(bars(before)[0], name)).toEqual([started, "stop"]);
    const after = apply(tree, "1 to 3").tree;
    expect(marks(bars(after)[0], name)).toEqual([started]);
    expect(marks(bars(after)[1], name)).toEqual(["stop"]);
    // Across a cut it simply goes on.
    expect(bars(apply(tree, "2 to 4").tree).map((bar) => marks(bar, name))).toEqual([[started], ["stop"]]);
    // Wholly inside, it is gone.
    const inside = source([whole("C5"), direction(start) + whole("D5") + direction(stop), whole("E5")]);
    expect(bars(apply(inside, "2 to 3").tree).map((bar) => marks(bar, name))).toEqual([[], []]);
  });

  it("begins and ends around music that a long hairpin passes through", () => {
    const tree = source([
      whole("C5"),
      direction('<wedge type="diminuendo"/>') + whole("D5"),
      whole("E5"),
      whole("F5") + direction('<wedge type="stop"/>'),
      whole("G5"),
    ]);
    const { tree: left } = apply(tree, "2 to 3", "4 to 5");
    expect(bars(left).map((bar) => marks(bar, "wedge"))).toEqual([[], ["diminuendo", "stop"], []]);
  });

  it("divides beams", () => {
    const beamed = ["begin", "continue", "continue", "end"]
      .map((value) => note("C5", 2, { after: `<beam number="1">${value}</beam>` }))
      .join("");
    const { tree } = apply(source([beamed + beamed, whole("D5")]), "1+1 to 1+7/2");
    expect(all(bars(tree)[0], "beam").map(textOf)).toEqual(["begin", "end"]);
    expect(findFaults(tree)).toEqual([]);
  });

  it("drops ties into a cut and writes the accidental on the note that is struck anew", () => {
    const tree = source([
      note("F#5", 16, { ...tie("start"), after: "" }).replace(
        "<staff>",
        "<accidental>sharp</accidental><staff>",
      ),
      note("F#5", 16, {
        before: '<tie type="stop"/><tie type="start"/>',
        notations: '<tied type="stop"/><tied type="start"/>',
      }),
      note("F#5", 8, tie("stop")) +
        note("F#5", 8).replace("<staff>", "<accidental>sharp</accidental><staff>"),
    ]);
    expect(bars(apply(tree, "2 to 3").tree).map(music)).toEqual([
      "[sharp]F#5:16",
      "[sharp]F#5:8 [sharp]F#5:8",
    ]);
  });

  it("writes the accidental that stood earlier in a bar that is cut", () => {
    const sharp = note("F#5", 4).replace("<staff>", "<accidental>sharp</accidental><staff>");
    const tree = source([whole("C5"), sharp + note("F#5", 4) + note("G5", 4) + note("F#5", 4)]);
    const { tree: left } = apply(tree, "1+1 to 2+1");
    expect(music(bars(left)[0])).toBe("C5:4 [sharp]F#5:4 G5:4 F#5:4");
  });

  it("writes a natural where the half bar before has left a sharp", () => {
    const sharp = note("F#5", 8).replace("<staff>", "<accidental>sharp</accidental><staff>");
    const tree = source([sharp + note("G5", 8), whole("D5"), note("E5", 8) + note("F5", 8)]);
    expect(music(bars(apply(tree, "1+2 to 3+2").tree)[0])).toBe("[sharp]F#5:8 [natural]F5:8");
  });

  it("leaves no hyphen towards a cut", () => {
    const sung = (syllabic: string) =>
      note("C5", 16).replace(
        "</note>",
        `<lyric number="1"><syllabic>${syllabic}</syllabic><text>la</text></lyric></note>`,
      );
    const tree = source([sung("begin"), sung("middle"), sung("end")]);
    const syllables = (left: ReturnType<typeof source>) =>
      bars(left).flatMap((bar) => all(bar, "syllabic").map(textOf));
    expect(syllables(apply(tree, "2 to 4").tree)).toEqual(["single"]);
    expect(syllables(apply(tree, "1 to 2").tree)).toEqual(["begin", "end"]);
    expect(syllables(apply(tree, "2 to 3").tree)).toEqual(["single", "single"]);
  });

  it("takes a rest of several bars apart when a cut goes through it", () => {
    const style = "<attributes><measure-style><multiple-rest>3</multiple-rest></measure-style></attributes>";
    const tree = source([whole("C5"), style + whole("r"), whole("r"), whole("r"), whole("D5")]);
    expect(all(bars(apply(tree, "3 to 4").tree)[1], "multiple-rest")).toEqual([]);
    expect(all(bars(apply(tree, "5 to 6").tree)[1], "multiple-rest")).toHaveLength(1);
  });

  it("says when a bar repeats one that is cut", () => {
    const sign =
      '<attributes><measure-style><measure-repeat type="start">1</measure-repeat></measure-style></attributes>';
    const { notices } = apply(source([whole("C5"), whole("D5"), sign, whole("E5")]), "2 to 3");
    expect(notices.map(({ kind }) => kind)).toContain("repeated-bar-cut");
  });
});

describe("what holds on", () => {
  const changes = `<attributes><key><fifths>-3</fifths></key><time><beats>3</beats><beat-type>4</beat-type></time><clef number="1"><sign>F</sign><line>4</line></clef></attributes>`;
  const threeFour = (pitch: string) => note(pitch, 12);

  it("is written again when the cut changed it", () => {
    const { tree } = apply(source([whole("C5"), changes + threeFour("D3"), threeFour("E3")]), "2 to 3");
    const [restated] = all(bars(tree)[1], "attributes");
    expect(xml(restated)).toBe(changes);
  });

  it("is not written when it stands there anyway, or never changed", () => {
    const tree = source([
      whole("C5"),
      changes + threeFour("D3"),
      `<attributes><clef number="1"><sign>G</sign><line>2</line></clef></attributes>${threeFour("E5")}`,
    ]);
    const { tree: left } = apply(tree, "2 to 3");
    expect(all(bars(left)[1], "key").length).toBe(1);
    expect(all(bars(left)[1], "clef").map((each) => textOf(all(each, "sign")[0] ?? null))).toEqual(["G"]);
    expect(
      all(bars(apply(source([whole("C5"), whole("D5"), whole("E5")]), "2 to 3").tree)[1], "attributes"),
    ).toEqual([]);
  });

  it("does not announce a clef that never comes", () => {
    const clef = '<attributes><clef number="1"><sign>F</sign><line>4</line></clef></attributes>';
    const tree = source([
      whole("C5") + clef,
      whole("D3"),
      `<attributes><clef number="1"><sign>G</sign><line>2</line></clef></attributes>${whole("E5")}`,
    ]);
    expect(all(bars(apply(tree, "2 to 3").tree)[0], "clef").length).toBe(1);
  });

  it("restates tempo and loudness that were set inside the cut", () => {
    const adagio =
      '<direction placement="above"><direction-type><words>Adagio</words></direction-type><sound tempo="60"/></direction>';
    const tree = source([
      direction("<words>Allegro</words>", '<sound tempo="120"/>') +
        direction("<dynamics><ff/></dynamics>") +
        whole("C5"),
      adagio + direction("<dynamics><p/></dynamics>") + whole("D5"),
      whole("E5"),
    ]);
    const [, after] = bars(apply(tree, "2 to 3").tree);
    expect(xml(after)).toContain(adagio);
    expect(all(after, "dynamics").map(xml)).toEqual(["<dynamics><p/></dynamics>"]);
  });

  it("does not restate a tempo that came back", () => {
    const tree = source([
      direction("<words>Allegro</words>") + whole("C5"),
      direction("<words>rit.</words>") + whole("D5"),
      direction("<words>a tempo</words>") + whole("E5"),
    ]);
    expect(all(bars(apply(tree, "2 to 3").tree)[1], "words").map(textOf)).toEqual(["a tempo"]);
  });
});

describe("the join", () => {
  const piece = () => source(["C5", "D5", "E5", "F5"].map(whole), ["C4", "D4", "E4", "F4"].map(whole));

  it("has a double bar in every part and the words over the first", () => {
    const { tree, joins } = applyCuts(piece(), [cut("2 to 4")], { marks: true });
    for (const part of [0, 1]) {
      expect(all(bars(tree, part)[0], "bar-style").map(textOf)).toEqual(["light-light"]);
      expect(bars(tree, part).flatMap((bar) => all(bar, "words").map(textOf))).toEqual(
        part === 0 ? ["Vi–", "–de"] : [],
      );
    }
    expect(joins).toEqual([
      {
        beforeBarIndex: 0,
        afterBarIndex: 3,
        cutBarIndex: 1,
        sentenceParts: {
          beforeLabel: "1",
          beforeOffset: null,
          afterLabel: "4",
          afterOffset: null,
          isOneBar: false,
        },
      },
    ]);
  });

  it("leaves a repeat sign alone, and ends the piece where the end is cut", () => {
    const repeat =
      '<barline location="right"><bar-style>light-heavy</bar-style><repeat direction="backward"/></barline>';
    const { tree } = apply(source([whole("C5") + repeat, whole("D5"), whole("E5")]), "2 to 3");
    expect(xml(all(bars(tree)[0], "barline")[0])).toBe(repeat);
    expect(all(bars(apply(piece(), "3 to 5").tree)[1], "bar-style").map(textOf)).toEqual(["light-heavy"]);
  });
});

it("opens with everything when the start is cut", () => {
  const { tree } = apply(source([whole("C5"), whole("D5")]), "1 to 2");
  expect(xml(bars(tree)[0])).toContain(opening);
});
