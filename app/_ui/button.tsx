import Link from "next/link";
import type { ComponentProps } from "react";
import styles from "./button.module.css";
import { classNames } from "./class-names";
import type { Ink } from "./party";

interface Look {
  /** Filled settles, dashed in the player's ink proposes, outlined changes nothing, bare opens. */
  kind?: "settle" | "propose" | "plain" | "bare";
  /** Whose ink a proposing button is drawn in. */
  ink?: Ink;
  /** 36 px with a mouse; still 44 px under a finger. */
  small?: boolean;
  /** Fills the width it is given. */
  wide?: boolean;
}

/** The class names of a button, for elements that must look like one and are neither button nor link (a file label). */
export function buttonClass({ kind = "plain", ink = "graphite", small, wide }: Look): string {
  return classNames(
    styles.button,
    styles[kind],
    kind === "propose" && styles[ink],
    small && styles.small,
    wide && styles.wide,
  );
}

export function Button({ kind, ink, small, wide, className, ...rest }: Look & ComponentProps<"button">) {
  return (
    <button
      type="button"
      {...rest}
      className={classNames(buttonClass({ kind, ink, small, wide }), className)}
    />
  );
}

export function ButtonLink({
  kind,
  ink,
  small,
  wide,
  className,
  ...rest
}: Look & ComponentProps<typeof Link>) {
  return <Link {...rest} className={classNames(buttonClass({ kind, ink, small, wide }), className)} />;
}
