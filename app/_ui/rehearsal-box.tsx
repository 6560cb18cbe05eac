import styles from "./rehearsal-box.module.css";

/** A rehearsal letter or number in its printed box. */
export function RehearsalBox({ text, small = false }: { text: string; small?: boolean }) {
  return <span className={small ? styles.small : styles.box}>{text}</span>;
}
