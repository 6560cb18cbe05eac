import styles from "./skip-link.module.css";

/** The first stop of the tab key: straight to what the page is for. */
export function SkipLink({ to, children }: { to: string; children: string }) {
  return (
    <a className={styles.skip} href={`#${to}`}>
      {children}
    </a>
  );
}
