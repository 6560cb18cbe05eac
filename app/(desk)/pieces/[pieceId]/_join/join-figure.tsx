import { WithFlats } from "@/app/_ui/music-sign";
import type { JoinRow } from "@/lib/cuts/join/join-row";
import styles from "./join-figure.module.css";
import {
  figureHeight,
  figureWidth,
  joinX,
  type LinePoint,
  type LoudnessSide,
  layChords,
  layKey,
  layLoudness,
  layPhrases,
  layTopLine,
  type PhraseSide,
} from "./join-figures";

/** What a row was judged by, drawn. Whoever hears the page is told by the row's words and its opened figures. */
export function JoinFigure({ row, keyRow }: { row: JoinRow; keyRow: JoinRow | undefined }) {
  switch (row.kind) {
    case "key":
      return <KeyFigure row={row} />;
    case "harmony":
      return <ChordFigure row={row} keyRow={keyRow} />;
    case "phrase":
      return <PhraseFigure row={row} />;
    case "melody":
      return <TopLineFigure row={row} />;
    case "loudness":
      return <LoudnessFigure row={row} />;
    default:
      return null;
  }
}

function Frame({ children }: { children: React.ReactNode }) {
  return (
    <svg
      className={styles.figure}
      width={figureWidth}
      height={figureHeight}
      viewBox={`0 0 ${figureWidth} ${figureHeight}`}
      aria-hidden="true"
    >
      {children}
    </svg>
  );
}

const JoinLine = () => <path className={styles.join} d={`M${joinX} 1V23`} />;

function KeyFigure({ row }: { row: JoinRow }) {
  const laid = layKey(row);
  if (!laid) return null;
  const { xs, beforeX, afterX } = laid;
  const [first, last] = [xs[0] ?? 0, xs.at(-1) ?? 0];
  const middle = (beforeX + afterX) / 2;
  return (
    <Frame>
      <path className={styles.grey} d={`M${first - 4} 17H${last + 4}`} />
      {xs.map((x) => (
        <circle key={x} className={styles.light} cx={x} cy={17} r={2} />
      ))}
      <circle className={styles.open} cx={beforeX} cy={17} r={4.2} />
      <circle className={styles.full} cx={afterX} cy={17} r={4.2} />
      {beforeX === afterX ? (
        <circle className={styles.ring} cx={afterX} cy={17} r={6.6} />
      ) : (
        <>
          <path className={styles.line} d={`M${beforeX} 11Q${middle} -1 ${afterX} 9`} />
          <path
            className={styles.full}
            d={`M${afterX} 12l${beforeX < afterX ? 2.6 : -2.6} -5.4 ${beforeX < afterX ? -6 : 6} .6z`}
          />
        </>
      )}
    </Frame>
  );
}

function ChordFigure({ row, keyRow }: { row: JoinRow; keyRow: JoinRow | undefined }) {
  const { before, after } = layChords(row, keyRow);
  return (
    <span className={styles.chords} aria-hidden="true">
      <Chord name={before} />
      <i />
      <Chord name={after} />
    </span>
  );
}

function Chord({ name }: { name: string | null }) {
  if (name === null) return <b className={styles.silent}>–</b>;
  return (
    <b>
      <WithFlats text={name} />
    </b>
  );
}

/** Bar lines on a line, with a hook where a phrase begins, and where one is closed by the join. */
function phrasePath({ ticks, starts }: PhraseSide): string {
  const [first, last] = [ticks[0] ?? 0, ticks.at(-1) ?? 0];
  const bars = ticks.map((x) => `M${x} 8v9`).join("");
  return `${bars}M${first} 12.5H${last}${starts.length > 0 ? `M${first} 3H${last}` : ""}`;
}

function PhraseFigure({ row }: { row: JoinRow }) {
  const { before, after } = layPhrases(row);
  return (
    <Frame>
      {[before, after].map((side) => (
        <g key={side.ticks[0]}>
          <path className={styles.grey} d={phrasePath(side)} />
          {side.starts.map((x) => (
            <path key={x} className={styles.line} d={`M${x} 17V3`} />
          ))}
        </g>
      ))}
      <JoinLine />
    </Frame>
  );
}

/** More notes than this on one side are drawn as a line only. */
const mostDots = 6;

function TopLineFigure({ row }: { row: JoinRow }) {
  const { before, after } = layTopLine(row);
  const [last, next] = [before.at(-1), after[0]];
  return (
    <Frame>
      {[before, after].map((side, index) => (
        <g key={index === 0 ? "before" : "after"}>
          {side.length > 1 && <path className={styles.grey} d={pathOf(side)} />}
          {side.length <= mostDots &&
            side.map((point) => (
              <circle key={point.x} className={styles.open} cx={point.x} cy={point.y} r={2.8} />
            ))}
        </g>
      ))}
      {last && next && <path className={styles.line} d={pathOf([last, next])} />}
      {[last, next].map(
        (point) =>
          point && <circle key={point.x} className={styles.full} cx={point.x} cy={point.y} r={3.2} />,
      )}
      <JoinLine />
    </Frame>
  );
}

function pathOf(points: readonly LinePoint[]): string {
  return `M${points.map(({ x, y }) => `${x} ${y.toFixed(1)}`).join("L")}`;
}

const foot = 21;

/** A block as high as the music is loud; under a hairpin its top slopes. */
function blockPath({ height, hairpin }: LoudnessSide, x: number): string {
  const level = height ?? 10;
  const [left, right] = [foot - level + 2 * hairpin, foot - level - 2 * hairpin];
  return `M${x} ${foot}V${left}L${x + 40} ${right}V${foot}Z`;
}

function LoudnessFigure({ row }: { row: JoinRow }) {
  const { before, after } = layLoudness(row);
  return (
    <Frame>
      <path className={before.height === null ? styles.unknown : styles.full} d={blockPath(before, 2)} />
      <path className={after.height === null ? styles.unknown : styles.full} d={blockPath(after, 50)} />
      <JoinLine />
    </Frame>
  );
}
