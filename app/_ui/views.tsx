"use client";

import Link from "next/link";
import { usePathname } from "next/navigation";
import styles from "./views.module.css";

/** The screens of one thing, side by side; the one that is open is underlined. */
export function Views({
  label,
  views,
}: {
  label: string;
  views: readonly { href: string; label: string }[];
}) {
  const path = usePathname();
  return (
    <nav className={styles.views} aria-label={label}>
      {views.map((view) => (
        <Link key={view.href} href={view.href} aria-current={path === view.href ? "page" : undefined}>
          {view.label}
        </Link>
      ))}
    </nav>
  );
}
