import type { ComponentProps } from "react";
import { classNames } from "./class-names";
import type { Ink } from "./party";
import styles from "./sheet.module.css";

/** A sheet of paper on the desk. */
export function Sheet({ className, ...rest }: ComponentProps<"section">) {
  return <section {...rest} className={classNames(styles.sheet, className)} />;
}

/** Whose edge a card has: a player's dashes or dots while it is open, black once agreed, grey when it is laid aside. */
export type Edge = Ink | "agreed" | "aside";

/** A sheet with the edge that says whose it is and how it stands. */
export function Card({ edge, className, ...rest }: { edge: Edge } & ComponentProps<"article">) {
  return <article {...rest} className={classNames(styles.sheet, styles.card, styles[edge], className)} />;
}
