import type { ReactNode } from "react";
import { Sheet } from "@/app/_ui/sheet";
import styles from "./section.module.css";

/** One sheet of the settings. `id` is where links point. */
export function Section({
  id,
  title,
  about,
  children,
}: {
  id: string;
  title: string;
  about: ReactNode;
  children: ReactNode;
}) {
  return (
    <Sheet id={id} className={styles.section} aria-labelledby={`${id}-title`}>
      <h2 id={`${id}-title`}>{title}</h2>
      <p>{about}</p>
      {children}
    </Sheet>
  );
}
