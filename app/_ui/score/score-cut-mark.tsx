import type { EngravedSystem } from "./engraving";
import { cutOnSystem, type ScoreCut } from "./score-cut";
import styles from "./score-cut-mark.module.css";

/** A cut on one system: a stroke through each bar, the end lines with Vi– and –de, its number and who proposes. */
export function ScoreCutMark({
  system,
  cut,
  unit,
}: {
  system: EngravedSystem;
  cut: ScoreCut;
  /** Units of the drawing in one pixel of the page. */
  unit: number;
}) {
  const here = cutOnSystem(system, cut);
  const first = system.bars[0];
  if (!here || !first) return null;
  const { top, bottom } = first;
  const party = cut.state === "agreed" ? "agreed" : cut.ink;
  return (
    <g className={styles[party]} style={{ "--px": unit } as React.CSSProperties}>
      {here.boxes.map((box) => (
        <path
          key={box.x}
          className={styles.strike}
          d={`M${box.x + 5 * unit} ${bottom + 2 * unit}L${box.x + box.width - 5 * unit} ${top - 2 * unit}`}
        />
      ))}
      {here.startX !== null && <StartEnd cut={cut} x={here.startX} top={top} bottom={bottom} unit={unit} />}
      {here.endX !== null && (
        <>
          <EndLine x={here.endX} top={top} bottom={bottom} unit={unit} side={-1} />
          <text
            className={styles.word}
            fontSize={20 * unit}
            textAnchor={isAtEdge(system, here.endX, unit) ? "end" : "start"}
            x={here.endX + (isAtEdge(system, here.endX, unit) ? -5 : 5) * unit}
            y={top - (isAtEdge(system, here.endX, unit) ? 46 : 30) * unit}
          >
            –de
          </text>
        </>
      )}
    </g>
  );
}

/** At the right edge of the page the word has no room after its line. */
function isAtEdge(system: EngravedSystem, x: number, unit: number): boolean {
  return system.width - x < 36 * unit;
}

interface End {
  x: number;
  top: number;
  bottom: number;
  unit: number;
}

function EndLine({ x, top, bottom, unit, side }: End & { side: 1 | -1 }) {
  const [from, to, foot] = [top - 42 * unit, bottom + 10 * unit, 13 * unit * side];
  return <path className={styles.line} d={`M${x + foot} ${from}H${x}V${to}H${x + foot}`} />;
}

function StartEnd({ cut, ...end }: End & { cut: ScoreCut }) {
  const { x, top, unit } = end;
  const [plateX, plateY] = [x + 15 * unit, top - 31 * unit];
  const isRound = cut.state === "open" && cut.ink === "so";
  return (
    <>
      <EndLine {...end} side={1} />
      <text
        className={styles.word}
        textAnchor="end"
        fontSize={20 * unit}
        x={x - 4 * unit}
        y={top - 30 * unit}
      >
        Vi–
      </text>
      {cut.number === null ? null : isRound ? (
        <circle className={styles.plate} cx={plateX} cy={plateY} r={9.5 * unit} />
      ) : (
        <rect
          className={styles.plate}
          x={plateX - 9 * unit}
          y={plateY - 9 * unit}
          width={18 * unit}
          height={18 * unit}
        />
      )}
      {cut.number !== null && (
        <text className={styles.number} fontSize={12 * unit} x={plateX} y={plateY + 4.4 * unit}>
          {cut.number}
        </text>
      )}
      {cut.says && (
        <text
          className={styles.who}
          fontSize={12 * unit}
          x={x + (cut.number === null ? 8 : 29) * unit}
          y={top - 27 * unit}
        >
          {cut.says}
        </text>
      )}
    </>
  );
}
