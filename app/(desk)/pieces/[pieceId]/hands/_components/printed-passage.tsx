"use client";

import { layoutFor } from "@/app/_ui/score/engraving";
import { useWidth } from "@/app/_ui/strip/use-width";
import type { DrawnPassage } from "@/lib/engrave/passage/drawn-passage";
import { PassageSystem } from "../_editor/passage-system";
import { usePassage } from "../_editor/use-passage";
import type { Bars } from "./passage-state";
import styles from "./printed-passage.module.css";

/** The bars as the reduction prints them, with a bracket over those that are awkward, and the figure over the worst. */
export function PrintedPassage({
  pieceId,
  sourceHash,
  bars: { fromBar, toBar },
  awkward,
  worst,
  words,
  label,
}: {
  pieceId: string;
  sourceHash: string;
  bars: Bars;
  /** Bars to put a bracket over, by index. */
  awkward: ReadonlySet<number>;
  /** Bar that the words stand over. */
  worst: number | null;
  /** "7.3 chords a second". */
  words: string | null;
  label: string;
}) {
  const [element, width] = useWidth<HTMLDivElement>();
  const layout = width ? layoutFor(width) : null;
  const { passage, isWorking, problem, retry } = usePassage(
    layout && { pieceId, sourceHash, fromBar, toBar, rewrite: null, as: "printed", layout },
  );
  return (
    <div ref={element} className={styles.passage} role="img" aria-label={label} aria-busy={isWorking}>
      {passage?.systems.map((system, index) => (
        // Systems never change their order.
        // biome-ignore lint/suspicious/noArrayIndexKey: see above
        <div key={index} className={styles.system} data-drawn>
          <Brackets system={system} awkward={awkward} worst={worst} words={words} />
          <PassageSystem system={system} />
        </div>
      ))}
      {passage === null && problem === null && <p className={styles.coming}>The bars are being drawn.</p>}
      {problem && (
        <p role="alert">
          {problem}{" "}
          <button type="button" className={styles.retry} onClick={retry}>
            Try again
          </button>
        </p>
      )}
    </div>
  );
}

/** One bracket a bar, as wide as the bar in the drawing. */
function Brackets({
  system,
  awkward,
  worst,
  words,
}: {
  system: DrawnPassage["systems"][number];
  awkward: ReadonlySet<number>;
  worst: number | null;
  words: string | null;
}) {
  const share = (units: number) => `${((100 * units) / system.width).toFixed(2)}%`;
  return (
    <div className={styles.brackets} style={{ maxWidth: `${system.width / 30}px` }} aria-hidden="true">
      {system.bars
        .filter(({ barIndex }) => awkward.has(barIndex))
        .map(({ barIndex, x, width }) => (
          <span key={barIndex} style={{ left: share(x), width: share(width) }}>
            {barIndex === worst && words !== null && <b>{words}</b>}
          </span>
        ))}
    </div>
  );
}
