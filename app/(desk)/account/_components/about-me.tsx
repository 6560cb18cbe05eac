import { Sheet } from "@/app/_ui/sheet";
import { WhoMark } from "@/app/_ui/who-mark";
import styles from "./account.module.css";

/** Under which name a person stands in their pieces, and what they sign in with. */
export function AboutMe({ name, email, initial }: { name: string; email: string; initial: string }) {
  return (
    <Sheet className={styles.section} aria-labelledby="about-me">
      <h2 id="about-me" className={styles.spoken}>
        You
      </h2>
      <div className={styles.me}>
        <WhoMark ink="graphite" initial={initial} big />
        <div>
          <b>{name}</b>
          <span>{email}</span>
        </div>
      </div>
      <p className={styles.about}>
        Your name stands under what you agree to. Your address is what you sign in with and where news go;
        nobody else sees it.
      </p>
    </Sheet>
  );
}
