import type { DeskCut } from "@/app/_data/desk/desk";
import type { DeskRewrite } from "@/app/_data/desk/hands-desk";

/** Bars by index, both included. */
export interface Bars {
  readonly fromBar: number;
  readonly toBar: number;
}

export const sharesBars = (a: Bars, b: Bars): boolean => a.fromBar <= b.toBar && b.fromBar <= a.toBar;

/** Everything that is written for some bars and not taken off. */
export function rewritesOver(rewrites: readonly DeskRewrite[], bars: Bars): DeskRewrite[] {
  return rewrites.filter(
    (rewrite) => rewrite.takenOffAt === null && !rewrite.isStale && sharesBars(rewrite, bars),
  );
}

/** The rewrite that a pianist plays in some bars, or means to: what waits for an answer, what stands, then the latest. */
export function rewriteOf(rewrites: readonly DeskRewrite[], bars: Bars): DeskRewrite | null {
  const here = rewritesOver(rewrites, bars);
  const waits = here.find(({ proposal }) => proposal?.state === "open");
  return waits ?? here.find(({ stands }) => stands) ?? here.at(-1) ?? null;
}

/** Whether something was decided about its bars: a rewrite that the pianist plays, or the print after all. */
export const isSettledBy = (rewrite: DeskRewrite | null): boolean =>
  rewrite !== null && (rewrite.sharing !== "asked" || rewrite.stands || rewrite.proposal?.state === "open");

/** How it stands with a rewrite, for its author. @param other whom it is told to, by first name. */
export function sayStanding(rewrite: DeskRewrite, other: string): string {
  const { isAsPrinted, frozenIn, stands, sharing, proposal } = rewrite;
  if (isAsPrinted) return "kept as printed";
  const inEdition = frozenIn.length > 0 && stands ? `in № ${Math.max(...frozenIn)}` : null;
  if (inEdition) return inEdition;
  if (sharing === "only_me") return "own rewrite, only you";
  if (sharing === "told") return `told ${other}`;
  if (proposal?.state === "open") return `waits for ${other}`;
  if (proposal?.state === "agreed") return "agreed";
  if (proposal?.state === "declined") return `${other} declined`;
  return "asked, then taken back";
}

/** The cut that a passage lies in, agreed before proposed; null when it is played. */
export function cutOver(cuts: readonly DeskCut[], bars: Bars): DeskCut | null {
  const over = (state: DeskCut["state"]) =>
    cuts.find(
      (cut) =>
        cut.state === state && !cut.isStale && cut.firstBar <= bars.fromBar && cut.lastBar >= bars.toBar,
    );
  return over("agreed") ?? over("open") ?? null;
}

/** What the list says beside a passage. */
export interface PassageState {
  readonly words: string;
  /** A second line: where it lies. */
  readonly place: string | null;
  /** The triangle is hollow. */
  readonly isSolved: boolean;
}

/** @param offers how many rewrites were found; null while that is not known. */
export function stateOfPassage(
  {
    rewrite,
    cut,
    other,
    isEasyWhenShared,
  }: {
    rewrite: DeskRewrite | null;
    cut: DeskCut | null;
    other: string;
    isEasyWhenShared: boolean;
  },
  offers: number | null,
): PassageState {
  const place =
    cut === null ? null : `Inside cut ${cut.number}${cut.state === "open" ? ", not yet agreed" : ""}`;
  if (rewrite) return { words: sayStanding(rewrite, other), place, isSolved: isSettledBy(rewrite) };
  if (cut?.state === "agreed") return { words: "not played", place, isSolved: true };
  if (cut) return { words: "waits for the cut", place, isSolved: false };
  if (offers === null) return { words: isEasyWhenShared ? "share it otherwise" : "", place, isSolved: false };
  if (offers === 0) return { words: "nothing easier found", place, isSolved: false };
  return { words: "rewrite suggested", place, isSolved: false };
}
