import type { Phrase, Section } from "../phrase";
import { bassWithFigure, chords, handMade, line, melodyWithChords, octaves } from "../reduction";

/** The head climbs in the basses, each step opened by a run on its dominant. */
const climbing: Phrase = {
  bars: 8,
  harmony: "Gm | E7 | Am | F7 | Bb | G7 | Cm Gm | Em7b5 A7",
  lines: {
    solo: `r:h r:e !mf d5 (g5 bb) | r:e (e5:s f#) (g# a b c6) (d6 b g# b) (d6 b e6 d6) | c6:q' r r:h
      | r:e (f5:s g) (a bb c6 d6) (eb6 c6 a5 c6) (eb6 c6 f6 eb6) | d6:q' r r:h
      | r:e (g4:s a) (b c5 d eb) (f d b4 d5) (f d g f) | !< (eb5:q. f5:e g5:q d5) | (bb5:q. g5:e e5:q !. c#5)`,
    bass: `g2:q.> a2:e bb2:q g2 | g#2:q r e3 r | a2:q.> b2:e c3:q a2 | a2:q r f2 r
      | bb2:q.> c3:e d3:q bb2 | b2:q r g2 r | c3 r bb2 r | g2 r a2 r`,
  },
  score: {
    ob: "7-8 sustain",
    fg: "1 2:bass; 3 2:bass; 5 2:bass",
    hn: "1-8 sustain",
    vl1: "pulse",
    vl2: "pulse",
    vla: "pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 p; 2 mp; 5 mf; 7.1<8.4",
  right: [{ play: chords(["vl1", "vl2", "vla"]) }],
  left: [
    { bars: [1, 6], play: octaves("vc") },
    { bars: [7, 8], play: line("vc") },
  ],
};

const shortTutti: Phrase = {
  bars: 4,
  harmony: "Dm | Dm Gm | A7 | Dm:q Gm:q A:h",
  lines: {
    solo: "d5:q r r:h | R | R | R",
    melody: "d5:q.> e5:e f5:q d5 | a5:h> (g5:e f e d) | c#5:q. d5:e e5:q g5 | f5:q d5 (e5 a4)",
    bass: "d3:q f3 a3 d3 | f3 d3 g3 bb3 | a3 e3 a2 c#3 | d3 bb2 a2:h",
  },
  score: {
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
  },
  dynamics: "1 f; 4.1>4.4",
  right: [{ play: melodyWithChords("vl1", ["vl2", "vla"], { notes: 4 }) }],
  left: [{ play: bassWithFigure("cb", ["vl2", "vla", "hn"], { ceiling: 60, notes: 3 }) }],
};

/** Over the dominant pedal the soloist climbs, falls and comes to rest. */
const pedal: Phrase = {
  bars: 9,
  harmony: "A7 | Dm | A7 | Dm | Gm | A7 | Dm Em7b5 | A | A",
  lines: {
    solo: `!p a4:e c#5 e g (bb5:q a5) | a4:e d5 f a (d6:q a5) | !< c#5:e e g a (e6:q c#6)
      | d5:e f a d6 f6:q !. d6:e r | !f (d6:s c6 bb a) (bb a g f) (g f e d) (e d c bb4)
      | (a4:s c#5 e g) (a g e c#) (a4 g4 e4 c#4) (a3 c#4 e4 g4) | (f4:e a4 d5 f) (g5:e bb g e) | a5:h.@ r:q
      | !mf "quasi cadenza" a5:q@ (bb5:s a g f e d c# d) a4:e. a4:s`,
    bass: "a2:h a2 | a2 a2 | a2 a2 | a2 a2 | a2 a2 | a2 a2 | a2 bb2 | a2:h.@ r:q | R",
    last: "R | R | R | R | R | R | R | [c#4 e4]:h.@ r:q | R",
    lastHigh: "R | R | R | R | R | R | R | a4:h.@ r:q | R",
    lastViola: "R | R | R | R | R | R | R | e4:h.@ r:q | R",
    horns: "a3:w~ | a3:w~ | a3:w~ | a3:w | [a3 d4]:w | [a3 e4]:w | [a3 d4]:h [bb3 d4] | [a3 e4]:h.@ r:q | R",
    tacet: "R | R | R | R | R | R | R | r:h.@ r:q | R",
    drum: "a2:q r r:h | a2:q r r:h | a2:q r r:h | a2:q r r:h | a2:q r a2 r | a2:q r a2 r | a2:q r r:h | a2:h.@ r:q | R",
  },
  score: {
    fl: "tacet",
    ob: "5-7 sustain; 8 last; 9 rest",
    fg: "5-8 2:bass",
    hn: "horns",
    timp: "drum",
    vl1: "1-4 pulse; 5-7 tremolo; 8 lastHigh",
    vl2: "1-4 pulse; 5-7 tremolo; 8 last",
    vla: "1-4 pulse; 5-7 tremolo; 8 lastViola",
    vc: "bass",
    cb: "5-8 bass-1",
  },
  dynamics: "1 pp; 3.1<4.4; 5 f; 6.1>7.4; 8 p",
  right: [
    { bars: [1, 4], play: chords(["vl1", "vl2", "vla"]) },
    {
      bars: [5, 7],
      play: handMade(`[d4 g4 bb4]:e*8 | [c#4 e4 g4]:e*8 | [d4 f4 a4]:e*4 [d4 e4 g4]*4`),
    },
    { bars: [8, 8], play: handMade("[c#4 e4 a4]:h.@ r:q") },
  ],
  left: [
    { bars: [1, 7], play: octaves("vc") },
    { bars: [8, 8], play: handMade("[a2 e3 a3]:h.@ r:q") },
  ],
};

/** Bars 136–156: development, with a short tutti of four bars, and the way home. */
export const development: Section = {
  letter: "H",
  fifths: -1,
  mode: "minor",
  tempo: { words: "Tempo I", quartersPerMinute: 126 },
  words: [{ bar: 19, beat: 1, words: "allargando" }],
  closes: "light-light",
  phrases: [climbing, shortTutti, pedal],
};
