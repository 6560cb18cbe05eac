"use client";

import { Brand } from "@/app/_ui/brand";
import { Button, ButtonLink } from "@/app/_ui/button";
import { Sheet } from "@/app/_ui/sheet";
import styles from "./lost.module.css";

/** A page that could not be made. What the players wrote is with the server and untouched. */
export default function PageError({
  error,
  reset,
}: {
  error: Error & { digest?: string };
  reset: () => void;
}) {
  return (
    <>
      <header className={styles.head}>
        <Brand />
      </header>
      <main className={styles.page}>
        <Sheet className={styles.sheet}>
          <h1>This page could not be made</h1>
          <p>
            The fault is on our side. What you have sent is kept, and what you were writing stays in this
            browser. Try again; if it fails again, come back a little later.
          </p>
          <p className={styles.buttons}>
            <Button kind="settle" onClick={reset}>
              Try again
            </Button>
            <ButtonLink href="/">Your pieces</ButtonLink>
          </p>
          {error.digest && <p className={styles.fine}>For whoever looks after this server: {error.digest}</p>}
        </Sheet>
      </main>
    </>
  );
}
