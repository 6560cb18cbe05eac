import { classNames } from "./class-names";
import type { Ink } from "./party";
import styles from "./vi-de.module.css";

/** The word over a cut, underlined as it stands: dashed or dotted in the proposer's ink, a black line once agreed. */
export function ViDe({ ink, text = "Vi–de" }: { ink: Ink | "agreed"; text?: string }) {
  return <span className={classNames(styles.word, styles[ink])}>{text}</span>;
}
