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
  useEffect(() => {
    const here = window.location;
    const timer = setTimeout(() => {
      const search = address === "" ? "" : `?${address}`;
      if (search !== here.search)
        // Without a state of its own the router takes the address over: else it puts back its own when the page is read again.
        window.history.replaceState(null, "", `${here.pathname}${search}`);
    }, pauseMs);
    return () => clearTimeout(timer);
  }, [address]);
  return [place, (change) => setPlace((before) => ({ ...before, ...change }))];
}
