import { classNames } from "@/app/_ui/class-names";
import type { JoinGrade } from "@/lib/cuts/join/join-row";
import styles from "./join-seam.module.css";

/** On a grid of 30 by 12. */
const seams: Readonly<Record<JoinGrade, string>> = {
  clean: "M1 6H29",
  "needs-a-touch": "M1 8.5H13.5L16.5 3.5H29",
  rough: "M1 9.5H11M19 2.5H29",
};

/** The sign of a join: unbroken, stepped or broken. It stands beside the word and is hidden from readers of text. */
export function JoinSeam({ grade, small = false }: { grade: JoinGrade; small?: boolean }) {
  return (
    <svg className={classNames(styles.seam, small && styles.small)} viewBox="0 0 30 12" aria-hidden="true">
      <path d={seams[grade]} />
    </svg>
  );
}
