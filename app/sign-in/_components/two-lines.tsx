import styles from "./two-lines.module.css";

/** The two players' lines over a staff, becoming the one they agreed on. */
export function TwoLines() {
  return (
    <svg
      className={styles.picture}
      viewBox="0 0 640 240"
      role="img"
      aria-label="Two proposals become one reading"
    >
      {[88, 104, 120, 136, 152].map((y) => (
        <path key={y} className={styles.staff} d={`M0 ${y}H640`} />
      ))}
      <path className={styles.piano} d="M40 36C196 36 214 120 376 120" />
      <path className={styles.solo} d="M40 204C196 204 214 120 376 120" />
      <path className={styles.together} d="M374 120H640" />
      <rect className={styles.key} x="14" y="18" width="36" height="36" />
      <circle className={styles.bell} cx="32" cy="204" r="19" />
      <text className={styles.pianoWords} x="64" y="30">
        piano proposes
      </text>
      <text className={styles.soloWords} x="64" y="228">
        soloist counter-proposes
      </text>
      <text className={styles.agreed} x="640" y="78">
        agreed
      </text>
    </svg>
  );
}
