import Link from "next/link";
import { Fermata } from "./music-sign";
import styles from "./wait-tag.module.css";

/** "waits for you" on a card. */
export function WaitTag({ children = "waits for you" }: { children?: string }) {
  return (
    <span className={styles.tag}>
      <Fermata />
      {children}
    </span>
  );
}

/** "2 wait for you": the filled link at the top of every screen. Draws nothing when nothing waits. */
export function WaitLink({ count, href }: { count: number; href: string }) {
  if (count === 0) return null;
  return (
    <Link className={styles.link} href={href}>
      <Fermata />
      <span>
        <b>{count}</b>
        <span className={styles.words}> {count === 1 ? "waits" : "wait"} for you</span>
      </span>
    </Link>
  );
}
