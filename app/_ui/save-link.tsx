"use client";

import type { ReactNode } from "react";
import { ButtonLink } from "./button";

/** A link to a file that the page fetches itself (`useDownload`), so that it can say how that goes. */
export function SaveLink({
  address,
  making,
  start,
  isSmall = false,
  label,
  children,
}: {
  address: string;
  /** The address under way; nothing else is begun meanwhile. */
  making: string | null;
  start: (address: string) => void;
  /** In a list of files: small, and as wide as the list. */
  isSmall?: boolean;
  label?: string;
  children: ReactNode;
}) {
  return (
    <ButtonLink
      small={isSmall}
      wide={isSmall}
      href={address}
      prefetch={false}
      aria-label={label}
      aria-disabled={making !== null || undefined}
      onClick={(event) => {
        // With a key held down the browser opens it in its own way.
        if (event.metaKey || event.ctrlKey || event.shiftKey) return;
        event.preventDefault();
        if (making === null) start(address);
      }}
    >
      {children}
    </ButtonLink>
  );
}
