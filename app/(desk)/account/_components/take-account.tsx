"use client";

import { Icon } from "@/app/_ui/icon";
import { SaveLink } from "@/app/_ui/save-link";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { useDownload } from "@/app/_ui/use-download";
import styles from "./account.module.css";

const address = "/api/account/account.zip";

/** Everything one wrote, as one file. */
export function TakeAccount() {
  const { start, making, problem } = useDownload();
  return (
    <Sheet className={styles.section} aria-labelledby="take-account">
      <h2 id="take-account">Take it with you</h2>
      <p className={styles.about}>
        Who you are here, the pieces you belong to, and everything you wrote in them, as one file of JSON with
        its schemas. A whole piece is saved under its own settings.
      </p>
      <p>
        <SaveLink address={address} making={making} start={start}>
          <Icon name="download" /> Save what is mine
        </SaveLink>
      </p>
      <p role="status" className={styles.making}>
        {making !== null && "Packing what is yours… It starts to load by itself."}
      </p>
      {problem && <SayProblem>{problem}</SayProblem>}
    </Sheet>
  );
}
