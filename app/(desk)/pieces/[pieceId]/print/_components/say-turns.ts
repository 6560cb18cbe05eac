import { capital } from "@/app/_ui/capital";
import type { PagesPlan, PlannedPage } from "@/lib/engrave/pages/pages-plan";
import { sayLeft } from "@/lib/score/say-seconds";

type Turn = NonNullable<PlannedPage["turn"]>;

/** "6 pages, 5 turns: 3 easy, 1 quick, 1 bad". */
export function sayPages({ pages }: Pick<PagesPlan, "pages">): string {
  const turns = pages.flatMap(({ turn }) => (turn ? [turn] : []));
  const grades = (["easy", "quick", "bad"] as const)
    .map((grade) => ({ grade, count: turns.filter((turn) => turn.grade === grade).length }))
    .filter(({ count }) => count > 0)
    .map(({ grade, count }) => `${count} ${grade}`);
  const of = (count: number, word: string) => `${count} ${word}${count === 1 ? "" : "s"}`;
  if (turns.length === 0) return `${of(pages.length, "page")}, nothing to turn`;
  return `${of(pages.length, "page")}, ${of(turns.length, "turn")}: ${grades.join(", ")}`;
}

/** "Before bar 63: no hand free to turn; “V.S.” is printed." The page is said beside it. */
export function sayTurn({ sentence, sign }: Turn): string {
  const plain = capital(sentence.replace(/^Page \d+, /, "").replace(/\.$/, ""));
  return sign ? `${plain}; “${sign}” is printed.` : `${plain}.`;
}

export const gradeWords: Readonly<Record<Turn["grade"], string>> = {
  easy: "Easy turn",
  quick: "Quick turn",
  bad: "Bad turn",
};

/** What each hand has at each time that the page is turned. */
export function sayHands({ moments }: Turn): string[] {
  return moments.map(({ atSeconds, direction, hands }) => {
    const free = hands.map(
      ({ hand, freeBefore, freeAfter, freeSeconds }) =>
        `${hand} free ${sayLeft(freeSeconds)} (${sayLeft(freeBefore)} before, ${sayLeft(freeAfter)} after)`,
    );
    const at = `at ${sayLeft(atSeconds)} of the performance`;
    return `${capital(direction === "back" ? `back, ${at}` : at)}: ${free.join(", ")}.`;
  });
}

/** "bars 29 to 50" of a page. */
export function sayBars({ systems }: PlannedPage): string {
  const [first, last] = [systems[0]?.firstBar.label, systems.at(-1)?.lastBar.label];
  return first === last ? `bar ${first}` : `bars ${first} to ${last}`;
}
