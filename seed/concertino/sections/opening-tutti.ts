import type { Phrase, Section } from "../phrase";
import { bassWithFigure, handMade, line, melodyWithChords, octaves } from "../reduction";

const upbeat: Phrase = {
  bars: 1,
  barTicks: 24,
  harmony: "",
  lines: { melody: "a4:e. a4:s" },
  score: {
    fl: "2:melody+1",
    ob: "2:melody",
    vl1: "melody",
    vl2: "melody",
    vla: "melody-1",
  },
  dynamics: "1 f",
  right: [{ play: handMade("[a4 a5]:e. [a4 a5]:s") }],
  left: [{ play: handMade("[a2 a3]:e. [a2 a3]:s") }],
};

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

/** Antecedent of four bars, consequent up to its cadence. */
const theme: Phrase = {
  bars: 6,
  harmony: "Dm | Dm Gm | A7 | Dm:q Gm:q A:h | Dm | Gm:h. Em7b5:q",
  lines: {
    melody: `d5:q.> e5:e f5:q d5 | a5:h> (g5:e f e d) | c#5:q. d5:e e5:q g5 | f5:q d5 e5 a4:e. a4:s
      | d5:q.> e5:e f5:q d5 | bb5:h> (a5:e g f e)`,
    bass: `d3:q. d3:e d3:q d3 | f3 f3 g3 bb3 | a3 a3 a3 c#3 | d3 bb2 a2 r
      | d3:q. d3:e d3:q c3 | bb2 bb2 g2 g2`,
  },
  score: fullTutti,
  dynamics: "1 f",
  right: [{ play: melodyWithChords("vl1", ["vl2", "vla"]) }],
  left: [{ play: octaves("vc") }],
};

/**
 * The cadence that closes theme and answer alike: same notes both times, so that the music goes on from either into
 * the same phrase.
 */
const cadence: Phrase = {
  bars: 2,
  harmony: "Dm A7 | Dm",
  lines: {
    melody: "f5:q (d5:e f) e5:q c#5 | d5:q> d5> d5> r",
    bass: "a2:q a2 a2 a2 | d3 d3 d3 r",
  },
  score: {
    ...fullTutti,
    hn: "1 sustain; 2 strokes",
    vl2: "1 pulse; 2 strokes",
    vla: "1 pulse; 2 strokes",
  },
  dynamics: "1 f",
  right: [{ play: melodyWithChords("vl1", ["vl2", "vla"]) }],
  left: [{ play: octaves("vc") }],
};

const answerHarmony = "Gm C7 | F Bb | Em7b5 A7 | Dm | Gm | Gm Em7b5";
const answerMelody = `(bb5:q a5:e g) e5:q' e5' | (a5:q g5:e f) d5:q' d5' | (g5:q f5:e e) c#5:q' c#5'
  | d5:q f5 a5:h | (d6:q c6:e bb5) g5:q' bb5' | g5:q bb5 e5 g5`;

/** The answer, quietly, oboe and flute over plucked strings. */
const answer: Phrase = {
  bars: 6,
  harmony: answerHarmony,
  lines: {
    melody: answerMelody,
    bass: `g3:q r c3 r | f3 r bb2 r | e3 r a2 r | d3 e3 f3 a3 | g3 r g2 r | bb2 r g2 r`,
  },
  score: {
    fl: "4-6 1:melody",
    ob: "1:melody",
    fg: "4-6 1:bass",
    vl1: "afterbeat",
    vl2: "afterbeat",
    vla: "afterbeat",
    vc: "bass",
    cb: "5-6 bass-1",
  },
  dynamics: "1 p; 5.1<6.4",
  right: [{ play: line("ob") }],
  left: [{ play: bassWithFigure("vc", ["vl1", "vl2", "vla"], { ceiling: 64 }) }],
};

/** The answer again, by everybody. */
const answerByAll: Phrase = {
  bars: 6,
  harmony: answerHarmony,
  lines: {
    melody: answerMelody,
    bass: `g3:q g2 c3 c3 | f3 f2 bb2 bb2 | e3 e3 a2 a2 | d3 e3 f3 a3 | g3 g3 g2 g2 | bb2 bb2 g2 g2`,
  },
  score: { ...fullTutti, vl2: "melody-1", vla: "pulse", hn: "pulse", ob: "2:melody", fl: "2:melody" },
  dynamics: "1 ff",
  right: [{ play: melodyWithChords("vl1", ["vla", "hn"]) }],
  left: [{ play: octaves("vc") }],
};

/** The cadence is turned aside to B flat; a unison and a half close, and the soloist takes over. */
const close: Phrase = {
  bars: 6,
  harmony: "Dm A7 | Bb | Gm:h. Em7b5:q | A7 | Dm Gm | A",
  lines: {
    melody: `f5:q (d5:e f) e5:q c#5 | d5:q.> e5:e f5:q d5 | bb5:q.> a5:e g5:q e5 | c#6:q.> a5:e e5:q g5
      | f5:q> e5> d5> bb4> | a4:h@ r`,
    bass: `a2:q a2 a2 a2 | bb2:q. bb2:e bb2:q bb2 | g2 g2 g2 bb2 | a2 a2 c#3 e3
      | f3> e3> d3> bb2> | a2:h@ r`,
    harmonyHorns: `[a3 f4]:h [a3 e4] | [bb3 f4]:w | [bb3 d4]:h. [bb3 e4]:q | [a3 e4]:w
      | f4:q> e4> d4> bb3> | [a3 e4]:h@ r`,
    unison: "R | R | R | R | f4:q> e4> d4> bb3> | [c#4 e4]:h@ r",
    lead: "R | R | R | R | R | r:h !mf a3:e3 c#4 e4 a4:e. a4:s",
  },
  score: {
    fl: "1-3 2:melody+1; 4 2:melody; 5-6 2:melody+1",
    ob: "2:melody",
    fg: "2:bass",
    hn: "harmonyHorns",
    timp: "1-4 drums; 6 bass",
    solo: "lead",
    vl1: "melody",
    vl2: "1-4 pulse; 5-6 unison",
    vla: "1-4 pulse; 5-6 unison",
    vc: "bass",
    cb: "bass-1",
  },
  dynamics: "1 f; 4 ff",
  right: [
    { bars: [1, 4], play: melodyWithChords("vl1", ["vl2", "vla"]) },
    { bars: [5, 6], play: handMade("[f4 f5]:q> [e4 e5]> [d4 d5]> [bb3 bb4]> | [c#4 e4 a4]:h@ r") },
  ],
  left: [{ play: octaves("vc") }],
};

/** Bars 0–28: the orchestra presents the theme, its answer twice, and a half close. */
export const openingTutti: Section = {
  letter: "A",
  fifths: -1,
  mode: "minor",
  tempo: { words: "Allegro con spirito", quartersPerMinute: 126 },
  phrases: [upbeat, theme, cadence, answer, cadence, answerByAll, close],
};
