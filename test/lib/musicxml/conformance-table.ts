import { writeQuarters } from "@/lib/score/quarters";
import type { Score } from "@/lib/score/score";
import {
  articulations,
  barLengths,
  clefs,
  counts,
  directions,
  dynamics,
  fifths,
  kinds,
  labels,
  lyrics,
  metres,
  modes,
  noteLengths,
  octaveShifts,
  offsets,
  ornaments,
  partNames,
  partOf,
  repeats,
  restLengths,
  shapes,
  slurs,
  sounding,
  staves,
  tempi,
  ties,
  voices,
  wedges,
  words,
  written,
} from "./score-views";

export interface Expectation {
  readonly file: string;
  readonly view: (score: Score) => string;
  readonly expected: string;
}

const row = (file: string, view: (score: Score) => string, expected: string): Expectation => ({
  file,
  view,
  expected,
});

const times = (count: number, text: string, between = " "): string =>
  Array.from({ length: count }, () => text).join(between);
const scaleOfSeven = (sign: string): string => {
  const from = [
    "G2",
    "A2",
    "B2",
    "C3",
    "D3",
    "E3",
    "F3",
    "G3",
    "A3",
    "B3",
    "C4",
    "D4",
    "E4",
    "F4",
    "G4",
    "A4",
    "B4",
  ];
  const to = ["C5", "D5", "E5", "F5", "G5", "A5", "B5", "C6", "D6", "E6", "F6", "G6", "A6", "B6", "C7"];
  return [...from, ...to].map((pitch) => `${pitch[0]}${sign}${pitch[1]}`).join(" ");
};
const only = (view: (score: Score, part: number) => string, part: number) => (score: Score) =>
  view(score, part);
const keyChanges = (score: Score): string =>
  partOf(score)
    .keys.map(({ staff, fifths: count, onset }) => `${staff}@${writeQuarters(onset)}:${count}`)
    .join(" ");
const fermatas = (score: Score): string =>
  partOf(score)
    .notes.map(({ hasFermata }) => (hasFermata ? "^" : "."))
    .join("");
const wholeBarRests = (score: Score): string =>
  partOf(score)
    .rests.map(({ isWholeBar }) => (isWholeBar ? "R" : "r"))
    .join("");
const hidden = (score: Score): string =>
  partOf(score)
    .notes.map(({ isHidden }) => (isHidden ? "h" : "."))
    .join("");
const jumps = (score: Score): string =>
  score.bars.map(({ jumps: { segno, coda } }) => `${segno ?? "-"}/${coda ?? "-"}`).join(" ");
const titles = ({ title, movement, composer }: Score): string => `${title}|${movement}|${composer}`;
const soundingOfAll = (score: Score): string =>
  score.parts.map((_part, index) => sounding(score, index)).join(" ");
const pedals = (score: Score): string =>
  directions(score, "pedal", (direction) => (direction.kind === "pedal" ? direction.type : ""));
const rehearsals = (score: Score): string =>
  directions(score, "rehearsal", (direction) => (direction.kind === "rehearsal" ? direction.text : ""));

/**
 * One feature of each conformance file, worked out by hand from the file's own description and contents; two where one
 * would not show it. Offsets and lengths are in quarters.
 */
export const conformanceTable: readonly Expectation[] = [
  row(
    "01a-Pitches-Pitches.xml",
    written,
    `${scaleOfSeven("")} ${scaleOfSeven("#")} ${scaleOfSeven("b")} E4 F4 G4 A4 B4 C5 D5 E5 C##5 Cbb5 C#5 C#5 C#5 C#5`,
  ),
  row(
    "01b-Pitches-Intervals.xml",
    (score) => written(score).split(" ").slice(-6).join(" "),
    "Bb6 D#3 B6 D3 B#6 Db3",
  ),
  row("01c-Pitches-NoVoiceElement.xml", (score) => `${voices(score)} ${lyrics(score)}`, "1 A"),
  row(
    "01d-Pitches-Microtones.xml",
    written,
    "C(-1.5)4 D(-0.5)4 E(0.5)4 F(1.5)4 C(-1.5)5 D(-0.5)5 E(0.5)5 F(1.5)5",
  ),
  row(
    "01e-Pitches-EditorialCautionaryAccidentals.xml",
    written,
    "Db4 Eb4 Fb4 Gb4 C#4 D#4 E#4 F#4 Dbb4 Ebb4 Fbb4 Gbb4 C##4 D##4 E##4 F##4",
  ),
  row("01ea-Pitches-Parenthesis-Changed-Accidentals.xml", written, "C#4 D#4 E#4 F#4 D#4 E#4 E#4 E#4 E#4"),
  row(
    "01f-Pitches-ParenthesizedMicrotoneAccidentals.xml",
    written,
    `${times(4, "D(-0.5)4")} ${times(4, "C#4")} ${times(4, "D(-1.5)4")} ${times(4, "C(1.5)4")}`,
  ),
  row(
    "01g-Pitches-AllArrowAccidentals.musicxml",
    (score) => `${barLengths(score)}; ${counts(score)}`,
    "2 2 2 2 2 2; 12+0",
  ),
  row(
    "01h-Pitches-TurkishPersian.musicxml",
    (score) => `${barLengths(score)}; ${counts(score)}`,
    "2 2 2 2 2 2 2; 14+0",
  ),
  row(
    "02a-Rests-Durations.xml",
    restLengths,
    "4 4 4 2 1 1/2 1/4 1/8 1/16 1/32 1/64 1/128 1/256 1/256 3 1 1 3/2 3/4 3/8 3/16 3/32 3/64 3/128 3/256 3/512 3/512",
  ),
  row("02b-Rests-PitchedRests.xml", restLengths, "1 1 1 1 1"),
  row(
    "02c-Rests-MultiMeasureRests.xml",
    (score) => `${barLengths(score)}; ${wholeBarRests(score)}`,
    `${times(31, "4")}; ${times(31, "R", "")}`,
  ),
  row("02d-Rests-Multimeasure-TimeSignatures.xml", barLengths, "4 4 3 3 3 2 2 4 4 4"),
  row(
    "02e-Rests-NoType.xml",
    (score) => `${barLengths(score)}; ${restLengths(score)}; ${shapes(score)}`,
    "1 4; 1; p.",
  ),
  row(
    "03aa-Rhythm-Durations.xml",
    noteLengths,
    "8 4 2 1 1/2 1/4 1/8 1/16 1/16 12 6 3 3/2 3/4 3/8 3/16 3/32 3/32 7 7/2 7/4 7/8 7/16 7/32 7/32",
  ),
  row(
    "03ab-Rhythm-Durations.xml",
    noteLengths,
    "16 1/16 1/32 1/32 24 3/16 3/32 3/64 3/64 28 7/16 7/32 7/64 7/64",
  ),
  row(
    "03b-Rhythm-Backup.xml",
    (score) => `${offsets(score)}; ${written(score)}; ${voices(score)}`,
    "0 1 1 2; C4 C4 A3 A3; 1122",
  ),
  row(
    "03c-Rhythm-DivisionChange.xml",
    (score) => `${noteLengths(score)}; ${barLengths(score)}`,
    "1 1 1 1 2 2; 4 4",
  ),
  row(
    "03d-Rhythm-DottedDurations-Factors.xml",
    barLengths,
    "1/2 1/2 1 1 3 3 4 4 5/4 5/4 7/2 7/2 9/2 9/2 31/2 31/2 4",
  ),
  row("03e-Rhythm-SecondaryBeamBreaks.musicxml", noteLengths, times(32, "1/8")),
  row(
    "11a-TimeSignatures.xml",
    metres,
    "2/2:cut | 4/4:common | 2/2 | 3/2 | 2/4 | 3/4 | 4/4 | 5/4 | 3/8 | 6/8 | 12/8",
  ),
  row("11a-TimeSignatures.xml", barLengths, "4 4 4 6 2 3 4 5 3/2 3 6"),
  row(
    "11b-TimeSignatures-NoTime.xml",
    (score) => `${metres(score)}; ${barLengths(score)}; ${offsets(score)}`,
    "free; 4; 0 0",
  ),
  row("11c-TimeSignatures-CompoundSimple.xml", metres, "3+2/8 | 5+3+1/4"),
  row("11c-TimeSignatures-CompoundSimple.xml", barLengths, "5/2 9"),
  row("11d-TimeSignatures-CompoundMultiple.xml", metres, "3/8 2/8 3/4 | 5/2 1/8"),
  row(
    "11d-TimeSignatures-CompoundMultiple.xml",
    (score) => `${barLengths(score)}; ${shapes(score)}`,
    "11/2 21/2; ..",
  ),
  row(
    "11e-TimeSignatures-CompoundMixed.xml",
    (score) => `${metres(score)}; ${barLengths(score)}`,
    "3+2/8 3/4; 11/2",
  ),
  row(
    "11f-TimeSignatures-SymbolMeaning.xml",
    metres,
    "3/8:cut | 3+2/8:single-number | 1/8 2/4:single-number",
  ),
  row(
    "11g-TimeSignatures-SingleNumber.xml",
    (score) => `${metres(score)}; ${barLengths(score)}`,
    "3/8:single-number; 3/2",
  ),
  row(
    "11h-TimeSignatures-SenzaMisura.xml",
    (score) => `${metres(score)}; ${barLengths(score)}; ${shapes(score)}`,
    "free; 3/2; .",
  ),
  row("12aa-Clefs_Pitch_Traditional.xml", clefs, "0:G2 1:C3 2:C4 3:F4"),
  row(
    "12ab-Clefs-Percussion-NonTrad.xml",
    clefs,
    "0:percussion 1:G2-1 2:F4-1 3:F3 4:G1 5:C5 6:C2 7:C1 8:G2+1 9:F4+1",
  ),
  row("12ac-Clefs-TAB-Switch.xml", clefs, "0:none 1:TAB5 2:G2"),
  row("12ad-Clefs-Extreme-Octave.xml", clefs, "0:G2-2 1:F4-2 2:G2+2 3:F4+2 4:G2+3 5:F4-3"),
  row(
    "12ad-Clefs-Extreme-Octave.xml",
    (score) => `${labels(score)}; ${sounding(score)}`,
    "1 2 3 4 5 5; C2 C2 C6 C6 C7 C1",
  ),
  row(
    "12b-Clefs-NoKeyOrClef.xml",
    (score) => `${clefs(score)}; ${fifths(score)}; ${metres(score)}`,
    "; 0 0; 4/4 | 4/4",
  ),
  row(
    "13a-KeySignatures.xml",
    fifths,
    [-7, -6, -5, -4, -3, -2, -1, 0, 1, 2, 3, 4, 5, 6, 7].flatMap((count) => [count, count]).join(" "),
  ),
  row("13a-KeySignatures.xml", modes, times(15, "major minor")),
  row("13aa-KeySignatures-Extreme.xml", fifths, "-11 -10 -9 -8 -7 7 8 9 10 11"),
  row("13ab-KeySignatures-Cancel.xml", fifths, "3 -2 7 -3 2"),
  row("13ac-KeySignatures-Octaves.xml", fifths, "3 -2 7"),
  row(
    "13b-KeySignatures-ChurchModes.xml",
    modes,
    "major minor ionian dorian phrygian lydian mixolydian aeolian locrian",
  ),
  row("13c-KeySignatures-NonTraditional.xml", fifths, "null null"),
  row("13d-KeySignatures-Microtones.xml", fifths, "null"),
  row("13e-KeySignatures-MidMeasure-Change.xml", keyChanges, "null@0:2 null@1:-2 null@2:0 null@3:7"),
  row(
    "14a-StaffDetails-LineChanges.xml",
    (score) => `${counts(score)}; ${barLengths(score)}`,
    "3+0 5+0; 4 4 4",
  ),
  row(
    "21a-Chord-Basic.xml",
    (score) => `${written(score)}; ${kinds(score)}; ${offsets(score)}; ${restLengths(score)}`,
    "A4 F4; o+; 0 0; 1",
  ),
  row(
    "21b-Chords-TwoNotes.xml",
    (score) => `${kinds(score)}; ${offsets(score)}`,
    `${times(8, "o+", "")}; 0 0 1 1 2 2 3 3 0 0 1 1 2 2 3 3`,
  ),
  row("21c-Chords-ThreeNotesDuration.xml", offsets, "0 0 0 3/2 3/2 2 2 2 3 3 3 0 0 0 1 1 1 2 2 2"),
  row(
    "21d-Chords-SchubertStabatMater.xml",
    (score) => `${dynamics(score)}; ${fermatas(score)}`,
    "0:3/8 fp, 1:0 p; ^........",
  ),
  row(
    "21e-Chords-PickupMeasures.xml",
    (score) => `${labels(score)}; ${offsets(score)}; ${kinds(score)}`,
    "0 1; 0 0 0 0 1 1; oo++o+",
  ),
  row(
    "21f-Chord-ElementInBetween.xml",
    (score) => `${kinds(score)}; ${offsets(score)}; ${dynamics(score)}; ${jumps(score)}`,
    "o++; 0 0 0; 0:1 p; segno/-",
  ),
  row(
    "21g-Chords-Tremolos.musicxml",
    ornaments,
    [
      ["tremolo-single-4", ".", ".", "."],
      [".", "tremolo-single-2", ".", "."],
      [".", ".", "tremolo-single-1", "."],
      [".", ".", ".", "tremolo-single-3"],
      ["tremolo-unmeasured-0", ".", "."],
    ]
      .flat()
      .join(" "),
  ),
  row(
    "22a-Noteheads.xml",
    (score) => `${counts(score)}; ${fifths(score).split(" ").slice(28).join(" ")}`,
    "118+0; 0 3 3 0 0",
  ),
  row("22b-Staff-Notestyles.xml", hidden, ".....hhhh."),
  row(
    "22c-Noteheads-Chords.xml",
    (score) => `${kinds(score)}; ${lyrics(score)}`,
    `${times(4, "o++", "")}; normal – – cross – – inverted triangle – – slashed – –`,
  ),
  row(
    "22d-Parenthesized-Noteheads.xml",
    (score) => `${kinds(score)}; ${restLengths(score)}`,
    "ooo++o++; 1 1",
  ),
  row(
    "23a-Tuplets.xml",
    noteLengths,
    [times(9, "2/3"), times(4, "1/2"), times(4, "1/4"), times(7, "3/7"), times(6, "1/3"), "2"].join(" "),
  ),
  row(
    "23b-Tuplets-Styles.xml",
    noteLengths,
    [times(45, "1/3"), times(4, "3/8"), times(17, "3/34"), "1/2 1/2"].join(" "),
  ),
  row("23c-Tuplet-Display-NonStandard.xml", noteLengths, times(5, "1/3 1/3 1/3 1 1 1")),
  row("23d-Tuplets-Nested.xml", noteLengths, "1/3 1/3 2/15 2/15 2/15 2/15 2/15 1/3 1/3"),
  row(
    "23e-Tuplets-Tremolo.xml",
    (score) => noteLengths(score).split(" ").slice(9).join(" "),
    "1 1 1 2 1 1/3 1/3 1/3 2 2 1",
  ),
  row(
    "23f-Tuplets-DurationButNoBracket.xml",
    (score) => `${barLengths(score)}; ${restLengths(score)}; ${counts(score)}`,
    "4; ; 20+0",
  ),
  row(
    "24a-GraceNotes.xml",
    (score) => `${kinds(score)}; ${offsets(score)}`,
    "goggogogogoggogogoggo+goggoo; 0 0 1 1 1 2 2 3 3 0 0 1 1 1 3 3 7/2 7/2 4 0 0 0 1 1 2 2 2 3",
  ),
  row(
    "24b-ChordAsGraceNote.xml",
    (score) => `${kinds(score)}; ${offsets(score)}`,
    "ogGogGo+; 0 1 1 1 2 2 2 2",
  ),
  row(
    "24c-GraceNote-MeasureEnd.xml",
    (score) => `${kinds(score)}; ${offsets(score)}; ${labels(score)}`,
    "oogg; 0 2 4 4; 25",
  ),
  row("24d-AfterGrace.xml", (score) => `${kinds(score)}; ${offsets(score)}`, "ogggogg; 0 2 2 2 2 4 4"),
  row(
    "24e-GraceNote-StaffChange.xml",
    (score) => `${kinds(score)}; ${staves(score)}; ${partOf(score).staffCount}`,
    "oggo; 1221; 2",
  ),
  row("24f-GraceNote-Slur.xml", (score) => `${kinds(score)}; ${slurs(score)}`, "ogo; . (1 )1"),
  row(
    "31a-Directions.xml",
    dynamics,
    [
      "2:0 p, 2:1 pp, 2:2 ppp, 2:3 pppp, 3:0 ppppp, 3:1 pppppp, 3:2 f, 3:3 ff, 4:0 fff, 4:1 ffff, 4:2 fffff, 4:3 ffffff",
      "5:0 mp, 5:1 mf, 5:2 sf, 5:3 sfp, 6:0 sfpp, 6:1 fp, 6:2 rf, 6:3 rfz, 7:0 sfz, 7:1 sffz, 7:2 fz, 7:3 abc-ffz",
      // With an offset of two quarters each: the last two stand at the end of beats three and four.
      "13:2 p, 13:3 ppp, 13:4 fff",
    ].join(", "),
  ),
  row("31a-Directions.xml", rehearsals, "0:0 A, 0:1 B, 0:2 Test, 0:3 Crc"),
  row("31a-Directions.xml", pedals, "10:0 start, 10:1 change, 10:3 stop"),
  row("31a-Directions.xml", jumps, `-/- segno/coda ${times(12, "-/-")}`),
  // Dotted quarter = 100 is 150 quarters, a long of 16 quarters = 100 is 1600; then old = new: 1600 × 3 ÷ 1.5, × 3/16 ÷ 16, × 3 ÷ 1.5.
  row(
    "31c-MetronomeMarks.xml",
    tempi,
    "150 metronome, Adagio1600 metronome, 3200 metronome, 37.5 metronome, 75 metronome, 115.5 metronome",
  ),
  row(
    "32a-Notations.xml",
    (score) => `${fermatas(score).slice(0, 6)}; ${articulations(score).split(" ").slice(12).join(" ")}`,
    "^^^^^.; accent strong-accent staccato tenuto detached-legato staccatissimo spiccato scoop plop doit falloff breath-mark caesura stress unstress soft-accent",
  ),
  row(
    "32aa-Notations2_Ornaments.xml",
    ornaments,
    "trill-mark turn delayed-turn inverted-turn shake wavy-line wavy-line+wavy-line wavy-line mordent inverted-mordent schleifer tremolo-single-3 turn turn",
  ),
  row(
    "32ab-Notations3.xml",
    (score) => `${counts(score)}; ${lyrics(score).slice(0, 12)}`,
    "40+2; up-b. down-b",
  ),
  row("32ac-Notations4.xml", dynamics, "0:0 f, 0:1 ppp, 0:2 sfp, 0:3 sfffz"),
  row("32ac-Notations4.xml", articulations, ". . . . strong-accent+staccato accent+tenuto+staccato"),
  row("32ae-Notations6.musicxml", (score) => `${counts(score)}; ${barLengths(score)}`, "8+0; 4 4"),
  row(
    "32b-Articulations-Texts.xml",
    words,
    [
      "0:0 Normal, Medium, 0:4 Bold, Medium, Below, 1:0 Normal, Large, 1:4 Bold, Large, Below",
      "2:0 Normal, Small, 2:4 Bold, Small, Below, 2:4 Normal, Small, Colored, Below",
    ].join(", "),
  ),
  row("32c-MultipleNotationChildren.xml", articulations, "staccato+accent staccato+accent staccato+accent"),
  row("32d-Arpeggio.xml", kinds, times(7, "o++", "")),
  row("32e-Fermatas.musicxml", fermatas, "^^^^^^^"),
  row("33a-Spanners.xml", wedges, "3:0 crescendo, 3:2 stop, 4:0 diminuendo, 4:2 stop"),
  row("33a-Spanners.xml", octaveShifts, "7:0 down8, 7:3 stop8, 8:0 up15, 8:3 stop15"),
  row(
    "33a-Spanners.xml",
    (score) =>
      ornaments(score)
        .split(" ")
        .filter((mark) => mark.startsWith("tremolo"))
        .join(" "),
    "tremolo-start-2 tremolo-stop-2",
  ),
  row("33b-Spanners-Tie.xml", ties, "()"),
  row("33c-Spanners-Slurs.xml", slurs, "(1 )1(1 )1(1 )1 (1 (2 )2 )1"),
  row("33d-Spanners-OctaveShifts.xml", written, "A4 C5 A6 C3 B2 A5 A5 B3 C4"),
  // Offsets of −4, −4, −4, −3 and −2 eighths of a quarter move the signs back from where they are written.
  row(
    "33d-Spanners-OctaveShifts.xml",
    octaveShifts,
    "0:1/2 down15, 0:1 stop15, 0:3/2 up15, 0:2 stop15, 0:5/2 down8, 0:25/8 stop8, 0:7/2 up8, 0:15/4 stop8",
  ),
  row(
    "33e-Spanners-OctaveShifts-InvalidSize.xml",
    (score) => `${octaveShifts(score)}; ${barLengths(score)}`,
    "0:4 down8, 0:5 stop8, 0:5 up8, 0:6 stop8; 6",
  ),
  row(
    "33f-Trill-EndingOnGraceNote.xml",
    (score) => `${kinds(score)}; ${offsets(score)}`,
    "ooogogg; 0 1 5/4 3/2 3/2 3 3",
  ),
  row("33g-Slur-ChordedNotes.xml", slurs, "(1 . . . . )1(1 (2 )2"),
  row("33h-Spanners-Glissando.xml", (score) => `${counts(score)}; ${barLengths(score)}`, "20+0; 4 4 4 4 4"),
  row("33i-Ties-NotEnded.xml", ties, "(.-()"),
  row(
    "41a-MultiParts-Partorder.xml",
    (score) => score.parts.map((part, index) => `${part.id}:${written(score, index)}`).join(" "),
    "P0:C4 P1:E4 P2:G4 P3:B4",
  ),
  row(
    "41b-MultiParts-MoreThan10.xml",
    (score) => score.parts.map(({ id }) => id).join(" "),
    Array.from({ length: 20 }, (_, index) => `P${index}`).join(" "),
  ),
  row(
    "41c-StaffGroups.xml",
    (score) =>
      `${score.parts.length} ${fifths(score)} ${score.parts.filter(({ staffCount }) => staffCount === 2).length}`,
    "28 0 2",
  ),
  // Piccolo up an octave, horns down a fifth, clarinet in E flat up a third, in B flat down a second, bass clarinet an octave more.
  row(
    "41c-StaffGroups.xml",
    soundingOfAll,
    "B5 F4 A4 E5 F4 D5 E4 B4 A3 D3 E3 B1 A4 C4 F4 A4 B2 E3 E3 F3 x D5 A2 G4 E3 E5 F4 C4 C3 C2",
  ),
  row("41d-StaffGroups-Nested.xml", (score) => counts(score), "2+1 2+1 2+1 2+1 2+1"),
  row("41e-StaffGroups-InstrumentNames-Linebroken.xml", partNames, "Long Staff Name"),
  row("41f-StaffGroups-Overlapping.xml", (score) => counts(score), "0+1 0+1 0+1 0+1 0+1"),
  row(
    "41g-PartNoId.xml",
    (score) => score.parts.map(({ id, name }) => `${id} ${name}`).join(),
    "P1 MusicXML Part",
  ),
  row(
    "41h-TooManyParts.xml",
    (score) => score.parts.map(({ id, name }) => `${id} ${name}`).join(", "),
    "P1 MusicXML Part, P3 Part 2, P4 Part 3",
  ),
  row("41i-PartNameDisplay-Override.xml", (score) => counts(score), "2+0 2+0"),
  row(
    "42a-MultiVoice-TwoVoicesOnStaff-Lyrics.xml",
    (score) => `${voices(score)}; ${lyrics(score)}`,
    "12121212121" + "2; This This is is the the lyrics lyrics of of Voice1 Voice2",
  ),
  row(
    "42b-MultiVoice-MidMeasureClefChange.xml",
    (score) =>
      `${clefs(score)}; ${partOf(score)
        .clefs.map(({ onset }) => writeQuarters(onset))
        .join(" ")}`,
    "0:G2 0:F4 0:F4 1:G2; 0 0 3/2 3",
  ),
  row(
    "43a-PianoStaff.xml",
    (score) => `${staves(score)} ${offsets(score)} ${partOf(score).staffCount}`,
    "12 0 0 2",
  ),
  row(
    "43b-MultiStaff-DifferentKeys.xml",
    (score) => `${keyChanges(score)}; ${fifths(score)}`,
    "1@0:0 2@0:2; 0",
  ),
  row(
    "43c-MultiStaff-DifferentKeysAfterBackup.xml",
    (score) => `${keyChanges(score)}; ${clefs(score)}`,
    "1@0:0 2@0:2; 0:G2 0:F4",
  ),
  row("43d-MultiStaff-StaffChange.xml", staves, "21211122" + "2222111222" + "12111"),
  row(
    "43e-Multistaff-ClefDynamics.xml",
    (score) => `${dynamics(score)}; ${wedges(score)}; ${fifths(score)}`,
    "0:0 ffff, 0:25/8 p; 0:0 crescendo, 0:2 stop; 0 2 2 2",
  ),
  row("45a-SimpleRepeat.xml", repeats, ".:|x5 ."),
  row("45b-RepeatWithAlternatives.xml", repeats, ". [1.1]:|x2 [2.2] ."),
  row("45c-RepeatMultipleTimes.xml", repeats, ". |:. .:|x5 . . . .:|x3 ."),
  row(
    "45d-Repeats-Nested-Alternatives.xml",
    repeats,
    ". [1.1]:|x2 [2. . .2]:|x2 [3. . . .3]:|x2 [4.4]:|x2 [5.5] .",
  ),
  row(
    "45e-Repeats-Nested-Alternatives.xml",
    repeats,
    ". [1.1]:|x2 [2.2] . |:.:|x2 |:. [1.1]:|x2 |:[2.2] .:|x2 .",
  ),
  row("45f-Repeats-InvalidEndings.xml", repeats, ". [1,2,3.1,2,3] [2.2] .2]:|x2 ."),
  row("45g-Repeats-NotEnded.xml", repeats, ". |:."),
  row(
    "46a-Barlines.xml",
    (score) => `${barLengths(score)}; ${repeats(score)}`,
    `${times(13, "4")}; ${times(13, ".")}`,
  ),
  row("46b-MidmeasureBarline.xml", (score) => `${offsets(score)}; ${barLengths(score)}`, "0 1 2 3; 4"),
  row(
    "46c-Midmeasure-Clef.xml",
    (score) => `${labels(score)}; ${barLengths(score)}; ${clefs(score)}; ${shapes(score)}`,
    "1 2 X1 3; 4 2 2 4; 0:G2 2:C2 3:G2; .ii.",
  ),
  row(
    "46d-PickupMeasure-ImplicitMeasures.xml",
    (score) => `${labels(score)}; ${barLengths(score)}; ${shapes(score)}`,
    "0 1 X1 2; 3/2 2 2 3; piii",
  ),
  row(
    "46e-PickupMeasure-SecondVoiceStartsLater.xml",
    (score) => `${offsets(score)}; ${voices(score)}`,
    "0 0 1 1 2 3; 111211",
  ),
  row("46f-IncompleteMeasures.xml", (score) => `${barLengths(score)}; ${shapes(score)}`, "2 4 2 4; p.i."),
  row(
    "46g-PickupMeasure-Chordnames-FiguredBass.xml",
    (score) => `${labels(score)}; ${barLengths(score)}; ${shapes(score)}`,
    "0 1; 1 4; p.",
  ),
  row(
    "51b-Header-Quotes.xml",
    (score) => `${partNames(score)}; ${titles(score)}`,
    'Staff "Test"; null|"Quotes" in header fields|Some "Tester" Name',
  ),
  row("51c-MultipleRights.xml", (score) => counts(score), "0+1"),
  row("51d-EmptyTitle.xml", titles, "null|Empty work-title, non-empty movement-title|null"),
  row("52a-PageLayout.xml", (score) => `${counts(score)}; ${barLengths(score)}`, "0+3; 4 4 4"),
  row("52b-Breaks.xml", (score) => `${counts(score)}; ${fifths(score)}`, "3+0; 0 0 0"),
  row("61a-Lyrics.xml", lyrics, "Tra la li Ja! – Tra – ra! – Bah! –"),
  row("61b-MultipleLyrics.xml", lyrics, "1.Tra la la, ja! – Tra – ra..."),
  row("61c-Lyrics-Pianostaff.xml", lyrics, "tra TRA la LA li LI ja! JA!"),
  row(
    "61d-Lyrics-Melisma.xml",
    (score) => `${lyrics(score)}; ${ties(score)}`,
    "Me – – – – – lis – ma. –; ......()" + "..",
  ),
  row("61e-Lyrics-Chords.xml", lyrics, "Ly – rics – on – chords –"),
  row(
    "61f-Lyrics-GracedNotes.xml",
    (score) => `${kinds(score)}; ${lyrics(score)}`,
    "ogoogo" + "oggogoo; Ly – – rics – on notes – – – – with graces",
  ),
  row("61g-Lyrics-NameNumber.xml", lyrics, "Verse1A 1B Verse1C Chorus1D VerseE NoneF"),
  row("61h-Lyrics-BeamsMelismata.xml", lyrics, times(4, "Me – – lis ma – –")),
  row("61i-Lyrics-Chords.xml", (score) => `${kinds(score)}; ${lyrics(score)}`, "o++; Lyrics 1 – –"),
  row("61j-Lyrics-Elisions.xml", (score) => lyrics(score).replaceAll("\u203f", "_"), "a b c d e f g h"),
  row("61k-Lyrics-SpannersExtenders.xml", lyrics, "A – long – – er – – Text – –"),
  row("71a-Chordnames.xml", (score) => `${counts(score)}; ${barLengths(score)}`, "8+0; 4 4"),
  row("71c-ChordsFrets.xml", (score) => `${counts(score)}; ${written(score)}`, `8+0; ${times(8, "A4")}`),
  row(
    "71d-ChordsFrets-Multistaff.xml",
    (score) => `${offsets(score)}; ${voices(score).slice(0, 4)}; ${staves(score).slice(0, 4)}`,
    `${[0, 1, 2, 3].map((beat) => times(4, `${beat}`)).join(" ")}; 1234; 1122`,
  ),
  row("71e-TabStaves.xml", (score) => counts(score), "10+0 7+1 7+1 10+2 8+0 7+1 8+0 8+0"),
  row(
    "71f-AllChordTypes.xml",
    (score) => `${counts(score)}; ${barLengths(score)}`,
    `37+1; ${times(9, "4")} 2`,
  ),
  row("71g-MultipleChordnames.xml", (score) => `${offsets(score)}; ${noteLengths(score)}`, "0 2; 2 2"),
  row("72a-TransposingInstruments.xml", only(sounding, 0), "C4 D4 E4 F4 G4 A4 B4 C5"),
  row("72a-TransposingInstruments.xml", only(sounding, 1), "C4 D4 E4 F4 G4 A4 B4 C5"),
  row(
    "72a-TransposingInstruments.xml",
    (score) => `${sounding(score, 2)}; ${fifths(score)}`,
    "C4 D4 E4 F4 G4 A4 B4 C5; 0 0",
  ),
  // "Each part plays a c''": the tenth writes F#1 an augmented fourth and three octaves below, which spells it B#4.
  row("72b-TransposingInstruments-Full.xml", soundingOfAll, `${times(9, "C5")} B#4 C5`),
  row("72b-TransposingInstruments-Full.xml", fifths, "1"),
  // "The whole piece is in B flat major (sounding)": one sharp for the clarinet in E flat, none for the one in B flat.
  row(
    "72c-TransposingInstruments-Change.xml",
    (score) => `${fifths(score)}; ${sounding(score)}`,
    "-2 -2 -2; Eb4 Bb3 Bb3",
  ),
  row("72d-TransposingInstruments-scorePitch.xml", soundingOfAll, `${times(9, "C5")} B#4 C5`),
  row(
    "73a-Percussion.xml",
    (score) => `${ties(score)}; ${written(score, 1)}; ${written(score, 2)}`,
    "().; x x x; x x x",
  ),
  row("74a-FiguredBass.xml", noteLengths, "1/2 1/2 3/4 1/4 1 1"),
  row(
    "75a-AccordionRegistrations.xml",
    (score) => `${counts(score)}; ${lyrics(score).split(" ").slice(0, 4).join(" ")}`,
    "16+0; 0/0/1 0/1/0 0/1/1 0/2/0",
  ),
  row("90a-Compressed-MusicXML.mxl", (score) => titles(score), "null|Compressed MusicXML file|null"),
  row("99a-", (score) => `${noteLengths(score)}; ${slurs(score)}`, "1/8 1/8 1/8 1/2 1/8 1/8; (1 . . . . )1"),
  row("99b-Lyrics-BeamsMelismata-IgnoreBeams.xml", lyrics, times(4, "Me – – lis ma – –")),
  row("99c-Wavy-Lines-No-Numbers.xml", ornaments, "wavy-line wavy-line+wavy-line wavy-line"),
  row("99d-AccordionInvalid.xml", (score) => `${counts(score)}; ${barLengths(score)}`, "4+0; 4"),
];
