"use client";

import { useSearchParams } from "next/navigation";
import { useState } from "react";
import { useAddress } from "@/app/_ui/use-address";
import { type HandsPlace, readHandsAddress, writeHandsAddress } from "./hands-address";

/** What is looked at. It begins as the address says, and the address follows. */
export function useHandsPlace(): [HandsPlace, (change: Partial<HandsPlace>) => void] {
  const query = useSearchParams();
  const [place, setPlace] = useState(() => readHandsAddress(query));
  useAddress(writeHandsAddress(place));
  return [place, (change) => setPlace((before) => ({ ...before, ...change }))];
}
