import type { Phrase, Section } from "../phrase";
import { handMade, line } from "../reduction";

/** The horn sings against the soloist; the reduction has no finger left for it. */
const song: Phrase = {
  bars: 8,
  harmony: "Bb | Cm | F7 | Bb | Bb Bb7 | Eb Cm | Bb F7 | Bb",
  lines: {
    solo: `(d5:q. c5:e bb4:q f5) | (eb5:q. d5:e c5:h) | (c5:q. d5:e eb5:q a4) | bb4:h r:e f4 (bb4 c5)
      | (d5:q. eb5:e f5:q d5) | !< (g5:q. f5:e !. eb5:h) | !> (d5:e eb f g) (f5:q !. c5) | bb4:h. r:q`,
    bass: "bb2:h d3 | c3 eb3 | f3 f2 | bb2 bb2 | bb2 ab2 | g2 c3 | f3 f2 | bb2:h. r:q",
    counter: `!mp "espr." (bb3:h d4:q. f4:e) | (g4:h eb4:q. d4:e) | (c4:h eb4:q f4) | (f4:q. eb4:e d4:q. c4:e)
      | (bb3:q. c4:e d4:q ab3) | (g3:h c4:q. eb4:e) | (f4:h a3:q. c4:e) | (d4:q. c4:e bb3:q) r`,
    end: "R | R | R | R | R | R | R | [d4 f4]:h. r:q",
    endSecond: "R | R | R | R | R | R | R | f3:h. r:q",
  },
  score: {
    fg: "1:bass",
    hn: "1:counter",
    vl2: "1-7 triplets; 8 end",
    vla: "1-7 sustain; 8 endSecond",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 pp",
  right: [
    { bars: [1, 7], play: line("vl2") },
    { bars: [8, 8], play: handMade("[d4 f4]:h. r:q") },
  ],
  left: [{ play: line("vc") }],
};

/** Now the violoncellos have the counter-song; in the piano the bass lies an octave and more away from its tenor. */
const answer: Phrase = {
  bars: 8,
  harmony: "Gm | D7 | Gm C7 | F | Bb | Eb Cm | Bb F7 | Bb",
  lines: {
    solo: `!mf (bb5:h. a5:e g) | (a5:q. g5:e f#5:q d5) | (g5:q. f5:e e5:q bb5) | a5:h r:q c6
      | !f (d6:h. c6:e bb) | !> (bb5:q. g5:e) (eb5:q g5) | (f5:q d5) (c5:q. !. a4:e) | !p bb4:h.@ r:q`,
    bass: "g2:h g2 | f#2 d3 | g2 c3 | f2 a2 | bb2 d3 | eb3 c3 | f3 f2 | bb2:h.@ r:q",
    counter: `!mf "espr." (bb3:q. c4:e d4:h) | (d4:q. c4:e a3:h) | (bb3:q. d4:e c4:h) | (a3:q. c4:e f4:h)
      | (d4:q. f4:e) (d4:q bb3) | (g3:h c4:q eb4) | (d4:q. f4:e) (eb4:q c4) | d4:h.@ r:q`,
    tacet: "R | R | R | R | R | R | R | r:h.@ r:q",
    end: "R | R | R | R | R | R | R | [d4 f4]:h.@ r:q",
    endSecond: "R | R | R | R | R | R | R | f3:h.@ r:q",
  },
  score: {
    fl: "8 tacet",
    ob: "8 tacet",
    fg: "2:bass",
    hn: "1-7 sustain; 8 tacet",
    timp: "8 tacet",
    vl1: "1-7 rest; 8 tacet",
    vl2: "1-7 triplets; 8 end",
    vla: "1-7 sustain; 8 endSecond",
    vc: "counter",
    cb: "bass-1",
  },
  tenorClef: ["vc"],
  dynamics: "1 mp; 3.1<4.4; 5 mf; 6.1>7.4; 8 pp",
  right: [
    { bars: [1, 7], play: line("vl2") },
    { bars: [8, 8], play: handMade("[d4 f4]:h.@ r:q") },
  ],
  left: [
    {
      bars: [1, 4],
      play: handMade(
        `[g1 d2 d3]:w | [f#1 d2 c3]:h [d2 a2 f#3]:h | [g1 d2 d3]:h [c2 bb2 g3]:h | [f1 c2 c3]:h [a1 f2 f3]:h`,
      ),
    },
    { bars: [5, 8], play: line("fg") },
  ],
};

/** Bars 120–135: slow episode in B flat major. */
export const andante: Section = {
  letter: "G",
  fifths: -2,
  mode: "major",
  tempo: { words: "Andante cantabile", quartersPerMinute: 72 },
  words: [{ bar: 15, beat: 1, words: "poco rit." }],
  closes: "light-light",
  phrases: [song, answer],
};
