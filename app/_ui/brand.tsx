import Link from "next/link";
import styles from "./brand.module.css";

/** Two lines, the piano's and the solo's, that become one. */
export function Brand({ isLink = true }: { isLink?: boolean }) {
  const content = (
    <>
      <svg className={styles.sign} viewBox="0 0 44 26" aria-hidden="true">
        <path className={styles.piano} d="M4 5.5C14.5 5.5 14.5 13 25 13" />
        <path className={styles.solo} d="M4 20.5C14.5 20.5 14.5 13 25 13" />
        <path className={styles.together} d="M24 13H42.5" />
        <rect className={styles.key} x="0.5" y="2" width="7" height="7" />
        <circle className={styles.bell} cx="4" cy="20.5" r="4" />
      </svg>
      <span>Colla Parte</span>
    </>
  );
  if (!isLink) return <span className={styles.brand}>{content}</span>;
  return (
    <Link className={styles.brand} href="/" aria-label="Colla Parte, your pieces">
      {content}
    </Link>
  );
}
