import type { Phrase, Section } from "../phrase";
import { bassWithFigure, chords, handMade, line, melodyWithChords, octaves } from "../reduction";

/** The theme in the orchestra, the soloist in sixteenths around it. */
const chase: Phrase = {
  bars: 4,
  harmony: "Dm | Dm Gm | A7 | Dm:q Gm:q A:h",
  lines: {
    solo: `!p (d5:s f a d6) (a5 f d f) (a4 d5 f a) (f d a4 d5) | (f5:s a d6 a5) (f d f a) (g5 bb d6 bb5) (g d g bb)
      | !< (a5:s g e c#) (e c# a4 c#5) (e c# a4 g4) (a4 c#5 e g) | (f5:s d a4 d5) (g d bb4 d5) !. e5:q r`,
    melody: "d4:q. e4:e f4:q d4 | a4:h (g4:e f e d) | c#4:q. d4:e e4:q g4 | f4:q d4 e4 a3",
    bass: "d3:q r d3 r | f3 r g2 r | a2 r a2 r | d3 bb2 a2 r",
  },
  score: {
    fg: "3-4 1:bass",
    hn: "3-4 sustain",
    vl1: "1-4 melody+1",
    vl2: "pulse",
    vla: "pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 p; 3.1<4.4",
  right: [{ play: melodyWithChords("vl1", ["vl2", "vla"], { notes: 2 }) }],
  left: [{ play: bassWithFigure("vc", ["vl2", "vla"], { ceiling: 60 }) }],
};

/** The basses leap from their own octave into the chords and back, eighth by eighth. */
const leapingBass: Phrase = {
  bars: 4,
  harmony: "Dm | Gm:h. Em7b5:q | Dm A7 | Bb",
  lines: {
    solo: `!f (d6:s c#6 d6 a5) (f a d6 f6) (e6 d6 a5 f5) d5:q | r:e bb5:e' d6' g5' d5:e' g5' bb5' g5'
      | (f5:s d f a) (d6 a f d) (e5 c# e g) (a5 g e c#) | d5:q r f5:e' bb5' d6' f6'`,
    melody: "d5:q. e5:e f5:q d5 | bb5:h (a5:e g f e) | f5:q (d5:e f) e5:q c#5 | d5:h. r:q",
    bass: "d3:q d3 d3 d3 | g2 g2 bb2 g2 | a2 a2 a2 a2 | bb2 bb2 bb2 bb2",
  },
  score: {
    ob: "2:melody",
    fg: "2:bass",
    hn: "sustain",
    timp: "drums",
    vl1: "pulse",
    vl2: "pulse",
    vla: "pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 f",
  right: [{ play: line("ob") }],
  left: [{ play: bassWithFigure("cb", ["vl1", "vl2", "vla"], { ceiling: 65, notes: 3 }) }],
};

/** Neapolitan, six-four, trill: the last long cadence. */
const lastCadence: Phrase = {
  bars: 4,
  harmony: "Gm | Eb | Dm | A7",
  lines: {
    solo: `(g5:s bb a g) (f# g a bb) (d6 c6 bb a) (bb a g f) | (eb5:s g bb eb6) (bb5 g eb g) (bb4 eb5 g bb) g5:e' r
      | (d5:s f a d6) (a5 f d a4) (f4 a4 d5 f) (a f d f) | !< e5:h.% (d5:e !. e5)`,
    bass: "bb2:q bb2 bb2 bb2 | g2 g2 g2 g2 | a2 a2 a2 a2 | a2 a2 a2 a2",
  },
  score: {
    fl: "4 sustain",
    ob: "3-4 sustain",
    fg: "2:bass",
    hn: "sustain",
    timp: "3-4 drums",
    vl1: "pulse",
    vl2: "pulse",
    vla: "pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 mf; 3.1<4.4",
  right: [{ play: chords(["vl1", "vl2", "vla"]) }],
  left: [{ play: octaves("vc") }],
};

/** Everybody: the theme on high over hammered sixteenths. */
const triumph: Phrase = {
  bars: 4,
  harmony: "Dm | Gm:h. Em7b5:q | Dm | A7",
  lines: {
    solo: `!ff d6:q. e6:e f6:q d6 | bb5:h (a5:e g f e) | (f5:e a d6 f6) (d6 a5 f d) | (e5:e g c#6 e6) (c#6 a5 g) r`,
    bass: "d3:q d3 d3 d3 | g2 g2 g2 bb2 | a2 a2 a2 a2 | a2 a2 a2 c#3",
    top: "d5:s*16 | d5:s*16 | f5:s*16 | e5:s*16",
    second: "f4:s*16 | g4:s*12 bb4*4 | a4:s*16 | g4:s*16",
    winds: "[d5 f5]:w | [d5 g5]:h. [d5 bb5]:q | [f5 a5]:w | [e5 g5]:w",
  },
  score: {
    fl: "winds+1",
    ob: "winds",
    fg: "2:bass",
    hn: "sustain",
    timp: "drums",
    vl1: "top",
    vl2: "second",
    vla: "tremolo",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 ff",
  right: [
    {
      play: handMade(`[d4 f4 d5]:s*16 | [d4 g4 d5]:s*12 [d4 bb4 d5]*4 | [f4 a4 f5]:s*16 | [e4 g4 e5]:s*16`),
    },
  ],
  left: [{ play: octaves("vc") }],
};

const last: Phrase = {
  bars: 4,
  harmony: "Dm A7 | Dm A7 | Dm | Dm",
  lines: {
    solo: `d5:q' f5' e5' c#5' | d5:q' a5' (g5:e e5) c#5:q' | d5:s f a d6 f6 d6 a5 f d5:q r | d5:w@`,
    melody: "d5:q' f5' e5' c#5' | d5:q' f5' e5' c#5' | d5:q> r d5> r | d5:w@",
    bass: "d3:q' d3' a2' a2' | d3:q' d3' a2' a2' | d3:q> r d3> r | d3:w@",
    chordsHigh: "R | R | [f4 d5]:q> r [f4 d5]> r | [f4 d5]:w@",
    chordsLow: "R | R | [f4 a4]:q> r [f4 a4]> r | [f4 a4]:w@",
    violas: "R | R | [a3 f4]:q> r [a3 f4]> r | [a3 f4]:w@",
    horns: "[a3 f4]:h [a3 e4] | [a3 f4]:h [a3 e4] | [a3 f4]:q> r [a3 f4]> r | [a3 f4]:w@",
  },
  score: {
    fl: "2:melody+1",
    ob: "1-2 2:melody; 3-4 chordsLow+1",
    fg: "2:bass",
    hn: "horns",
    timp: "bass",
    vl1: "1-2 melody; 3-4 chordsHigh",
    vl2: "1-2 pulse; 3-4 chordsLow",
    vla: "1-2 pulse; 3-4 violas",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 ff",
  right: [
    { bars: [1, 2], play: melodyWithChords("vl1", ["vl2", "vla"], { notes: 3 }) },
    { bars: [3, 4], play: handMade("[d4 f4 a4 d5]:q> r [d4 f4 a4 d5]> r | [d4 f4 a4 d5]:w@") },
  ],
  left: [{ play: octaves("vc") }],
};

/** Bars 194–213: coda. */
export const coda: Section = {
  letter: "M",
  fifths: -1,
  mode: "minor",
  tempo: { words: "Più mosso", quartersPerMinute: 138 },
  closes: "light-heavy",
  phrases: [chase, leapingBass, lastCadence, triumph, last],
};
