import type { Phrase, Section } from "../phrase";
import { bassWithFigure, chords, handMade, line } from "../reduction";

const period: Phrase = {
  bars: 9,
  harmony: "F | F Dm | Gm | C7 | Dm | Bb Gm | F C7 | F C7 | F",
  lines: {
    solo: `!p "dolce" (c5:h f5:q. g5:e) | (a5:h. g5:e f) | (bb5:q. a5:e) (g5:q d5) | e5:h r:q c5
      | (f5:h a5:q. bb5:e) | !< (d6:h. !. bb5:q) | !> (a5:q f5) (g5:q. !. e5:e) | f5:h r | f5:h. r:q`,
    bass: "f3:h a2 | f3 d3 | g3 bb2 | c3 e3 | d3 f3 | bb2 g2 | c3 c3 | f3 c3 | f3:h. r:q",
    echo: "R | R | R | r:h r:e e5 (g5 bb) | R | R | R | r:h r:e g5 (bb5 e) | R",
    end: "R | R | R | R | R | R | R | R | [c4 a4]:h. r:q",
    endViola: "R | R | R | R | R | R | R | R | f4:h. r:q",
  },
  score: {
    fl: "8 1:echo",
    ob: "4 1:echo",
    hn: "5-7 sustain",
    vl1: "1-8 sustain; 9 end",
    vl2: "1-8 sustain; 9 endViola",
    vla: "1-8 arpeggio",
    vc: "bass",
    cb: "5-8 bass-1",
  },
  dynamics: "1 p; 6.1<6.4; 7.1>7.4",
  right: [
    { bars: [1, 3], play: chords(["vl1", "vl2"]) },
    { bars: [4, 4], play: handMade("[g4 bb4]:h r:e e5 (g5 bb5)") },
    { bars: [5, 7], play: chords(["vl1", "vl2"]) },
    { bars: [8, 8], play: handMade("[f4 a4]:h r:e g5 (bb5 e5)") },
    { bars: [9, 9], play: handMade("[f4 a4]:h. r:q") },
  ],
  left: [
    { bars: [1, 8], play: bassWithFigure("vc", ["vla"], { notes: 1, ceiling: 64 }) },
    { bars: [9, 9], play: handMade("[f3 c4]:h. r:q") },
  ],
};

const continuation: Phrase = {
  bars: 8,
  harmony: "A7 | Dm | D7 | Gm | C7 | F Bb | F C7 | F",
  lines: {
    solo: `!mp (e5:q. f5:e g5:q e5) | (f5:h d5:q) r | (a5:q. bb5:e c6:q a5) | (bb5:h g5:q) r
      | !< (c6:q. d6:e e6:q !. c6) | !f f6:h (d6:q bb5) | !> (a5:q c6) (g5:q. !. e5:e) | !p f5:h. r:q`,
    bass: "c#3:h a2 | d3 f3 | f#3 d3 | g3 bb2 | e3 c3 | a2 bb2 | c3 c3 | f3:h. r:q",
    echo: "R | r:h r:e f5 (a5 d6) | R | r:h r:e g5 (bb5 d6) | R | R | R | R",
    end: "R | R | R | R | R | R | R | [c4 a4]:h. r:q",
    endSecond: "R | R | R | R | R | R | R | f4:h. r:q",
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
  dynamics: "1 p; 5.1<5.4; 6 mf; 7.1>7.4; 8 p",
  right: [
    { bars: [2, 2], play: handMade("[d4 f4 a4]:h r:e f5 (a5 d6)") },
    { bars: [4, 4], play: handMade("[d4 g4 bb4]:h r:e g5 (bb5 d6)") },
    { bars: [1, 7], play: chords(["vl1", "vl2", "vla"]) },
    { bars: [8, 8], play: handMade("[f4 a4]:h. r:q") },
  ],
  left: [
    { bars: [1, 7], play: line("vc") },
    { bars: [8, 8], play: handMade("[f3 c4]:h. r:q") },
  ],
};

/** Bars 63–79: the lyrical theme in F major, its first half repeated. */
export const secondTheme: Section = {
  letter: "D",
  fifths: -1,
  mode: "major",
  tempo: { words: "Poco meno mosso", quartersPerMinute: 104 },
  repeat: { from: 1, firstEnding: 8, secondEnding: 9 },
  words: [{ bar: 16, beat: 1, words: "poco rit." }],
  closes: "light-light",
  phrases: [period, continuation],
};
