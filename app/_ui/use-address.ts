"use client";

import { useEffect } from "react";

/** Browsers refuse addresses that change with every movement of a finger. */
const pauseMs = 250;

/**
 * Keeps what is looked at in the address, without a step back to it.
 *
 * @param query without its question mark; empty for the address alone.
 */
export function useAddress(query: string): void {
  // At every drawing: when the page is read again, the router puts back the address that it knows. It is not told of ours
  // (a state without its own marks would): it then asks for a page that its tree does not have, and loads all of it anew.
  useEffect(() => {
    const here = window.location;
    const timer = setTimeout(() => {
      const search = query === "" ? "" : `?${query}`;
      if (search !== here.search)
        window.history.replaceState(window.history.state, "", `${here.pathname}${search}`);
    }, pauseMs);
    return () => clearTimeout(timer);
  });
}
