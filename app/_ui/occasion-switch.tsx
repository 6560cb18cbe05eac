"use client";

import Link from "next/link";
import { usePathname, useRouter } from "next/navigation";
import styles from "./occasion-switch.module.css";

/** An occasion that the same music is prepared for. */
export interface OccasionLink {
  readonly pieceId: string;
  readonly name: string;
}

/** More than these do not stand side by side under a title. */
const mostLinks = 3;

/** From one occasion to another of the same music, on the same screen of it. On a narrow screen it is a select. */
export function OccasionSwitch({
  occasions,
  here,
}: {
  occasions: readonly OccasionLink[];
  /** The piece that is open. */
  here: string;
}) {
  const path = usePathname();
  const router = useRouter();
  const to = (pieceId: string) => path.replace(`/pieces/${here}`, `/pieces/${pieceId}`);
  return (
    <span className={styles.switch}>
      {occasions.length <= mostLinks && (
        <nav className={styles.links} aria-label="Occasion">
          {occasions.map(({ pieceId, name }) => (
            <Link key={pieceId} href={to(pieceId)} aria-current={pieceId === here ? "true" : undefined}>
              {name}
            </Link>
          ))}
        </nav>
      )}
      <select
        className={occasions.length <= mostLinks ? styles.narrow : styles.select}
        aria-label="Occasion"
        value={here}
        onChange={(event) => router.push(to(event.target.value))}
      >
        {occasions.map(({ pieceId, name }) => (
          <option key={pieceId} value={pieceId}>
            {name}
          </option>
        ))}
      </select>
    </span>
  );
}
