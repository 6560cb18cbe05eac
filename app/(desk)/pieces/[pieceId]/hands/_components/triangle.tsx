import { Spoken } from "@/app/_ui/spoken";
import styles from "./triangle.module.css";

/** The sign of a passage, as on the strip: black while nothing is done about it, hollow once something is. */
export function Triangle({ isSolved, says }: { isSolved: boolean; says?: string }) {
  return (
    <>
      <svg className={isSolved ? styles.solved : styles.open} viewBox="0 0 14 13" aria-hidden="true">
        <path d="M1.5 1.5h11L7 11z" />
      </svg>
      {says && <Spoken>{says}</Spoken>}
    </>
  );
}
