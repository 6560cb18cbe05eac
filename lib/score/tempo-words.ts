/**
 * Tempo words and the beats a minute they stand for. Published lists disagree (Andante 72–108, Allegro 109–168,
 * Moderato 86–120 in four of them), so each word has a range and a default in it, which the duo can change.
 *
 * Source: the ranges of andante, moderato and allegro span four published lists of tempo words; all other numbers
 * are common practice, from memory. Defaults stand on the metronome's scale.
 */
export interface TempoWord {
  /** Lower case, without accents; several words are matched as they stand beside each other. */
  readonly word: string;
  readonly slowest: number;
  readonly fastest: number;
  readonly beatsPerMinute: number;
}

function tempo(words: string, slowest: number, beatsPerMinute: number, fastest: number): TempoWord[] {
  return words.split(", ").map((word) => ({ word, slowest, fastest, beatsPerMinute }));
}

const italian = [
  ...tempo("larghissimo", 24, 40, 46),
  ...tempo("grave", 25, 44, 54),
  ...tempo("largo", 40, 52, 66),
  ...tempo("lento", 40, 54, 70),
  ...tempo("lento assai, molto lento, lentissimo, adagissimo, molto adagio", 30, 46, 60),
  ...tempo("lentamente, lento non troppo, lento ma non troppo, poco lento", 46, 60, 76),
  ...tempo("larghetto", 56, 63, 76),
  ...tempo("adagio", 48, 60, 76),
  ...tempo("adagietto, adagio non troppo, adagio ma non troppo", 60, 69, 80),
  ...tempo("andante", 72, 80, 108),
  ...tempo(
    "andante sostenuto, andante cantabile, andante non troppo, poco andante, andante grazioso",
    63,
    72,
    96,
  ),
  ...tempo("andante con moto, andante mosso, piu andante", 76, 88, 108),
  ...tempo("andantino", 76, 88, 112),
  ...tempo("maestoso", 60, 80, 96),
  ...tempo("marcia, alla marcia, tempo di marcia", 96, 112, 126),
  ...tempo("tempo di valse, tempo di valzer, valse, walzer", 120, 160, 192),
  ...tempo("tempo di menuetto, tempo di minuetto, menuetto", 96, 116, 144),
  ...tempo("moderato", 86, 104, 120),
  ...tempo("moderato assai, allegretto moderato, molto moderato", 84, 96, 112),
  ...tempo("allegretto, quasi allegretto", 98, 112, 126),
  ...tempo(
    "allegro moderato, allegro maestoso, poco allegro, allegro non troppo, allegro ma non troppo",
    100,
    120,
    144,
  ),
  ...tempo(
    "allegro ma non tanto, allegro non tanto, allegro giusto, allegro risoluto, allegro energico",
    104,
    120,
    144,
  ),
  ...tempo("allegro", 109, 132, 168),
  ...tempo("allegro con brio, allegro con fuoco, allegro assai, allegro molto, molto allegro", 126, 152, 184),
  ...tempo("allegro vivace, allegro vivo, allegro agitato", 126, 144, 176),
  ...tempo("vivo, vivace", 120, 144, 176),
  ...tempo("vivacissimo, allegrissimo", 144, 168, 192),
  ...tempo("presto", 160, 176, 208),
  ...tempo("prestissimo, presto assai, molto presto, presto possibile", 176, 200, 232),
];

const german = [
  ...tempo("sehr langsam, ausserst langsam", 30, 46, 60),
  ...tempo("langsam, getragen", 40, 56, 72),
  ...tempo("ziemlich langsam, etwas langsam, nicht zu langsam, nicht schnell", 52, 66, 84),
  ...tempo(
    "ruhig, ruhig bewegt, nicht schleppend, nicht zu schnell, nicht zu rasch, nicht rasch",
    60,
    76,
    104,
  ),
  ...tempo("gehend, ruhig gehend, in gehender bewegung", 66, 80, 100),
  ...tempo("massig, gemassigt, sehr massig, sehr massig bewegt", 66, 88, 108),
  ...tempo("massig bewegt, massig geschwind, massig schnell", 80, 100, 120),
  ...tempo("etwas bewegt, bewegt, ziemlich bewegt, etwas geschwind", 88, 108, 126),
  ...tempo("ziemlich geschwind, ziemlich schnell, ziemlich rasch, munter", 100, 120, 144),
  ...tempo(
    "lebhaft, frisch, rasch, geschwind, schnell, lebendig, mit leidenschaft, leidenschaftlich",
    112,
    138,
    168,
  ),
  ...tempo("sehr lebhaft, sehr rasch, sehr schnell, sehr geschwind, eilig", 132, 160, 192),
];

const french = [
  ...tempo("tres lent, tres lentement", 30, 46, 60),
  ...tempo("lent, lentement", 40, 54, 70),
  ...tempo("assez lent, pas trop lent", 52, 66, 80),
  ...tempo("modere, moderement, tres modere", 72, 92, 112),
  ...tempo("allant, assez anime, pas trop vite", 88, 108, 126),
  ...tempo("anime, vif, vite, gai, gaiement, assez vite, assez vif, rapide", 112, 138, 168),
  ...tempo("tres vif, tres vite, tres anime, tres rapide", 132, 160, 192),
];

const english = [
  ...tempo("very slow, very slowly", 30, 46, 60),
  ...tempo("slow, slowly", 40, 56, 72),
  ...tempo("moderate, moderately", 84, 100, 120),
  ...tempo("lively, fast", 112, 138, 168),
  ...tempo("very fast", 132, 160, 192),
];

export const tempoWords: readonly TempoWord[] = [...italian, ...german, ...french, ...english];

/** Words that change the tempo just heard, and by how much (new ÷ old). Source: common practice. */
export const relativeTempoWords: readonly { readonly words: readonly string[]; readonly ratio: number }[] = [
  {
    words: [
      "piu mosso",
      "piu animato",
      "piu vivo",
      "piu allegro",
      "piu presto",
      "piu moto",
      "piu agitato",
      "doppio movimento",
    ],
    ratio: 1.2,
  },
  { words: ["animato", "animando", "con piu moto"], ratio: 1.15 },
  {
    words: ["meno mosso", "meno presto", "meno allegro", "meno vivo", "piu lento", "piu largo", "piu adagio"],
    ratio: 0.8,
  },
  { words: ["piu tranquillo", "piu sostenuto", "meno moto"], ratio: 0.85 },
  {
    words: [
      "schneller",
      "bewegter",
      "lebhafter",
      "rascher",
      "geschwinder",
      "plus vite",
      "plus anime",
      "plus vif",
    ],
    ratio: 1.2,
  },
  {
    words: [
      "langsamer",
      "ruhiger",
      "breiter",
      "massiger",
      "plus lent",
      "plus lentement",
      "moins vite",
      "plus calme",
    ],
    ratio: 0.8,
  },
  { words: ["faster", "quicker"], ratio: 1.2 },
  { words: ["slower"], ratio: 0.8 },
];

/** "Poco", "etwas", "un peu" beside a change of tempo: half of it. Source: common practice. */
export const littleWords: readonly string[] = [
  "poco",
  "pochissimo",
  "etwas",
  "ein wenig",
  "un peu",
  "a little",
];

export const previousTempoWords: readonly string[] = [
  "a tempo",
  "in tempo",
  "im tempo",
  "au mouvement",
  "au mouvt",
];

export const firstTempoWords: readonly string[] = [
  "tempo i",
  "tempo 1",
  "tempo io",
  "tempo 1o",
  "tempo primo",
  "a tempo primo",
  "tempo del principio",
  "erstes zeitmass",
  "erstes tempo",
  "tempo wie zuvor",
  "1er mouvement",
  "1er mouvt",
  "premier mouvement",
];

/** The beat goes on as it was. */
export const sameTempoWords: readonly string[] = [
  "listesso tempo",
  "lo stesso tempo",
  "istesso tempo",
  "dasselbe tempo",
];

/** A word that begins so slows down or presses on little by little. */
export const slowingStems: readonly string[] = [
  "ritar",
  "riten",
  "rallen",
  "allarg",
  "slarg",
  "slent",
  "verlangsam",
  "zuruckhalt",
  "nachlass",
  "ralenti",
  "reten",
  "cedez",
];
export const pressingStems: readonly string[] = [
  "accel",
  "stringend",
  "affrett",
  "incalz",
  "beschleunig",
  "drangend",
  "belebend",
  "pressez",
  "serrez",
];

/** The same, where only the whole word will do ("ritmico" does not slow down, "strings" do not press on). */
export const slowingWords: readonly string[] = ["rit", "rall", "langsamer werdend", "en cedant"];
export const pressingWords: readonly string[] = [
  "string",
  "stretto",
  "schneller werdend",
  "en pressant",
  "en serrant",
];
