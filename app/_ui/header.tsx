import { cookies } from "next/headers";
import Link from "next/link";
import type { ReactNode } from "react";
import { Brand } from "./brand";
import styles from "./header.module.css";
import { readTheme, themeCookie } from "./theme";
import { ThemeLamp } from "./theme-lamp";

/**
 * The bar at the top of every screen: brand, what this is, the views of it, the people, the lamp.
 *
 * @param title stands beside the brand; on a narrow screen it takes the brand's place, after an arrow to `back`.
 */
export async function Header({
  title,
  views,
  people,
  waits,
  back,
}: {
  title?: ReactNode;
  views?: ReactNode;
  people?: ReactNode;
  waits?: ReactNode;
  back?: { href: string; label: string };
}) {
  const theme = readTheme((await cookies()).get(themeCookie)?.value);
  return (
    <header className={styles.header} data-titled={title ? true : undefined}>
      {back && (
        <Link className={styles.back} href={back.href} aria-label={back.label}>
          <svg viewBox="0 0 20 20" aria-hidden="true">
            <path d="M12.8 3.8 6.6 10l6.2 6.2" />
          </svg>
        </Link>
      )}
      <div className={styles.brand}>
        <Brand />
      </div>
      {title && <div className={styles.title}>{title}</div>}
      <div className={styles.middle}>{views}</div>
      {people && <div className={styles.people}>{people}</div>}
      <div className={styles.waits}>{waits}</div>
      <ThemeLamp theme={theme} />
    </header>
  );
}

/** The piece a screen is about: its name, its movement, and who wrote it for what. */
export function PieceTitle({
  title,
  movement,
  occasions,
  below,
}: {
  title: ReactNode;
  movement?: ReactNode;
  /** Leads to the same music for other occasions. */
  occasions?: ReactNode;
  below?: ReactNode;
}) {
  return (
    <div className={styles.piece}>
      <p>
        <b>{title}</b>
        {movement && <i> {movement}</i>}
      </p>
      {occasions ? (
        <div className={styles.under}>
          {occasions}
          {below && <small>{below}</small>}
        </div>
      ) : (
        below && <small>{below}</small>
      )}
    </div>
  );
}
