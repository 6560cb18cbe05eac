import type { ReactNode } from "react";
import { Brand } from "@/app/_ui/brand";
import { Sheet } from "@/app/_ui/sheet";
import styles from "./closed-link.module.css";

/** In place of an edition whose link does not open it. */
export function ClosedLink({ children }: { children: ReactNode }) {
  return (
    <>
      <header className={styles.head}>
        <Brand />
      </header>
      <main className={styles.page} id="main">
        <Sheet className={styles.sheet}>
          <h1>This link opens nothing</h1>
          <p>{children}</p>
        </Sheet>
      </main>
    </>
  );
}
