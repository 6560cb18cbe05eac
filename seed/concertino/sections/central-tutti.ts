import type { Phrase, Section } from "../phrase";
import { handMade, line, melodyWithChords, octaves } from "../reduction";

const fullTutti: Phrase["score"] = {
  fl: "2:melody+1",
  ob: "2:melody",
  fg: "2:bass",
  hn: "sustain",
  timp: "drums",
  vl1: "melody",
  vl2: "pulse",
  vla: "pulse",
  vc: "bass",
  cb: "bass-1",
};

const themeInF: Phrase = {
  bars: 8,
  harmony: "F | F Bb | C7 | F:q Bb:q C:h | F | Bb Gm | F C7 | F",
  lines: {
    solo: "f5:q r r:h | R | R | R | R | R | R | R",
    melody: `f5:q.> g5:e a5:q f5 | c6:h> (bb5:e a g f) | e5:q. f5:e g5:q bb5 | a5:q f5 g5 c5:e. c5:s
      | f5:q.> g5:e a5:q f5 | d6:h> (c6:e bb a g) | a5:q (f5:e a) g5:q e5 | f5:q> f5> f5> d5:e. d5:s`,
    bass: `f3:q. f3:e f3:q f3 | a2 a2 bb2 d3 | c3 c3 c3 e3 | f3 d3 c3 r
      | f3:q. f3:e f3:q f3 | bb2 bb2 g2 bb2 | c3 c3 c3 c3 | f3 f3 f3 r`,
  },
  score: {
    ...fullTutti,
    fl: "1-5 2:melody+1; 6 2:melody; 7-8 2:melody+1",
    hn: "1-7 sustain; 8 strokes",
    vl2: "1-7 pulse; 8 strokes",
    vla: "1-7 pulse; 8 strokes",
  },
  dynamics: "1 ff",
  right: [{ play: melodyWithChords("vl1", ["vl2", "vla"]) }],
  left: [{ play: octaves("vc") }],
};

/** The same head in G minor: what looks like a repetition stands a tone higher. */
const themeInG: Phrase = {
  bars: 4,
  harmony: "Gm | Gm Cm | D7 | Gm:q Cm:q D:h",
  lines: {
    melody: "g5:q.> a5:e bb5:q g5 | d6:h> (c6:e bb a g) | f#5:q. g5:e a5:q c6 | bb5:q g5 a5 d5",
    bass: "g2:q. g2:e g2:q g2 | bb2 bb2 c3 eb3 | d3 d3 d3 f#3 | g3 eb3 d3 r",
  },
  score: fullTutti,
  dynamics: "1 f",
  right: [{ play: melodyWithChords("vl1", ["vl2", "vla"]) }],
  left: [{ play: octaves("vc") }],
};

/** A chain of suspensions, each tied over its barline, down a circle of fifths. */
const suspensions: Phrase = {
  bars: 4,
  harmony: "Gm Cm7 | F7 Bbmaj7 | Ebmaj7 Am7b5 | D7",
  lines: {
    melody: "d6:h eb6~ | eb6 d6~ | d6 c6~ | c6:h (bb5:e a g f#)",
    second: "bb5:w | a5:w | g5:w | f#5:h d5:h",
    bass: "g2:q g3 c3 c4 | f3 f2 bb2 bb3 | eb3 eb4 a2 a3 | d3 d3 d3 c3",
  },
  score: {
    fl: "2:melody",
    ob: "2:second",
    fg: "2:bass",
    hn: "sustain",
    timp: "4 drums",
    vl1: "melody",
    vl2: "second",
    vla: "pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 f; 4.1<4.4",
  right: [{ play: line("vl1") }, { voice: 2, play: line("vl2") }],
  left: [{ play: line("vc") }],
};

/** The head in the bass under measured tremolo: taken over note for note, as reductions do. */
const storm: Phrase = {
  bars: 4,
  harmony: "Gm | Gm Cm | D7 | Gm:q Eb:q F:h",
  lines: {
    melody: "g5:s*16 | bb5:s*8 g5*8 | a5:s*8 f#5*8 | g5:s*8 f5*8",
    second: "d5:s*16 | d5:s*8 eb5*8 | c5:s*8 d5*8 | bb4:s*8 c5*8",
    winds: "g5:w | bb5:h g5 | a5:h f#5 | g5:h f5",
    windsSecond: "[bb4 d5]:w | [d5 g5]:h [c5 eb5] | [c5 f#5]:h [a4 d5] | [bb4 d5]:q [bb4 eb5] [a4 c5]:h",
    bass: "g2:q.> a2:e bb2:q g2 | d3:h> (c3:e bb2 a2 g2) | f#2:q. g2:e a2:q c3 | bb2:q g2 a2:h",
  },
  score: {
    fl: "2:winds+1",
    ob: "windsSecond",
    fg: "2:bass",
    hn: "sustain",
    timp: "drums",
    vl1: "melody",
    vl2: "second",
    vla: "tremolo",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 ff; 4.1>4.4",
  right: [{ play: octavesWithInner() }],
  left: [{ play: octaves("vc") }],
};

/** Literal: first violins doubled at the octave, seconds between, sixteenth for sixteenth. */
function octavesWithInner() {
  const top = octaves("vl1");
  const inner = line("vl2");
  return (place: Parameters<typeof top>[0]) => {
    const middle = inner(place);
    return top(place).map((event, i) => {
      const [low, ...high] = event.pitches;
      return low ? { ...event, pitches: [low, ...(middle[i]?.pitches ?? []), ...high] } : event;
    });
  };
}

/** Over the dominant of B flat the orchestra dies away. */
const dying: Phrase = {
  bars: 4,
  harmony: "F7 | Bb | F7 | F7",
  lines: {
    melody: "(c6:h bb5:q a5) | (bb5:h. f5:q) | (eb5:h d5:q c5) | a4:h.@ r:q",
    bass: "f3:w | f3:w | f3:w | f3:h.@ r:q",
    horns: "[c4 eb4]:w | [d4 f4]:w | [a3 eb4]:w | [c4 eb4]:h.@ r:q",
    middle: "[c5 eb5]:w | [bb4 d5]:w | [a4 c5]:w | [c4 eb4]:h.@ r:q",
    tacet: "R | R | R | r:h.@ r:q",
    solo: 'R | R | R | r:h.@ !p "espressivo" f4:q',
    violas: "[c4 f4]:w | [d4 f4]:w | [c4 f4]:w | f4:h.@ r:q",
  },
  score: {
    fl: "1-2 1:melody; 4 tacet",
    ob: "1-2 rest; 3-4 1:melody",
    fg: "4 tacet",
    hn: "horns",
    timp: "4 tacet",
    vl1: "1-2 rest; 3-4 tacet",
    vl2: "middle",
    vla: "violas",
    vc: "bass",
    cb: "1-2 bass-1; 4 tacet",
  },
  dynamics: "1 p; 3 pp",
  right: [
    { bars: [1, 2], play: line("fl") },
    { bars: [3, 4], play: handMade("(eb5:h d5:q c5) | [c4 eb4 a4]:h.@ r:q") },
    { bars: [1, 3], voice: 2, play: handMade("[c5 eb5]:w | [bb4 d5]:h. bb4:q | a4:w") },
  ],
  left: [{ play: handMade("[f3 c4 eb4]:w | [f3 bb3 d4]:w | [f3 c4 eb4]:w | [f2 f3]:h.@ r:q") }],
};

/** Bars 96–119: the long tutti in the middle, from F through G minor to the dominant of B flat. */
export const centralTutti: Section = {
  letter: "F",
  fifths: -1,
  mode: "major",
  words: [{ bar: 23, beat: 1, words: "rit." }],
  closes: "light-light",
  phrases: [themeInF, themeInG, suspensions, storm, dying],
};
