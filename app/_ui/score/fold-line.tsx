import { Button } from "../button";
import { ViDe } from "../vi-de";
import type { FoldRow } from "./fold";
import styles from "./fold-line.module.css";
import type { ScoreCut } from "./score-cut";

/** Folded bars, as a page is folded over a cut: it says what it hides. */
export function FoldLine({
  fold,
  firstLabel,
  lastLabel,
  onUnfold,
}: {
  fold: FoldRow<ScoreCut>;
  firstLabel: string;
  lastLabel: string;
  onUnfold: () => void;
}) {
  const count = fold.lastBar - fold.firstBar + 1;
  const { cut } = fold;
  return (
    <li className={styles.fold} data-first-bar={fold.firstBar} data-last-bar={fold.lastBar}>
      <span>
        <b>
          Bars {firstLabel}–{lastLabel}
        </b>{" "}
        folded in, {count} bars
      </span>
      <ViDe ink={cut.state === "agreed" ? "agreed" : cut.ink} text={`Cut ${cut.number}`} />
      <Button small className={styles.unfold} onClick={onUnfold}>
        Unfold
      </Button>
    </li>
  );
}
