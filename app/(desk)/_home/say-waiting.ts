import { capital } from "@/app/_ui/capital";
import { sayNumber } from "@/lib/score/say-number";
import type { Waiting } from "@/lib/store/proposals/list-waiting";

/** The headline of the first screen: how many answers are asked for, and where they come from. */
export function sayWaiting(waiting: readonly Waiting[]): { headline: string; below: string | null } {
  if (waiting.length === 0) return { headline: "Nothing waits for you", below: null };
  const count = capital(sayNumber(waiting.length, 10));
  const headline = waiting.length === 1 ? "One answer waits for you" : `${count} answers wait for you`;
  return { headline, below: sayWhere(waiting) };
}

function sayWhere(waiting: readonly Waiting[]): string {
  const people = [...new Set(waiting.map(({ from }) => firstName(from)))];
  const pieces = [...new Set(waiting.map(({ pieceTitle }) => pieceTitle))];
  const [person, piece] = [people[0] ?? "", pieces[0] ?? ""];
  if (waiting.length === 1) return `From ${person}, in ${piece}.`;
  const all = waiting.length === 2 ? "Both" : "All";
  if (people.length > 1) return `From ${joinWords(people)}.`;
  return pieces.length > 1
    ? `${all} from ${person}, in ${joinWords(pieces)}.`
    : `${all} from ${person}, ${waiting.length === 2 ? "both" : "all"} in ${piece}.`;
}

/** "clarinet in B♭", "piano", "coach". */
export function sayPlays(role: string, soloName: string | undefined): string {
  if (role === "pianist") return "piano";
  if (role !== "soloist") return role;
  return soloName ? `${soloName.charAt(0).toLocaleLowerCase()}${soloName.slice(1)}` : "solo";
}

export function firstName(name: string): string {
  return name.trim().split(/\s+/)[0] ?? name;
}

function joinWords(words: readonly string[]): string {
  return new Intl.ListFormat("en", { type: "conjunction" }).format(words);
}
