import type { Phrase, Section } from "../phrase";
import { chords, handMade, line, melodyWithChords, octaves } from "../reduction";

const theme: Phrase = {
  bars: 8,
  harmony: "Dm | Dm Gm | A7 | Dm:q Gm:q A:h | Dm | Gm:h. Em7b5:q | Dm A7 | Dm",
  lines: {
    solo: `d5:q. e5:e f5:q d5 | (a5:h g5:e f e d) | (c#5:q. d5:e) e5:q g5 | (f5:q d5) e5:e r a4:e. a4:s
      | d5:q. e5:e f5:e a5 d6:q | (bb5:q. d6:e) (a5:e3 bb a g f e) | (f5:q d5:e f) (e5:e f e c#5)
      | d5:q r r:e !< a4:e d5 f5`,
    bass: `d3:q r a2 r | d3 r g2 r | a2 r c#3 r | d3 bb2 a2 r
      | d3 r f3 r | g2 r bb2 g2 | a2 r a2 r | d3 r d3 r`,
  },
  score: {
    vl1: "1-6 afterbeat; 7-8 pulse",
    vl2: "1-6 afterbeat; 7-8 pulse",
    vla: "1-6 afterbeat; 7-8 pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 p; 7.1<8.4",
  right: [{ play: chords(["vl1", "vl2", "vla"]) }],
  left: [{ play: line("vc") }],
};

/** Theme head and broken chords by turns, down through a circle of fifths to the cadence. */
const passages: Phrase = {
  bars: 7,
  harmony: "Gm | C7 | F | Bb | Em7b5 | A7 | Dm A7",
  lines: {
    solo: `!. !f bb5:q. a5:e g5:q d5 | (c5:s e g bb) (c6 bb5 g e) g' e' c' e' (g bb) g' e'
      | a5:q. g5:e f5:q c5:e r | (bb4:s d5 f bb) (d6 bb5 f d) f' d' bb4' d5' (f bb) f' d'
      | g5:q. f5:e e5:q bb4:e r | (a4:s c#5 e g) (a g e c#) e' c#' a4' c#5' (e g a g) | (f5:q d5:e f) e5:h%`,
    bass: `g2:q r bb2 r | e3 r c3 r | f3 r a2 r | d3 r bb2 r | g2 r bb2 r | a2 r c#3 r | a2 r a2 a2`,
    horns: "R | R | R | R | R | R | [a3 f4]:h [a3 e4]",
    oboe: "R | r:h r:e g5 (e5 g) | R | r:h r:e f5 (d5 f) | R | r:h r:e e5 (c#5 e) | R",
  },
  score: {
    ob: "1:oboe",
    hn: "1-6 sustain; 7 horns",
    vl1: "pulse",
    vl2: "pulse",
    vla: "pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 p; 5.1<7.4",
  right: [{ play: chords(["vl1", "vl2", "vla"]) }],
  left: [{ play: line("vc") }],
};

/** The orchestra takes the cadence over. */
const takeover: Phrase = {
  bars: 1,
  harmony: "Dm",
  lines: {
    solo: "d5:q r r:h",
    melody: "[d5 f5]:q r r a4:e. a4:s",
    bass: "d3:q r d3 r",
    stroke: "[f4 a4]:q r r:h",
    strokeLow: "[a3 d4]:q r r:h",
  },
  score: {
    fl: "2:melody+1",
    ob: "2:melody",
    fg: "2:bass",
    hn: "hit",
    timp: "drums",
    vl1: "melody",
    vl2: "stroke",
    vla: "strokeLow",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 f",
  right: [{ play: handMade("[d4 f4 a4 d5]:q r r [a3 a4]:e. [a3 a4]:s") }],
  left: [{ play: octaves("vc") }],
};

/** Bars 29–44: the soloist takes the theme and carries it on. */
export const firstSolo: Section = {
  letter: "B",
  fifths: -1,
  mode: "minor",
  phrases: [theme, passages, takeover],
};

const shortTutti: Phrase = {
  bars: 6,
  harmony: "Dm | Dm Gm | C7 | F | Bb Gm | C7",
  lines: {
    melody: `d5:q.> e5:e f5:q d5 | a5:h> (g5:e f e d) | e5:q. f5:e g5:q bb5 | a5:q f5 c6:h
      | bb5:q. a5:e g5:q f5 | (g5:h e5:q) r`,
    bass: "d3:q. d3:e d3:q d3 | f3 f3 g3 bb2 | c3 c3 e3 c3 | f3 f3 a3 f3 | d3 d3 bb2 g2 | c3:h. r:q",
    solo: "R | R | R | R | R | r:h. !mf c5:e. c5:s",
    horns: "[a3 f4]:w | [a3 f4]:h [bb3 g4] | [bb3 e4]:w | [a3 f4]:w | [bb3 f4]:h [bb3 d4] | [bb3 e4]:h. r:q",
    second: "R | R | R | R | R | [bb4 c5]:h. r:q",
  },
  score: {
    fl: "1-5 2:melody+1",
    ob: "2:melody",
    fg: "2:bass",
    hn: "horns",
    timp: "1-5 drums",
    vl1: "melody",
    vl2: "1-5 pulse",
    vla: "1-5 pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 f; 5.1>6.3",
  right: [
    { bars: [1, 5], play: melodyWithChords("vl1", ["vl2", "vla"]) },
    { bars: [6, 6], play: handMade("([bb4 e5 g5]:h [g4 bb4 e5]:q) r") },
  ],
  left: [
    { bars: [1, 5], play: octaves("vc") },
    { bars: [6, 6], play: line("vc") },
  ],
};

/** From D minor by rising fifths to the dominant of F. */
const transition: Phrase = {
  bars: 8,
  harmony: "F | F Bb | D7 | Gm | E7 | Am | Dm | G7",
  lines: {
    solo: `f5:q. g5:e a5:q f5 | (c6:h bb5:e a g f) | (d5:s e f# g) (a bb c6 a) (f# a c6 a) (d6 c6 a c6)
      | bb5:q. a5:e g5:q r | (e5:s f# g# a) (b c6 d6 b) (g# b d6 b) (e6 d6 b d6) | c6:q. b5:e a5:q r
      | (a5:e3 f d) (f5 d a4) (d5 f a) (d6 a f) | (b5:e3 g d) (g5 d b4) (d5 f b) (d6 b g)`,
    bass: `f3:q r a3 r | f3 r d3 r | f#3 r d3 r | g3 r bb3 r | g#3 r e3 r | a3 r c3 r | f3 r d3 r | b2 r g2 r`,
    echo: "R | R | R | r:h r:e d5 (g5 bb) | R | r:h r:e e5 (a5 c6) | R | R",
  },
  score: {
    fl: "4 1:echo; 6 1:echo",
    ob: "1-2 sustain; 7-8 sustain",
    hn: "3-8 sustain",
    vl1: "1-2 afterbeat; 3-8 pulse",
    vl2: "1-2 afterbeat; 3-8 pulse",
    vla: "1-2 afterbeat; 3-8 pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 p; 3.1<8.4",
  right: [{ play: chords(["vl1", "vl2", "vla"]) }],
  left: [{ play: line("vc") }],
};

/** The dominant is reached, the motion runs out. */
const standstill: Phrase = {
  bars: 4,
  harmony: "C | F | C7 | C7",
  lines: {
    solo: `!f (g5:h e5:q) r | !> (a5:h. f5:q) | (g5:h bb5:q !. e5) | !p g5:h.@ r:q`,
    bass: "c3:q r c3 r | c3:h. r:q | c3:h. r:q | c3:h.@ r:q",
    motive: "r:q c5:q. d5:e e5:q | f5:h. r:q | R | R",
    low: "[e4 g4]:h. r:q | [f4 a4]:h. r:q | [e4 g4]:h. r:q | [bb3 e4]:h.@ r:q",
    high: "c5:h. r:q | c5:h. r:q | bb4:h. r:q | g4:h.@ r:q",
    viola: "g3:h. r:q | a3:h. r:q | g3:h. r:q | c4:h.@ r:q",
    horns: "[c4 e4]:h. r:q | [c4 f4]:h. r:q | [bb3 c4]:h. r:q | [bb3 c4]:h.@ r:q",
    tacet: "R | R | R | r:h.@ r:q",
  },
  score: {
    fl: "4 tacet",
    ob: "1-2 1:motive; 4 tacet",
    fg: "4 tacet",
    hn: "horns",
    timp: "4 tacet",
    vl1: "high",
    vl2: "low",
    vla: "viola",
    vc: "bass",
    cb: "1 bass-1; 4 tacet",
  },
  dynamics: "1 mf; 2.1>3.3; 4 pp",
  right: [
    {
      play: handMade(`r:q c5:q. d5:e e5:q | f5:h. r:q | [e4 g4 bb4]:h. r:q | [e4 g4 bb4]:h.@ r:q`),
    },
    { bars: [1, 2], voice: 2, play: handMade("[e4 g4]:h. r:q | [f4 a4]:h. r:q") },
  ],
  left: [{ play: handMade("[c3 g3]:h [c3 g3]:h | [c3 a3]:h. r:q | [c3 g3]:h. r:q | [c3 g3]:h.@ r:q") }],
};

/** Bars 45–62: short tutti, then the way to F major. */
export const transitionToF: Section = {
  letter: "C",
  fifths: -1,
  mode: "minor",
  words: [{ bar: 17, beat: 1, words: "poco rit." }],
  closes: "light-light",
  phrases: [shortTutti, transition, standstill],
};
