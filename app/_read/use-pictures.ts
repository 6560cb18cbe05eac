"use client";

import { useEffect, useMemo, useSyncExternalStore } from "react";
import type { Reading } from "@/lib/engrave/pages/reading-plan";
import { Pictures } from "./pictures";

async function fetchText(url: string): Promise<string> {
  const response = await fetch(url);
  if (!response.ok) throw new Error(`${response.status}`);
  return response.text();
}

/**
 * The pictures of a reading, all of them, in the order in which they will be needed.
 *
 * @param address where they lie; their key and number are put to it.
 * @param order of the pages, by number.
 */
export function usePictures(
  reading: Reading | null,
  address: string,
  order: readonly number[],
): Pictures | null {
  const key = reading?.key;
  const pictures = useMemo(
    () => (key === undefined ? null : new Pictures((index) => fetchText(`${address}/${key}/${index}`))),
    [address, key],
  );
  useEffect(() => () => pictures?.stop(), [pictures]);
  const wanted = order.join(" ");
  useEffect(() => {
    const pages = new Map(reading?.pages.map((page) => [page.number, page]));
    const numbers = wanted === "" ? [] : wanted.split(" ").map(Number);
    pictures?.want(numbers.flatMap((number) => pages.get(number)?.systems.map(({ index }) => index) ?? []));
  }, [pictures, reading, wanted]);
  useSyncExternalStore(
    pictures?.subscribe ?? noSubscription,
    () => pictures?.version ?? 0,
    () => 0,
  );
  return pictures;
}

const noSubscription = () => () => {};
