/** Short names of instruments, by a word of their full name in English, German, French, Italian or Polish. Common practice. */
const shortNames: readonly (readonly [RegExp, string])[] = [
  [/piccolo|ottavino/, "Picc."],
  [/flut|flaut|flöt|fl[eé]t/, "Fl."],
  [/english horn|englischhorn|cor anglais|corno inglese/, "E. H."],
  [/oboe|hautbois|ob[oó]j/, "Ob."],
  [/bass ?clarinet|bassklarinette|clarinetto basso|clarinette basse/, "B. Cl."],
  [/clarin|klarin/, "Cl."],
  [/contrabassoon|kontrafagott|controfagotto|contrebasson/, "Cbsn."],
  [/bassoon|fagot|basson/, "Bsn."],
  [/saxo|sax\b/, "Sax."],
  [/trombon|posaune|puzon/, "Tbn."],
  [/trump|tromp|tromba|trąb/, "Tpt."],
  [/euphonium|eufonium/, "Euph."],
  [/tuba/, "Tuba"],
  [/horn|corno|\bcor\b|waltorni|róg/, "Hn."],
  [/timpani|pauken|timbales|kotły/, "Timp."],
  [/harp|arpa|harfe/, "Hp."],
  [/violonc|cello|wiolonczel/, "Vc."],
  [/contrabass|double ?bass|kontrabass|contrebasse/, "Cb."],
  [/viola|bratsche|\balto\b|altówka/, "Va."],
  [/violin|violon|geige|skrzypce/, "Vl."],
  [/piano|pianoforte|klavier|fortepian|keyboard/, "Pf."],
  [/organ|orgel|orgue/, "Org."],
  [/mezzo/, "M.-S."],
  [/sopran/, "S."],
  [/contralto|\balt\b/, "A."],
  [/tenor/, "T."],
  [/bariton|baryton/, "Bar."],
  [/\bbass/, "B."],
  [/voice|voce|voix|stimme|singstimme|gesang|canto|chant|vocal|głos/, "V."],
];

/**
 * The short name of a part, for the start of a system.
 *
 * @param printed the file's own abbreviation; it is used when there is one.
 * @returns "" when the part has no name at all. An unknown name gives its first four letters.
 */
export function abbreviatePart(name: string, printed: string | null): string {
  if (printed?.trim()) return printed.trim();
  const plain = name.toLowerCase();
  const known = shortNames.find(([pattern]) => pattern.test(plain));
  if (known) return known[1];
  const word = name.trim().split(/\s+/)[0] ?? "";
  return word.length > 5 ? `${word.slice(0, 4)}.` : word;
}
