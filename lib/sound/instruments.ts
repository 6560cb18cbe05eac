/** The presets of the sound bank (app/_sound/bank), by General MIDI program from 0. */
export const bankPresets = {
  piano: 0,
  violin: 40,
  viola: 41,
  cello: 42,
  timpani: 47,
  strings: 48,
  trumpet: 56,
  horn: 60,
  oboe: 68,
  bassoon: 70,
  clarinet: 71,
  flute: 73,
} as const;

export type BankPreset = keyof typeof bankPresets;

/** An instrument, and the preset that plays it: its own, or the nearest in register and colour. */
export interface Instrument {
  readonly name: string;
  readonly preset: BankPreset;
  /** How its name is printed in English, Italian, French and German. */
  readonly printed: RegExp;
  /** Beginning of its MusicXML 4.0 sound ids. */
  readonly soundIds: readonly string[];
  /** General MIDI programs from 1. */
  readonly midiPrograms: readonly number[];
}

const programs = (from: number, to = from): number[] =>
  Array.from({ length: to - from + 1 }, (_, index) => from + index);

/**
 * The first that fits counts, so what has a longer name stands before what it contains ("cor anglais" before "cor").
 * Sources: General MIDI program numbers; MusicXML 4.0 sound ids; which one comes nearest is our choice.
 */
export const instruments: readonly Instrument[] = [
  {
    name: "piano",
    preset: "piano",
    printed: /\b(piano(forte)?|fortepiano|pno|pf(te)?|klavier(auszug)?|clavier|reduction|riduzione)\b/i,
    soundIds: ["keyboard.piano"],
    midiPrograms: programs(1, 8),
  },
  {
    name: "English horn",
    preset: "oboe",
    printed: /\b(english horn|cor anglais|corno inglese|englischhorn)\b/i,
    soundIds: ["wind.reed.english-horn", "wind.reed.oboe.damore"],
    midiPrograms: programs(70),
  },
  {
    name: "contrabassoon",
    preset: "bassoon",
    printed: /\b(contrabassoon|double bassoon|contrafagotto|kontrafagott|contrebasson)\b/i,
    soundIds: ["wind.reed.contrabassoon"],
    midiPrograms: [],
  },
  {
    name: "basset horn",
    preset: "clarinet",
    printed: /\b(basset ?horn|corno di bassetto|bassetthorn)\b/i,
    soundIds: ["wind.reed.basset-horn"],
    midiPrograms: [],
  },
  {
    name: "saxophone",
    preset: "clarinet",
    printed: /\b(sax(ophone?|ofon)?|sassofono|saxophon)\b/i,
    soundIds: ["wind.reed.saxophone"],
    midiPrograms: programs(65, 68),
  },
  {
    name: "piccolo",
    preset: "flute",
    printed: /\b(piccolo|ottavino|pikkolo)\b/i,
    soundIds: ["wind.flutes.flute.piccolo"],
    midiPrograms: programs(73),
  },
  {
    name: "recorder",
    preset: "flute",
    printed: /\b(recorder|blockflöte|flauto dolce|flûte à bec)\b/i,
    soundIds: ["wind.flutes.recorder", "wind.flutes.blockfloete"],
    midiPrograms: programs(75, 80),
  },
  {
    name: "flute",
    preset: "flute",
    printed: /(?<!\p{L})(flutes?|flauti?o?|flöten?|flûtes?|fl)(?!\p{L})/iu,
    soundIds: ["wind.flutes"],
    midiPrograms: programs(74),
  },
  {
    name: "oboe",
    preset: "oboe",
    printed: /\b(oboes?|oboi|hautbois|oboen|ob)\b/i,
    soundIds: ["wind.reed.oboe"],
    midiPrograms: programs(69),
  },
  {
    name: "clarinet",
    preset: "clarinet",
    printed: /\b(clarinets?|clarinetti?o?|clarinettes?|klarinetten?|clar|cl)\b/i,
    soundIds: ["wind.reed.clarinet"],
    midiPrograms: programs(72),
  },
  {
    name: "bassoon",
    preset: "bassoon",
    printed: /\b(bassoons?|fagotti?o?|bassons?|bsn|fag|fg)\b/i,
    soundIds: ["wind.reed.bassoon"],
    midiPrograms: programs(71),
  },
  {
    name: "trombone",
    preset: "horn",
    printed: /\b(trombon[ei]s?|posaunen?|tbn|trb)\b/i,
    soundIds: ["brass.trombone"],
    midiPrograms: programs(58),
  },
  {
    name: "tuba",
    preset: "horn",
    printed: /\b(tubas?|euphonium|ophicleide|oph|tba)\b/i,
    soundIds: ["brass.tuba", "brass.euphonium", "brass.baritone", "brass.ophicleide"],
    midiPrograms: programs(59),
  },
  {
    name: "cornet",
    preset: "trumpet",
    printed: /\b(cornets?|cornetto|kornett|flugelhorn|flügelhorn)\b/i,
    soundIds: ["brass.cornet", "brass.flugelhorn"],
    midiPrograms: [],
  },
  {
    name: "trumpet",
    preset: "trumpet",
    printed: /\b(trumpets?|tromb[ae]|trompeten?|trompettes?|clarini?o?|tpt|tr)\b/i,
    soundIds: ["brass.trumpet", "brass.group"],
    midiPrograms: [57, 60, 62],
  },
  {
    name: "horn",
    preset: "horn",
    printed: /\b(horns?|corni?o?|cors?|hörner|hn|cor)\b/i,
    soundIds: ["brass.french-horn", "brass.natural-horn", "brass.alphorn", "brass"],
    midiPrograms: [61, 63, 64],
  },
  {
    name: "timpani",
    preset: "timpani",
    printed: /\b(timpani|timbales|pauken|kettledrums?|timp)\b/i,
    soundIds: ["drum.timpani"],
    midiPrograms: programs(48),
  },
  {
    name: "double bass",
    preset: "cello",
    printed: /\b(double ?bass(es)?|contrabass[io]?|contrebasses?|kontrab[aä]ss[e]?|cb|db)\b/i,
    soundIds: ["strings.contrabass"],
    midiPrograms: [...programs(33, 40), 44],
  },
  {
    name: "cello",
    preset: "cello",
    printed: /\b((violon)?cell[io]s?|violoncelles?|vc|vlc)\b/i,
    soundIds: ["strings.cello", "strings.viol"],
    midiPrograms: programs(43),
  },
  {
    name: "viola",
    preset: "viola",
    printed: /\b(violas?|viole|altos?|bratschen?|vla)\b/i,
    soundIds: ["strings.viola"],
    midiPrograms: programs(42),
  },
  {
    name: "violin",
    preset: "violin",
    printed: /\b(violins?|violin[io]|violons?|violinen?|geigen?|vl|vln)\b|\bv\.? ?([12]|i{1,2})\b/i,
    soundIds: ["strings.violin"],
    midiPrograms: programs(41),
  },
  {
    name: "strings",
    preset: "strings",
    printed: /\b(strings|archi|cordes|streicher|str)\b/i,
    soundIds: ["strings"],
    midiPrograms: [45, 46, ...programs(49, 52)],
  },
  {
    name: "voice",
    preset: "clarinet",
    printed:
      /\b(voice|voce|voix|gesang|singstimme|soprano?|mezzo(soprano)?|contralto|tenore?|baritone?|choir|chorus|coro)\b/i,
    soundIds: ["voice"],
    midiPrograms: programs(53, 55),
  },
  {
    name: "harp",
    preset: "piano",
    printed: /\b(harps?|arpa|harpe|harfe)\b/i,
    soundIds: ["pluck.harp"],
    midiPrograms: programs(47),
  },
  {
    name: "guitar",
    preset: "piano",
    printed: /\b(guitar|chitarra|guitare|gitarre|lute)\b/i,
    soundIds: ["pluck"],
    midiPrograms: programs(25, 32),
  },
  {
    name: "harpsichord",
    preset: "piano",
    printed: /\b(harpsichord|cembalo|clavecin|celesta)\b/i,
    soundIds: ["keyboard.harpsichord", "keyboard.celesta", "keyboard.clavichord"],
    midiPrograms: [],
  },
  {
    name: "organ",
    preset: "piano",
    printed: /\b(organ|organo|orgue|orgel|harmonium)\b/i,
    soundIds: ["keyboard"],
    midiPrograms: programs(17, 24),
  },
];
