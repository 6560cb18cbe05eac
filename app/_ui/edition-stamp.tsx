import styles from "./edition-stamp.module.css";

/** "№ 3" in a double frame, as an edition carries it at the foot of its pages. */
export function EditionStamp({
  number,
  size = "small",
}: {
  number: number;
  /** `working` is the edition being made: dashed, not frozen yet. */
  size?: "small" | "large" | "working";
}) {
  return <span className={styles[size]}>№ {number}</span>;
}
