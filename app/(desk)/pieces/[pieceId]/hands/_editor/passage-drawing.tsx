"use client";

import { layoutFor } from "@/app/_ui/score/engraving";
import { useWidth } from "@/app/_ui/strip/use-width";
import type { RewriteTerms } from "@/lib/edition/rewrite-terms";
import styles from "./passage-drawing.module.css";
import { PassageSystem } from "./passage-system";
import { usePassage } from "./use-passage";

/**
 * Some bars of the reduction as they are printed, with a rewrite instead, or with it as an ossia over the staff.
 *
 * @param label what is drawn, for those who hear the page: "Bars 166 to 168 as printed".
 */
export function PassageDrawing({
  pieceId,
  sourceHash,
  fromBar,
  toBar,
  rewrite,
  as,
  label,
}: {
  pieceId: string;
  sourceHash: string;
  /** Bars by index, both included. */
  fromBar: number;
  toBar: number;
  rewrite: RewriteTerms | null;
  as: "printed" | "instead" | "ossia";
  label: string;
}) {
  const [element, width] = useWidth<HTMLDivElement>();
  const layout = width ? layoutFor(width) : null;
  const { passage, isWorking, problem, retry } = usePassage(
    layout && { pieceId, sourceHash, fromBar, toBar, rewrite, as, layout },
  );
  return (
    <div ref={element} className={styles.passage}>
      <div
        role="img"
        aria-label={label}
        aria-busy={isWorking}
        className={styles.systems}
        data-drawn={passage !== null || undefined}
      >
        {passage?.systems.map((system, index) => (
          // Systems never change their order.
          // biome-ignore lint/suspicious/noArrayIndexKey: see above
          <PassageSystem key={index} system={system} />
        ))}
        {passage === null && problem === null && <p className={styles.coming}>The bars are being drawn.</p>}
      </div>
      {problem && (
        <p className={styles.problem} role="alert">
          {problem}{" "}
          <button type="button" onClick={retry}>
            Try again
          </button>
        </p>
      )}
    </div>
  );
}
