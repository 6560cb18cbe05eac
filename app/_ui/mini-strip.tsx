import styles from "./mini-strip.module.css";
import { bridgePath } from "./strip/cut-shapes";
import { makeScale } from "./strip/scale";
import type { StripPiece } from "./strip/strip-piece";
import { placeLetters } from "./strip/top-labels";

/** The strip on one line, for lists: where the solo plays, rests and is cut. Its width is that of its place. */
export function MiniStrip({
  piece,
  hasLetters = false,
  isAsPlayed = false,
  width = 420,
}: {
  piece: StripPiece;
  hasLetters?: boolean;
  isAsPlayed?: boolean;
  /** Units of the drawing; it is scaled to its place. */
  width?: number;
}) {
  const closed = isAsPlayed
    ? piece.cuts.filter((cut) => cut.state === "agreed").flatMap((cut) => [...cut.gaps])
    : [];
  const scale = makeScale(
    piece.totalSeconds,
    width,
    closed.sort((a, b) => a.from - b.from),
  );
  const middle = hasLetters ? 26 : 20;
  return (
    <svg
      className={styles.mini}
      viewBox={`-2 0 ${width + 4} ${middle + 10}`}
      role="img"
      aria-label={`${piece.bars.length} bars: where the solo plays, rests and is cut`}
    >
      {piece.solo.map((stretch) => (
        <rect
          key={stretch.from}
          className={styles.plays}
          x={scale.x(stretch.from) + 0.5}
          y={middle - 6}
          width={Math.max(0.6, scale.x(stretch.to) - scale.x(stretch.from) - 1)}
          height={12}
        />
      ))}
      {piece.tuttis.map((tutti) => {
        const [x, end] = [scale.x(tutti.from) + 1, scale.x(tutti.to) - 1];
        if (end - x < 2) return null;
        return (
          <g key={tutti.from} className={styles.rest}>
            <path d={`M${x} ${middle}H${end}`} />
            <path className={styles.restEnd} d={`M${x} ${middle - 4}v8M${end} ${middle - 4}v8`} />
          </g>
        );
      })}
      {piece.cuts.map((cut) => (
        <g key={cut.id} className={styles[cut.state === "agreed" ? "agreed" : cut.ink]}>
          {cut.gaps.map((gap) => (
            <MiniGap
              key={gap.from}
              x={scale.x(gap.from)}
              end={scale.x(gap.to)}
              middle={middle}
              state={isAsPlayed && cut.state === "agreed" ? "closed" : cut.state}
            />
          ))}
        </g>
      ))}
      {hasLetters &&
        placeLetters(piece.letters, scale).map((box) => (
          <text key={box.x} className={styles.letter} x={box.x} y={9}>
            {box.text}
          </text>
        ))}
    </svg>
  );
}

function MiniGap({
  x,
  end,
  middle,
  state,
}: {
  x: number;
  end: number;
  middle: number;
  state: "open" | "agreed" | "closed";
}) {
  if (state === "closed") return <path className={styles.seam} d={`M${x} ${middle - 12}v22`} />;
  return (
    <>
      <rect className={styles.gap} x={x} y={middle - 8} width={end - x} height={16} />
      <path className={styles.edge} d={`M${x} ${middle - 8}v16M${end} ${middle - 8}v16`} />
      {state === "agreed" ? (
        <path className={styles.slur} d={bridgePath(x, end, middle - 8, 8, 3)} />
      ) : (
        <path className={styles.edge} d={bridgePath(x, end, middle - 8, 12, 0)} />
      )}
    </>
  );
}
