"use client";

import { ButtonLink } from "@/app/_ui/button";
import { Icon } from "@/app/_ui/icon";
import { SayProblem } from "@/app/_ui/say";
import { Sheet } from "@/app/_ui/sheet";
import { useDownload } from "../../pieces/[pieceId]/editions/_components/use-download";
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
        <ButtonLink
          href={address}
          prefetch={false}
          aria-disabled={making !== null || undefined}
          onClick={(event) => {
            // With a key held down the browser opens it in its own way.
            if (event.metaKey || event.ctrlKey || event.shiftKey) return;
            event.preventDefault();
            if (making === null) start(address);
          }}
        >
          <Icon name="download" /> Save what is mine
        </ButtonLink>
      </p>
      <p role="status" className={styles.making}>
        {making !== null && "Packing what is yours… It starts to load by itself."}
      </p>
      {problem && <SayProblem>{problem}</SayProblem>}
    </Sheet>
  );
}
