import type { Phrase, Section } from "../phrase";
import { chords, handMade, line, melodyWithChords, octaves } from "../reduction";

/** The theme again, now over running basses. */
const theme: Phrase = {
  bars: 8,
  harmony: "Dm | Dm Gm | A7 | Dm:q Gm:q A:h | Dm | Gm:h. Em7b5:q | Dm A7 | Dm",
  lines: {
    solo: `!f d5:q. e5:e f5:q d5 | (a5:h g5:e f e d) | (c#5:q. d5:e) e5:q g5 | (f5:q d5) e5:e r a4:e. a4:s
      | d5:q. e5:e f5:e a5 d6:q | (bb5:q. d6:e) (a5:e3 bb a g f e) | (f5:q d5:e f) (e5:e f e c#5) | d5:q r r:h`,
    bass: `d3:e a3 f3 a3 d3 a3 f3 a3 | d3 a3 f3 a3 g2 d3 bb2 d3 | a2 e3 g3 e3 c#3 e3 g3 e3 | d3 f3 bb2 d3 a2 e3 c#3 e3
      | d3:e a3 f3 a3 d3 a3 f3 a3 | g2 d3 bb2 d3 g3 d3 bb2 g2 | a2 d3 f3 d3 a2 e3 c#3 e3 | d3 a3 f3 a3 d3:q r`,
    answer: `R | R | R | r:h r:q a4:e. a4:s | R | R | R | r:q !mf d5:e e5 f5 g5 a5 f5`,
  },
  score: {
    fl: "4 1:answer; 8 1:answer+1",
    ob: "1-3 sustain; 5-7 sustain; 8 1:answer",
    hn: "sustain",
    vl1: "1-8 afterbeat",
    vl2: "1-8 afterbeat",
    vla: "1-8 afterbeat",
    vc: "bass",
    cb: "8 rest",
  },
  dynamics: "1 mf",
  right: [
    { bars: [1, 7], play: chords(["vl1", "vl2", "vla"]) },
    { bars: [8, 8], play: handMade("r:q d5:e e5 f5 g5 a5 f5") },
  ],
  left: [{ play: line("vc") }],
};

/** Broken chords first, then the theme's head: the order of the first solo turned round. */
const passages: Phrase = {
  bars: 8,
  harmony: "Gm | C7 | F | Bb | Em7b5 | A7 | Bb Gm | A",
  lines: {
    solo: `(g4:s bb d5 g) (bb g d bb4) d5' bb4' g4' bb4' (d5 g) d' bb4' | bb5:q. a5:e g5:q e5:e r
      | (f4:s a c5 f) (a f c a4) c5' a4' f4' a4' (c5 f) c' a4' | d6:q. c6:e bb5:q f5:e r
      | (e4:s g bb e5) (g e bb4 g4) bb4' g4' e4' g4' (bb4 e5) bb4' g4' | c#5:q. d5:e e5:q g5
      | !< (f5:e d bb4 d5) (g5:e bb d6 !. bb) | a5:q' e5' c#5' r`,
    bass: `g2:q r bb2 r | c3 r e3 r | f3 r a2 r | d3 r bb2 r | g2 r bb2 r | a2 r c#3 r | d3 r bb2 r | a2 a2 a2 r`,
    strokes: "R | R | R | R | R | R | R | [a4 e5]:q [a4 e5] [a4 e5] r",
    strokesSecond: "R | R | R | R | R | R | R | [c#4 e4]:q [c#4 e4] [c#4 e4] r",
  },
  score: {
    ob: "7 sustain",
    fg: "7-8 2:bass",
    hn: "1-7 sustain",
    vl1: "1-7 pulse; 8 strokes",
    vl2: "1-7 pulse; 8 strokesSecond",
    vla: "1-7 pulse; 8 quarters",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 p; 5.1<7.4; 8 f",
  right: [
    { bars: [1, 7], play: chords(["vl1", "vl2", "vla"]) },
    { bars: [8, 8], play: handMade("[c#4 e4 a4]:q' [c#4 e4 a4]' [c#4 e4 a4]' r") },
  ],
  left: [{ play: line("vc") }],
};

/** Bars 157–172: the theme returns. */
export const recapitulation: Section = {
  letter: "I",
  fifths: -1,
  mode: "minor",
  tempo: { words: "a tempo", quartersPerMinute: 126 },
  phrases: [theme, passages],
};

const shortTutti: Phrase = {
  bars: 5,
  harmony: "Dm | Gm | E7 | A | A7",
  lines: {
    melody: `d5:q.> e5:e f5:q d5 | bb5:h> (a5:e g f d) | e5:q. f#5:e g#5:q b5 | (a5:h e5:q c#5) | (e5:h g5:q) r`,
    bass: "d3:q. d3:e d3:q d3 | g2 g2 bb2 g2 | g#2 g#2 e3 d3 | c#3:h a2 | a2:h. r:q",
    middle: "R | R | R | [c#4 a4]:h. e4:q | [c#4 e4]:h. r:q",
    low: "R | R | R | e4:h a3 | g3:h. r:q",
  },
  score: {
    fl: "1-3 2:melody+1; 4-5 1:melody",
    ob: "1-3 2:melody",
    fg: "1-3 2:bass",
    hn: "1-3 sustain; 4 sustain",
    timp: "1-3 drums",
    vl1: "1-3 melody",
    vl2: "1-3 pulse; 4-5 middle",
    vla: "1-3 pulse; 4-5 low",
    vc: "bass",
    cb: "1-3 bass-1",
  },
  dynamics: "1 f; 3.1>3.4; 4 p; 5 pp",
  right: [
    { bars: [1, 3], play: melodyWithChords("vl1", ["vl2", "vla"]) },
    { bars: [4, 5], play: handMade("([c#5 e5 a5]:h [a4 e5]:q [e4 c#5]) | ([c#5 e5]:h [e5 g5]:q) r") },
  ],
  left: [
    { bars: [1, 3], play: octaves("vc") },
    { bars: [4, 5], play: handMade("[c#3 a3]:h [a2 e3] | [a2 g3]:h. r:q") },
  ],
};

/** Bars 173–177: short tutti that turns D minor into D major. */
export const turnToMajor: Section = {
  letter: "K",
  fifths: -1,
  mode: "minor",
  words: [{ bar: 4, beat: 1, words: "rit." }],
  closes: "light-light",
  phrases: [shortTutti],
};

const period: Phrase = {
  bars: 8,
  harmony: "D | D Bm | Em | A7 | Bm | G Em | D A7 | D",
  lines: {
    solo: `!p "dolce" (a4:h d5:q. e5:e) | (f#5:h. e5:e d) | (g5:q. f#5:e) (e5:q b4) | c#5:h r:q a4
      | (d5:h f#5:q. g5:e) | !< (b5:h. !. g5:q) | !> (f#5:q d5) (e5:q. !. c#5:e) | d5:h. r:q`,
    bass: "d3:h f#2 | d3 b2 | e3 g2 | a2 c#3 | b2 d3 | g2 e3 | a2 a2 | d3:h. r:q",
    echo: "R | R | R | r:h r:e c#5 (e5 g) | R | R | R | R",
    flute: `R | R | R | R | (f#5:h d6) | (d6:h b5) | (a5:h g5 | f#5:h.) r:q`,
    end: "R | R | R | R | R | R | R | [a3 f#4]:h. r:q",
    endViola: "R | R | R | R | R | R | R | d4:h. r:q",
  },
  score: {
    fl: "5-8 1:flute",
    ob: "4 1:echo",
    hn: "5-7 sustain",
    vl1: "1-7 sustain; 8 end",
    vl2: "1-7 sustain; 8 endViola",
    vla: "1-7 triplets",
    vc: "bass",
    cb: "5-8 bass-1",
  },
  dynamics: "1 p; 6.1<6.4; 7.1>7.4",
  right: [
    { bars: [1, 3], play: line("vla") },
    { bars: [4, 4], play: handMade("a3:e3 c#4 e4 a3 c#4 e4 r:e c#5 (e5 g5)") },
    { bars: [5, 7], play: line("vla") },
    { bars: [8, 8], play: handMade("[d4 f#4 a4]:h. r:q") },
  ],
  left: [{ play: line("vc") }],
};

const continuation: Phrase = {
  bars: 8,
  harmony: "F#7 | Bm | B7 | Em | A7 | D G | D A7 | Dm",
  lines: {
    solo: `!mp (c#5:q. d5:e e5:q c#5) | (d5:h b4:q) r | (f#5:q. g5:e a5:q f#5) | (g5:h e5:q) r
      | !< (a5:q. b5:e c#6:q !. a5) | !f d6:h (b5:q g5) | !> (f#5:q a5) (e5:q. !. c#5:e) | !pp d5:h. r:q`,
    bass: "a#2:h f#2 | b2 d3 | d#3 b2 | e3 g2 | c#3 a2 | f#2 g2 | a2 a2 | d3:h. r:q",
    echo: "R | r:h r:e d5 (f#5 b) | R | r:h r:e e5 (g5 b) | R | R | R | R",
    end: "R | R | R | R | R | R | R | [a3 f4]:h. r:q",
    endSecond: "R | R | R | R | R | R | R | d4:h. r:q",
  },
  score: {
    fl: "1:echo",
    ob: "5-7 sustain",
    hn: "5-7 sustain",
    vl1: "1-7 syncope; 8 end",
    vl2: "1-7 syncope; 8 endSecond",
    vla: "1-7 syncope",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 p; 5.1<5.4; 6 mf; 7.1>7.4; 8 pp",
  right: [
    { bars: [2, 2], play: handMade("[d4 f#4 b4]:h r:e d5 (f#5 b5)") },
    { bars: [4, 4], play: handMade("[e4 g4 b4]:h r:e e5 (g5 b5)") },
    { bars: [1, 7], play: chords(["vl1", "vl2", "vla"]) },
    { bars: [8, 8], play: handMade("[d4 f4 a4]:h. r:q") },
  ],
  left: [
    { bars: [1, 7], play: line("vc") },
    { bars: [8, 8], play: handMade("[d3 a3]:h. r:q") },
  ],
};

/** Bars 178–193: the lyrical theme in D major; its last chord falls back to minor. */
export const secondThemeInD: Section = {
  letter: "L",
  fifths: 2,
  mode: "major",
  tempo: { words: "Poco meno mosso", quartersPerMinute: 104 },
  words: [{ bar: 15, beat: 1, words: "rit." }],
  closes: "light-light",
  phrases: [period, continuation],
};
