import type { Phrase, Section } from "../phrase";
import { bassWithFigure, chords, line, melodyWithChords } from "../reduction";

const leaps: Phrase = {
  bars: 8,
  harmony: "F | Bb | Gm | C7 | F Dm | Gm C7 | Am Dm | Gm C7",
  lines: {
    solo: `!mf (f4:s a c5 f) (a f c a4) c5:q' c5' | (d5:s e f g) (a bb c6 d6) bb5:q' bb5'
      | (g4:s bb d5 g) (bb g d bb4) d5:q' d5' | (e5:s f g a) (bb c6 d6 e6) c6:q' r
      | (a5:e3 c6 a) (f5 a f) (d5 f d) (a4 d5 f) | (g5:e3 bb g) (d5 g d) (e5 g e) (c5 e g)
      | (c6:e3 e6 c6) (a5 c6 a) (f5 a f) (d5 f a) | !< (bb5:e3 d6 bb) (g5 bb g) (e5 g e) (c5 e !. g)`,
    bass: `f3:q r c3 r | bb2 r d3 r | g2 r bb2 r | c3 r e3 r
      | f3 r d3 r | bb2 r c3 r | c3 r d3 r | g2 r c3 r`,
  },
  score: {
    fg: "5-8 1:bass",
    hn: "5-8 sustain",
    vl1: "afterbeat",
    vl2: "afterbeat",
    vla: "afterbeat",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 p; 7.1<8.4",
  right: [{ play: chords(["vl1", "vl2", "vla"]) }],
  left: [{ play: line("vc") }],
};

/** The woodwind put in the theme, in F; the soloist runs up to the last trill. */
const runUp: Phrase = {
  bars: 8,
  harmony: "F | Bb Gm | C7 | F | Bb Gm | F | C7 | C7",
  lines: {
    solo: `!f a5:q' r r:h | r:e !mf f5 (bb5 c6) (d6:e c6 bb g) | (e5:s g bb c6) (e6 c6 bb5 g) e' g' bb' g' (c6 bb5) g' e'
      | f5:q' a5' c6' r | (d6:s c6 bb a) (bb a g f) (g f e d) (e d c bb4)
      | (a4:s c5 f a) (c6 a f c) a4' c5' f' a' (c6 f6 c6 a5) | !f g5:w%~ | !< g5:h. (f5:e !. g)`,
    melody: `f5:q. g5:e a5:q f5 | (bb5:q d6) r:h | R | R | R | R | R | r:h. c5:e. c5:s`,
    bass: `f3:q r a2 r | bb2 r g2 r | c3 r e3 r | f3 r a3 r | bb2 r g2 r | c3 r c3 r | c3 c3 c3 c3 | c3 c3 c3 r`,
    violins: `R | R | R | R | R | R | R | [e4 bb4]:e [e4 bb4] [e4 bb4] [e4 bb4] [e4 bb4] [e4 bb4] c5:e. c5:s`,
    seconds: `R | R | R | R | R | R | R | g4:e*6 r:q`,
  },
  score: {
    fl: "1 1:melody+1; 2 1:melody",
    ob: "1-2 1:melody; 7 sustain; 8 2:melody",
    fg: "1-2 1:bass; 7-8 2:bass",
    hn: "3-7 sustain",
    vl1: "1-6 afterbeat; 7 pulse; 8 violins",
    vl2: "1-6 afterbeat; 7 pulse; 8 seconds",
    vla: "1-6 afterbeat; 7-8 pulse",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 mf; 3 p; 5.1<8.4",
  right: [
    { bars: [1, 2], play: melodyWithChords("ob", ["vl1", "vl2", "vla"], { notes: 2 }) },
    { bars: [3, 7], play: chords(["vl1", "vl2", "vla"]) },
    { bars: [8, 8], play: chords(["vl1", "vl2"]) },
  ],
  left: [
    { bars: [1, 2], play: bassWithFigure("vc", ["vl2", "vla"], { ceiling: 62 }) },
    { bars: [3, 8], play: line("vc") },
  ],
};

/** Bars 80–95: the soloist's brilliant close of the exposition. */
export const closingGroup: Section = {
  letter: "E",
  fifths: -1,
  mode: "major",
  tempo: { words: "Tempo I", quartersPerMinute: 126 },
  phrases: [leaps, runUp],
};
