import type { DeskBar } from "@/app/_data/desk/desk";
import { classNames } from "@/app/_ui/class-names";
import { toPositionTerms } from "@/lib/edition/position-terms";
import styles from "./bracket-line.module.css";
import { type PageSpan, wordsAt } from "./bracket-spans";
import type { Bracket } from "./brackets";
import { type DrawnSystem, endX, startX } from "./place-on-system";
import type { NoteEnds } from "./solo-places";
import type { RestWords } from "./solo-system";

/** Under each system, in pixels. */
export const bracketRoom = 46;

/** Narrower than this a bracket has no words, in pixels. */
const wordsPixels = 30;

type Bars = readonly Pick<DeskBar, "label" | "length" | "beats">[];

interface Piece {
  readonly key: string;
  readonly bracket: Bracket;
  readonly from: number;
  readonly to: number;
  readonly hasStart: boolean;
  readonly hasEnd: boolean;
  readonly hasWords: boolean;
}

/** The part of a run that lies on this system; null when none does. */
function pieceOf(
  drawn: DrawnSystem,
  bars: Bars,
  ends: NoteEnds,
  bracket: Bracket,
  run: PageSpan,
  firstBars: readonly number[],
): Piece | null {
  const { system, lastBar } = drawn;
  const first = system.firstBarIndex;
  const lastOfRun = run.to.offset.num === 0 ? run.to.barIndex - 1 : run.to.barIndex;
  if (lastOfRun < first || run.from.barIndex > lastBar) return null;
  const hasStart = run.from.barIndex >= first;
  const hasEnd = lastOfRun <= lastBar;
  const [firstBox, lastBox] = [system.bars[0], system.bars.at(-1)];
  if (!firstBox || !lastBox) return null;
  const from = hasStart
    ? startX(bars, ends, drawn, toPositionTerms(run.from))
    : (drawn.notes[0]?.left ?? firstBox.x);
  const to = hasEnd ? endX(bars, ends, drawn, toPositionTerms(run.to)) : lastBox.x + lastBox.width;
  if (from === null || to === null || to <= from) return null;
  const hasWords = wordsAt(run, firstBars) === first;
  return { key: `${bracket.key} ${run.from.barIndex}`, bracket, from, to, hasStart, hasEnd, hasWords };
}

/** From breath to breath under a system, and how long each many-bar rest lasts. */
export function BracketLine({
  drawn,
  bars,
  ends,
  brackets,
  rests,
  firstBars,
  unit,
}: {
  drawn: DrawnSystem;
  bars: Bars;
  ends: NoteEnds;
  brackets: readonly Bracket[];
  rests: readonly RestWords[];
  /** With which each system of the part begins. */
  firstBars: readonly number[];
  unit: number;
}) {
  const { system, lastBar, notes } = drawn;
  const pieces =
    notes.length === 0
      ? []
      : brackets.flatMap((bracket) =>
          bracket.runs.flatMap((run) => pieceOf(drawn, bars, ends, bracket, run, firstBars) ?? []),
        );
  const boxes = system.bars.flatMap((box, place) => {
    const end = (system.bars[place + 1]?.barIndex ?? lastBar + 1) - 1;
    const rest = rests.find(({ firstBar, lastBar: to }) => firstBar <= end && to >= box.barIndex);
    return end > box.barIndex && rest ? [{ box, rest }] : [];
  });
  return (
    <svg
      className={styles.line}
      style={{ height: bracketRoom }}
      viewBox={`0 0 ${system.width} ${bracketRoom * unit}`}
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      {pieces.map(({ key, bracket, from, to, hasStart, hasEnd, hasWords }) => {
        const y = (bracket.level === 0 ? 14 : 34) * unit;
        const [left, right] = [from + unit, to - 2 * unit];
        const foot = 6 * unit;
        return (
          <g key={key} className={classNames(styles.bracket, bracket.isLong && styles.long)}>
            <path
              d={`M${left} ${y}${hasStart ? `m0 ${-foot}v${foot}` : ""}H${right}${hasEnd ? `v${-foot}` : ""}`}
            />
            {hasWords && right - left > wordsPixels * unit && (
              <text x={(left + right) / 2} y={y + 4 * unit} fontSize={12 * unit}>
                {bracket.words}
              </text>
            )}
          </g>
        );
      })}
      {boxes.map(({ box, rest }) => (
        <text
          key={box.barIndex}
          className={styles.rest}
          x={box.x + box.width / 2}
          y={18 * unit}
          fontSize={12 * unit}
        >
          {rest.words}
        </text>
      ))}
    </svg>
  );
}
