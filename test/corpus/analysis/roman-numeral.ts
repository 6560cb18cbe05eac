import type { Key } from "@/lib/harmony/key";

/** What a Roman numeral of the analyses says: root and kind of triad or seventh chord. */
export interface AnalysedChord {
  /** Pitch class. */
  readonly root: number;
  readonly quality: string;
}

const major = [0, 2, 4, 5, 7, 9, 11];
const minor = [0, 2, 3, 5, 7, 8, 10];
const numerals = ["i", "ii", "iii", "iv", "v", "vi", "vii"];

/** Augmented sixths by what sounds: the German is heard as a seventh chord on the lowered sixth degree. */
const sixths: Readonly<Record<string, { above: number; quality: string }>> = {
  Ger: { above: 8, quality: "dominant-seventh" },
  It: { above: 8, quality: "dominant-seventh" },
  Fr: { above: 8, quality: "french-sixth" },
};

function readSpecial(figure: string, key: Key): AnalysedChord | null {
  const sixth = sixths[/^(Ger|It|Fr)/.exec(figure)?.[1] ?? ""];
  if (sixth) return { root: (key.tonic + sixth.above) % 12, quality: sixth.quality };
  if (figure.startsWith("Cad")) return { root: key.tonic, quality: key.mode };
  return null;
}

/** In minor, `vi` and `vii` that are minor or diminished stand on the raised degrees, `VI` and `VII` on the lowered. */
function degreeAbove(key: Key, degree: number, isLower: boolean): number {
  if (key.mode === "minor" && degree >= 5 && isLower) return major[degree] ?? 0;
  return (key.mode === "minor" ? minor : major)[degree] ?? 0;
}

function seventhOf(triad: string, sign: string, key: Key, root: number): string {
  if (sign === "o") return "diminished-seventh";
  if (sign === "ø") return "half-diminished";
  if (triad === "minor") return "minor-seventh";
  if (triad === "augmented") return "augmented";
  const scale = (key.mode === "minor" ? [...minor, 11] : major).map((step) => (step + key.tonic) % 12);
  return scale.includes((root + 11) % 12) && !scale.includes((root + 10) % 12)
    ? "major-seventh"
    : "dominant-seventh";
}

function triadOf(numeral: string, sign: string): string {
  if (sign === "o" || sign === "ø") return "diminished";
  if (sign === "+") return "augmented";
  return numeral === numeral.toLowerCase() ? "minor" : "major";
}

/** The key that `/V` and the like speak of. */
function keyOnto(figure: string, key: Key): Key {
  const chord = readRomanNumeral(figure, key);
  const isLower = /^[#b]*[iv]/.test(figure);
  return { tonic: chord.root, mode: isLower ? "minor" : "major" };
}

/** @throws RangeError for a figure that is no Roman numeral. */
export function readRomanNumeral(text: string, key: Key): AnalysedChord {
  const figure = text.replace(/\[.*?\]/g, "");
  const slash = figure.lastIndexOf("/");
  if (slash > 0) return readRomanNumeral(figure.slice(0, slash), keyOnto(figure.slice(slash + 1), key));
  const special = readSpecial(figure, key);
  if (special) return special;
  const match = /^([#b]*)([iv]+|[IV]+)([oø+]?)(\d*)/.exec(figure);
  const numeral = match?.[2] ?? "";
  const degree = numerals.indexOf(numeral.toLowerCase());
  if (degree < 0) throw new RangeError(`Not a Roman numeral: "${text}"`);
  const [, accidentals = "", , sign = "", figures = ""] = match ?? [];
  const shift = [...accidentals].reduce((sum, sharp) => sum + (sharp === "#" ? 1 : -1), 0);
  const above = degreeAbove(key, degree, numeral === numeral.toLowerCase());
  const root = (key.tonic + above + shift + 12) % 12;
  const triad = triadOf(numeral, sign);
  const quality = /^(7|65|43|42|2|9)/.test(figures) ? seventhOf(triad, sign, key, root) : triad;
  return { root, quality };
}
