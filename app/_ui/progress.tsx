import styles from "./progress.module.css";

/** How far a long piece of work is. `done` from 0 to 1, or null while that is not known. */
export function Progress({ words, done }: { words: string; done: number | null }) {
  return (
    <div className={styles.progress}>
      <p role="status">{words}</p>
      <progress aria-label={words} max={1} {...(done === null ? {} : { value: done })} />
    </div>
  );
}
