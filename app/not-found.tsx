import type { Metadata } from "next";
import { Brand } from "@/app/_ui/brand";
import { ButtonLink } from "@/app/_ui/button";
import { Sheet } from "@/app/_ui/sheet";
import styles from "./lost.module.css";

export const metadata: Metadata = { title: "Nothing here" };

/** What nobody put here, and what is not for this viewer: the same page. */
export default function NotFound() {
  return (
    <>
      <header className={styles.head}>
        <Brand />
      </header>
      <main className={styles.page}>
        <Sheet className={styles.sheet}>
          <h1>Nothing here for you</h1>
          <p>
            Either the address is wrong, or it leads to a piece that was deleted, or that you do not belong
            to. What you may bring back stands under your pieces; for the rest, ask whoever sent the address
            for an invitation.
          </p>
          <ButtonLink kind="settle" href="/">
            Your pieces
          </ButtonLink>
        </Sheet>
      </main>
    </>
  );
}
