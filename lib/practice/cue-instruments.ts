/** An instrument or section that cues name, by the abbreviation that the hints are kept under. */
export interface CueInstrument {
  readonly key: string;
  /** "flute". */
  readonly name: string;
  /**
   * How it is abbreviated or written out in Italian, German, French and English scores: lower case, without full stops
   * and accents. From memory.
   */
  readonly written: readonly string[];
}

function instrument(key: string, name: string, written: string): CueInstrument {
  return { key, name, written: written.split(", ") };
}

/** In the order of the score. */
export const cueInstruments: readonly CueInstrument[] = [
  instrument(
    "Picc.",
    "piccolo",
    "picc, piccolo, ottavino, kl fl, kleine flote, ptte fl, petite flute, fl picc",
  ),
  instrument("Fl.", "flute", "fl, flt, flute, flutes, flauto, flauti, flote, floten, grde fl, gr fl"),
  instrument("Ob.", "oboe", "ob, oboe, oboes, oboi, oboen, hb, htb, hautb, hautbois, hob, hoboe"),
  instrument(
    "C.i.",
    "cor anglais",
    "ci, c i, c a, c ingl, c angl, cor ingl, cor angl, corno inglese, cor anglais, english horn, e h, eh, eng hn, engl horn, englischhorn, englisch horn",
  ),
  instrument(
    "Cl.",
    "clarinet",
    "cl, clar, clarinet, clarinets, clarinetto, clarinetti, clarinette, clarinettes, kl, klar, klarinette, klarinetten, clt",
  ),
  instrument(
    "B.cl.",
    "bass clarinet",
    "bcl, b cl, bass cl, bassklar, bass clarinet, cl b, cl basso, clarinetto basso, clar basse, clarinette basse, bkl, b kl, basskl, bass kl, bassklarinette",
  ),
  instrument(
    "Fg.",
    "bassoon",
    "fg, fag, fagott, fagotte, fagotto, fagotti, bn, bns, bsn, bsns, bassoon, bassoons, bon, bons, basson, bassons",
  ),
  instrument(
    "Cfg.",
    "double bassoon",
    "cfg, c fg, cfag, c fag, k fag, kfag, kfg, kontrafagott, contrafagotto, controfagotto, cbsn, c bn, contrabassoon, double bassoon, cbon, c bon, contrebasson",
  ),
  instrument("Sax.", "saxophone", "sax, saxes, saxophone, saxophon, sassofono"),
  instrument("Cor.", "horn", "cor, cors, corno, corni, cr, hr, hrn, hn, hns, horn, horner, horns"),
  instrument(
    "Tr.",
    "trumpet",
    "tr, trp, trpt, trpts, tpt, tpts, tp, tromba, trombe, trompete, trompeten, trompette, trompettes, tromp, trumpet, trumpets, tr ba, tr be, cnt, cornet, cornetta, piston, pist, ctti",
  ),
  instrument(
    "Tbn.",
    "trombone",
    "tbn, tbns, trb, trbn, trbns, tbni, trombone, trombones, tromboni, tromb, pos, posaune, posaunen",
  ),
  instrument("Tuba", "tuba", "tuba, tb, tba, btb, basstuba, bass tuba, oph, ophicleide, cimb, cimbasso"),
  instrument("Timp.", "timpani", "timp, timpani, pk, pauken, pauke, timb, timbales, kettledrums"),
  instrument(
    "Perc.",
    "drums and cymbals",
    "perc, batt, batteria, schlagzeug, schlgz, percussion, g c, gc, gran cassa, gr tr, grosse trommel, grosse caisse, bass drum, b d, ptti, piatti, becken, bck, cymb, cymbals, cymbales, tamb, tamburo, kl tr, kleine trommel, snare drum, s d, tamt, tam tam",
  ),
  instrument(
    "Trgl.",
    "triangle and bells",
    "trgl, trg, triangle, triangolo, triangel, glsp, glockenspiel, camp, campanelli, campane, glocken, bells, jeu de timbres, xyl, xilofono, xylophone",
  ),
  instrument(
    "Arpa",
    "harp",
    "arpa, arpe, a pa, harp, harps, hp, hrp, hrf, harfe, harfen, hfe, hf, harpe, harpes",
  ),
  instrument("Cel.", "celesta", "cel, celesta, celeste"),
  instrument("Org.", "organ", "org, organo, orgel, orgue, organ"),
  instrument(
    "Vl.",
    "violins",
    "vl, vln, vlns, vni, vno, vn, vns, viol, violin, violins, violini, violino, violine, violinen, violon, violons, von, vons, gg, geigen, geige",
  ),
  instrument(
    "Va.",
    "violas",
    "va, vla, vlas, vle, viola, violas, viole, br, bratsche, bratschen, alto, altos",
  ),
  instrument(
    "Vc.",
    "cellos",
    "vc, vcl, vcs, vlc, vcll, celli, cello, cellos, violoncello, violoncelli, violoncell, violoncelle, violoncelles, vcelle, vcelles, velle, velles",
  ),
  instrument(
    "Cb.",
    "double basses",
    "cb, c b, kb, k b, db, d b, bassi, bs, contrabbasso, contrabbassi, contrabasso, contrabassi, kontrabass, kontrabasse, contrebasse, contrebasses, double bass, double basses, basses, bss",
  ),
  instrument("pizz.", "plucked strings", "pizz, pizzicato, pizzicati"),
  instrument(
    "Str.",
    "strings",
    "str, strs, strings, archi, arch, streicher, cordes, quartetto, quart, quat, quatuor, q tto",
  ),
  instrument(
    "Legni",
    "woodwind",
    "legni, fiati, holz, holzbl, holzblaser, blaser, bl, bois, wind, winds, ww, w w, wdwd, woodwind, woodwinds",
  ),
  instrument("Ottoni", "brass", "ottoni, ott ni, blech, blechbl, blechblaser, cuivres, brass"),
  instrument("Tutti", "full orchestra", "tutti, orch, orchestra, orchester, orchestre, ripieno, rip"),
];

const keysByName = new Map(
  cueInstruments.flatMap(({ key, written }) => written.map((name) => [name, key] as const)),
);

/** What stands in cues beside instruments: numbers of players, desks, ways of playing. */
const besides =
  /^(solo|soli|sola|div|divisi|unis|a|due|tre|e|ed|et|and|und|u|with|con|mit|avec|sord|sordino|dampfer|senza|ohne|arco|i|ii|iii|iv|v|vi|\d+|[1-4]o|[1-4]a|[1-4]st|[1-4]nd|[1-4]rd|in|gli|altri|1mo|2do|1ers|2mes|bes|la|fa|mi|re|do|sib|mib|b|es|as)$/;

/** Lower case, without accents and full stops, one blank between words. */
function fold(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{Diacritic}/gu, "")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
}

/**
 * The instruments that a cue names, by their keys: "Fl. e Cl." gives Fl. and Cl., "2 Hr." gives Cor., "Vlns." gives Vl.
 *
 * @returns in the order of the text, each once; null when the text says anything else ("dolce", "Tr. with the upper note").
 */
export function readCue(text: string): string[] | null {
  const words = fold(text).split(" ").filter(Boolean);
  const keys: string[] = [];
  for (let at = 0; at < words.length; ) {
    const nameOf = (length: number) => words.slice(at, at + length).join(" ");
    // The longest first: "cor ingl" is no horn.
    const count = [3, 2, 1].find((length) => at + length <= words.length && keysByName.has(nameOf(length)));
    const key = count && keysByName.get(nameOf(count));
    if (!key && !besides.test(words[at] ?? "")) return null;
    if (key && !keys.includes(key)) keys.push(key);
    at += count ?? 1;
  }
  return keys.length === 0 ? null : keys;
}
