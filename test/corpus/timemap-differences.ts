import type { DifferenceSummary } from "./compare-timemap";

/** Differences between our time and the engraver's in one file that were looked at, and why both are as they are. */
export interface ExplainedFile {
  readonly file: string;
  readonly why: string;
  readonly differences: readonly DifferenceSummary[];
}

export const explainedDifferences: readonly ExplainedFile[] = [
  {
    file: "songs/berlioz_nuits_d_ete_1_villanelle.mxl",
    why: "A metronome mark says 96 where playback's `sound` says 120: the printed mark counts here, the `sound` there.",
    differences: [
      { what: "seconds", count: 131, first: "bar 2, 1250 ms here, 1000 ms there" },
      { what: "seconds-by-bar", count: 131, first: "bar 2, 1250 ms here, 1000 ms there" },
    ],
  },
  {
    file: "songs/wagner_wesendonck_5_traeume.mxl",
    why: "A tempo changes inside a bar: it counts from its place here; the engraver's timemap has one tempo a bar, the last in it, from the bar's start (with the marks moved so, all times agree).",
    differences: [{ what: "seconds", count: 44, first: "bar 42, 122923 ms here, 122769 ms there" }],
  },
  {
    file: "pairs/moniuszko_ruiny_vocal_score.mxl",
    why: "An editor's remark in the score is “D.C.”: it is followed here, with a notice; the engraver does not read words.",
    differences: [{ what: "order", count: 1, first: "bar 1, b0 here, b38 there" }],
  },
  {
    file: "harmony/Schubert__Franz_Schwanengesang__D.957_02_Kriegers_Ahnung.mxl",
    why: "A tempo changes inside a bar: it counts from its place here; the engraver's timemap has one tempo a bar, the last in it, from the bar's start (with the marks moved so, all times agree).",
    differences: [{ what: "seconds", count: 90, first: "bar 34, 96645 ms here, 96686 ms there" }],
  },
  {
    file: "harmony/Schubert__Franz_Winterreise__D.911_01_Gute_Nacht.mxl",
    why: "A tempo changes inside a bar: it counts from its place here; the engraver's timemap has one tempo a bar, the last in it, from the bar's start (with the marks moved so, all times agree).",
    differences: [{ what: "seconds", count: 9, first: "bar 98, 343972 ms here, 343887 ms there" }],
  },
  {
    file: "harmony/Schumann__Robert_Dichterliebe__Op.48_02_Aus_meinen_Tr_nen_sprie_en.mxl",
    why: "A tempo changes inside a bar: it counts from its place here; the engraver's timemap has one tempo a bar, the last in it, from the bar's start (with the marks moved so, all times agree).",
    differences: [{ what: "seconds", count: 3, first: "bar 17, 46036 ms here, 46750 ms there" }],
  },
  {
    file: "harmony/Schumann__Robert_Dichterliebe__Op.48_03_Die_Rose__die_Lilie.mxl",
    why: "A tempo changes inside a bar: it counts from its place here; the engraver's timemap has one tempo a bar, the last in it, from the bar's start (with the marks moved so, all times agree).",
    differences: [{ what: "seconds", count: 12, first: "bar 12, 16854 ms here, 17034 ms there" }],
  },
  {
    file: "harmony/Schumann__Robert_Frauenliebe_und_Leben__Op.42_1_Seit_ich_ihn_gesehen.mxl",
    why: "A tempo changes inside a bar: it counts from its place here; the engraver's timemap has one tempo a bar, the last in it, from the bar's start (with the marks moved so, all times agree).",
    differences: [{ what: "seconds", count: 30, first: "bar 8, 19295 ms here, 19364 ms there" }],
  },
  {
    file: "harmony/Schumann__Robert_Frauenliebe_und_Leben__Op.42_3_Ich_kann_s_nicht_fassen.mxl",
    why: "A tempo changes inside a bar: it counts from its place here; the engraver's timemap has one tempo a bar, the last in it, from the bar's start (with the marks moved so, all times agree). In bar 85 a septuplet's durations are rounded in the file (7 × 23 of 160): here they count as written, there a seventh of a quarter each.",
    differences: [
      { what: "bar-start", count: 2, first: "bar 86, 20481/160 here, 32769/256 there" },
      { what: "seconds", count: 73, first: "bar 15, 10787 ms here, 10796 ms there" },
      { what: "seconds-by-bar", count: 2, first: "bar 86, 77574 ms here, 77570 ms there" },
      { what: "duration", count: 8, first: "bar 85, n0-85-0: 241/160 here, 385/256 there" },
      { what: "onset", count: 7, first: "bar 85, n1-85-10: 1/160 here, 1/256 there" },
    ],
  },
  {
    file: "full-score/beethoven_op67_1_melody.mxl",
    why: "Eighth rests are marked as rests of the whole bar, with notes after them: here the notes and the metre decide how long the bar is; there each such rest fills a bar, and the notes come late.",
    differences: [
      { what: "bar-start", count: 621, first: "bar 7, 12 here, 27/2 there" },
      { what: "seconds", count: 621, first: "bar 7, 3333 ms here, 3750 ms there" },
      { what: "seconds-by-bar", count: 621, first: "bar 7, 3333 ms here, 3750 ms there" },
      { what: "onset", count: 42, first: "bar 6, n0-5-1: 1/2 here, 0 there" },
      { what: "duration", count: 14, first: "bar 6, n0-5-0: 2 here, 7/2 there" },
    ],
  },
  {
    file: "conformance/23c-Tuplet-Display-NonStandard.xml",
    why: "Durations contradict note types and tuplet ratios: `duration` counts here, as the standard says; the types count there.",
    differences: [
      { what: "bar-start", count: 3, first: "bar 4, 12 here, 86/7 there" },
      { what: "seconds", count: 3, first: "bar 4, 6000 ms here, 6143 ms there" },
      { what: "seconds-by-bar", count: 3, first: "bar 4, 6000 ms here, 6143 ms there" },
      { what: "duration", count: 18, first: "bar 3, n0-2-0: 1/3 here, 5/14 there" },
      { what: "onset", count: 15, first: "bar 3, n0-2-1: 1/3 here, 5/14 there" },
    ],
  },
  {
    file: "conformance/23d-Tuplets-Nested.xml",
    why: "The outer tuplet is not named in the inner notes' ratios: `duration` counts here, types and ratios there.",
    differences: [
      { what: "bar-start", count: 1, first: "bar end, 2 here, 7/3 there" },
      { what: "seconds", count: 1, first: "bar end, 1000 ms here, 1167 ms there" },
      { what: "seconds-by-bar", count: 1, first: "bar end, 1000 ms here, 1167 ms there" },
      { what: "duration", count: 5, first: "bar 1, n0-0-2: 2/15 here, 1/5 there" },
      { what: "onset", count: 6, first: "bar 1, n0-0-3: 4/5 here, 13/15 there" },
    ],
  },
  {
    file: "conformance/23f-Tuplets-DurationButNoBracket.xml",
    why: "Durations are tuplets, types say nothing of it: `duration` counts here, the types there.",
    differences: [
      { what: "bar-start", count: 1, first: "bar end, 4 here, 5 there" },
      { what: "seconds", count: 1, first: "bar end, 2000 ms here, 2500 ms there" },
      { what: "seconds-by-bar", count: 1, first: "bar end, 2000 ms here, 2500 ms there" },
      { what: "duration", count: 12, first: "bar 1, n0-0-7: 1/3 here, 1/2 there" },
      { what: "onset", count: 14, first: "bar 1, n0-0-8: 4/3 here, 3/2 there" },
    ],
  },
  {
    file: "conformance/31c-MetronomeMarks.xml",
    why: "The marks count in dotted quarters and longs: their number is turned into quarters here; there it is taken as quarters a minute.",
    differences: [
      { what: "seconds", count: 3, first: "bar 2, 875 ms here, 2400 ms there" },
      { what: "seconds-by-bar", count: 3, first: "bar 2, 150 ms here, 2400 ms there" },
    ],
  },
  {
    file: "conformance/33a-Spanners.xml",
    why: "A two-note tremolo is written with the full duration for each note: it counts as written here; there each note is halved, as if the ratio 2:1 stood beside it.",
    differences: [
      { what: "bar-start", count: 4, first: "bar 21, 60 here, 59 there" },
      { what: "seconds", count: 4, first: "bar 21, 30000 ms here, 29500 ms there" },
      { what: "seconds-by-bar", count: 4, first: "bar 21, 30000 ms here, 29500 ms there" },
      { what: "duration", count: 2, first: "bar 20, n0-19-0: 1 here, 1/2 there" },
      { what: "onset", count: 2, first: "bar 20, n0-19-1: 1 here, 1/2 there" },
    ],
  },
  {
    file: "conformance/33e-Spanners-OctaveShifts-InvalidSize.xml",
    why: "A quarter note has the duration of a whole: `duration` counts here, the type there.",
    differences: [
      { what: "bar-start", count: 1, first: "bar end, 6 here, 3 there" },
      { what: "seconds", count: 1, first: "bar end, 3000 ms here, 1500 ms there" },
      { what: "seconds-by-bar", count: 1, first: "bar end, 3000 ms here, 1500 ms there" },
      { what: "duration", count: 1, first: "bar 1, n0-0-0: 4 here, 1 there" },
      { what: "onset", count: 2, first: "bar 1, n0-0-1: 4 here, 1 there" },
    ],
  },
  {
    file: "conformance/41g-PartNoId.xml",
    why: "The parts begin without `attributes`: one division a quarter is assumed here, with a notice; the engraver leaves such parts out.",
    differences: [{ what: "order", count: 1, first: "bar 1, b0 here, nothing there" }],
  },
  {
    file: "conformance/41h-TooManyParts.xml",
    why: "The parts begin without `attributes`: one division a quarter is assumed here, with a notice; the engraver leaves such parts out.",
    differences: [{ what: "order", count: 1, first: "bar 1, b0 here, nothing there" }],
  },
  {
    file: "conformance/45c-RepeatMultipleTimes.xml",
    why: "Two repeats end after one start. Here the second goes back to the end of the first (common practice); there it goes back to the one start and takes the inner repeat along.",
    differences: [
      { what: "order", count: 1, first: "bar 4, b3 here, b1 there" },
      { what: "missing-here", count: 4, first: "bar ?, n0-1-0-rend6" },
    ],
  },
  {
    file: "conformance/45f-Repeats-InvalidEndings.xml",
    why: "Endings “1, 2, 3” and “2” overlap and only the second has a repeat sign: here their bars are played in printed order, with a notice; there bar 3 is never played.",
    differences: [
      { what: "order", count: 1, first: "bar 3, b2 here, b0 there" },
      { what: "missing-here", count: 2, first: "bar ?, n0-0-0-rend3" },
    ],
  },
  {
    file: "conformance/51b-Header-Quotes.xml",
    why: "The part begins without `attributes`: one division a quarter is assumed here, with a notice; the engraver leaves such a part out.",
    differences: [{ what: "order", count: 1, first: "bar 1, b0 here, nothing there" }],
  },
  {
    file: "conformance/51c-MultipleRights.xml",
    why: "The part begins without `attributes`: one division a quarter is assumed here, with a notice; the engraver leaves such a part out.",
    differences: [{ what: "order", count: 1, first: "bar 1, b0 here, nothing there" }],
  },
  {
    file: "conformance/51d-EmptyTitle.xml",
    why: "The part begins without `attributes`: one division a quarter is assumed here, with a notice; the engraver leaves such a part out.",
    differences: [{ what: "order", count: 1, first: "bar 1, b0 here, nothing there" }],
  },
  {
    file: "conformance/71e-TabStaves.xml",
    why: "Rests on a tablature staff have no ids of ours there.",
    differences: [
      { what: "missing-there", count: 2, first: "bar 1, n1-0-3" },
      { what: "missing-here", count: 1, first: "bar ?, an id of the engraver's own" },
    ],
  },
  {
    file: "conformance/74a-FiguredBass.xml",
    why: "A dotted eighth has the duration of a quarter: `duration` counts here, the type there.",
    differences: [
      { what: "bar-start", count: 1, first: "bar end, 4 here, 15/4 there" },
      { what: "seconds", count: 1, first: "bar end, 2000 ms here, 1875 ms there" },
      { what: "seconds-by-bar", count: 1, first: "bar end, 2000 ms here, 1875 ms there" },
      { what: "duration", count: 1, first: "bar 1, n0-0-4: 1 here, 3/4 there" },
      { what: "onset", count: 1, first: "bar 1, n0-0-5: 3 here, 11/4 there" },
    ],
  },
];
