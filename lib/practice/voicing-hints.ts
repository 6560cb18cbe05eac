import { type CueInstrument, cueInstruments, readCue } from "./cue-instruments";

/** How to come near an instrument at the piano. All of it is common practice, in our own words. */
const hints: Readonly<Record<string, string>> = {
  "Picc.":
    "Thin and bright: lift the melody an octave if the print allows, strike close to the key with a firm fingertip, hardly any pedal. No weight underneath.",
  "Fl.":
    "A soft start and a round tone: play from the surface of the key, half-pedal changed often, the accompaniment well below. Let low notes stay pale; only the high ones shine.",
  "Ob.":
    "A narrow, speaking tone: firm fingertips, very little pedal, every note held its full length. Shape long notes by what the other hand does under them, since they cannot swell.",
  "C.i.":
    "The oboe's line, darker: middle register, slower attack, weight on the thumb side, a little more pedal. Leave space around it.",
  "Cl.":
    "Even from top to bottom: legato from finger to finger, no bump at the start of a note, soft pedal for echoes. Broken chords stay flat and unaccented, as one colour.",
  "B.cl.":
    "Dark and smooth: low register, arm weight without attack, pedal changed with each step so that it stays clear. Do not let it growl.",
  "Fg.":
    "Dry and plain in the low notes, singing in the high ones: short, light staccato from the wrist without pedal; in a tenor melody, firm fingers and a bare accompaniment.",
  "Cfg.": "More a floor than a line: double the bass softly and late in the arm, pedal held, no edge.",
  "Sax.":
    "Warm and a little forward: full middle register, legato, the upper note of any interval brought out; hold the pedal through the phrase.",
  "Cor.":
    "Round and far away: deep, slow keys, all notes of a chord alike with the lowest a little more, pedal through. Signals get length, not attack. Hand-stopped or muted notes: soft pedal and a shorter touch.",
  "Tr.":
    "A clear front to every note: quick key, straight finger, short pedal only on the note itself. Fanfares rhythmic and dry; repeated notes with changing fingers so that each one speaks.",
  "Tbn.":
    "Broad chords: all fingers together with arm weight, the inner notes as strong as the outer, pedal with each chord and not before it. Let soft chords sit; loud ones open upwards.",
  Tuba: "The weight under the brass: fifth finger with the whole arm, octave doubling if it is free, pedal just after the attack. Never hard.",
  "Timp.":
    "A drum with a pitch: loose arm, quick release, pedal caught late so that the note rings on without its attack. Rolls as an even tremolo in octaves, low and unaccented, or as one struck bass with the pedal half down.",
  "Perc.":
    "What is felt, not heard as pitch: a bass drum is a soft low octave late in the pedal; cymbals are the pedal opened fully on the chord. Leave out anything that only adds noise.",
  "Trgl.":
    "A glint at the top: one high note, light and very short, no pedal unless it is to ring. It is better missing than heavy.",
  Arpa: "Rolled from the bottom up, quick and even, each note let go into the pedal. The top note alone is sung. Change the pedal with the harmony and never in the middle of a roll.",
  "Cel.":
    "High, soft and without edge: soft pedal, light arm, sustaining pedal long. Keep the rhythm exact and the dynamics flat.",
  "Org.":
    "Length without decay: finger legato, chord notes held to the last moment, silent finger changes, the bass in octaves. No swell inside a chord.",
  "Vl.":
    "A line that grows: lean into the key instead of striking it, pedal changed after each new note, the top voice a clear step above the rest. Long notes start softer than they look; tremolo as a quiet shimmer, few notes rather than many.",
  "Va.":
    "The warm inside: bring the thumb side of the hand out a little, legato, moving eighths level. When it has the tune, thin everything above it.",
  "Vc.":
    "Sung in the tenor: left-hand thumb or right-hand weight, slow attack, generous pedal changed with the line. Keep the right hand's chords shorter and lighter than they are printed.",
  "Cb.":
    "Round and short: bass notes from the arm, released early, pedal only to join the beat to the chord. Plucked basses are light, with the release as exact as the attack.",
  "pizz.":
    "Plucked: a quick finger that leaves the key at once, no pedal or a touch of it for resonance, dynamics one step lower than printed. Chords slightly spread from the bottom.",
  "Str.":
    "One body of sound: top and bass a little out, the middle soft and joined, pedal overlapping each change. Repeated chords stay near the keys with the arm moving as little as a bow; leave out inner repeats before the line suffers.",
  Legni:
    "Several colours at once: voice each chord so that one note leads, little pedal, clear releases together. Keep it lighter than strings on the same notes.",
  Ottoni:
    "Full chords with a clear front: fingers set before striking, arm weight, pedal on the chord. Rhythm before volume; save the loudest for the top of the phrase.",
  Tutti:
    "Build from the bass: octaves below, melody on top, as few inner notes as the harmony needs. Use the pedal for size, and keep the last degree of loudness until the goal of the phrase. Rhythm carries more than volume.",
};

export interface VoicingHint extends CueInstrument {
  readonly text: string;
}

/** Where the usual words come from, for the screen. */
export const hintSource = "common practice";

/** The usual words for an instrument; null for a key that has none. */
export function usualHint(key: string): string | null {
  return hints[key] ?? null;
}

/**
 * The instruments that the cues of a piece name, with the usual words for each, in the order of the score.
 *
 * @param cues words of cues as they were written: "Fl.", "2 Hr.", "Ob. solo".
 */
export function findVoicingHints(cues: readonly string[]): VoicingHint[] {
  const named = new Set(cues.flatMap((text) => readCue(text) ?? []));
  return cueInstruments.flatMap((one) => {
    const text = hints[one.key];
    return named.has(one.key) && text !== undefined ? [{ ...one, text }] : [];
  });
}
