"use client";

import { useSearchParams } from "next/navigation";
import { useEffect, useState } from "react";
import { type HandsPlace, readHandsAddress, writeHandsAddress } from "./hands-address";

/** Browsers refuse addresses that change with every movement of a finger. */
const pauseMs = 250;

/** What is looked at. It begins as the address says, and the address follows. */
export function useHandsPlace(): [HandsPlace, (change: Partial<HandsPlace>) => void] {
  const query = useSearchParams();
  const [place, setPlace] = useState(() => readHandsAddress(query));
  const address = writeHandsAddress(place);
  // At every drawing: when the page is read again, the router puts back the address that it knows. It is not told of ours
  // (a state without its own marks would): it then asks for a page that its tree does not have, and loads all of it anew.
  useEffect(() => {
    const here = window.location;
    const timer = setTimeout(() => {
      const search = address === "" ? "" : `?${address}`;
      if (search !== here.search)
        window.history.replaceState(window.history.state, "", `${here.pathname}${search}`);
    }, pauseMs);
    return () => clearTimeout(timer);
  });
  return [place, (change) => setPlace((before) => ({ ...before, ...change }))];
}
