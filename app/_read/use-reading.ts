"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import { noteEngraving } from "@/app/_offline/open-engravings";
import type { Reading, ReadingFor } from "@/lib/engrave/pages/reading-plan";
import { awaitReading, RefusedReading } from "./await-reading";

export type ReadingState =
  | { readonly status: "working"; readonly progress: number | null }
  /** Of the reader who was asked for last, or while these are awaited of the one before. */
  | { readonly status: "ready"; readonly for: ReadingFor; readonly reading: Reading }
  | { readonly status: "failed"; readonly sentence: string };

const notHere = "These pages did not arrive, and are not kept on this device. Check the connection.";

/**
 * The pages of an edition. Those of the other reader are asked for afterwards, so that they too are kept on the device.
 *
 * @param address `/api/…`, to which `?for=` is put.
 * @param reader whose pages; null until that is known.
 */
export function useReading(
  address: string,
  reader: ReadingFor | null,
  readers: readonly ReadingFor[],
): { state: ReadingState; retry: () => void } {
  const [state, setState] = useState<ReadingState>({ status: "working", progress: null });
  const [turn, setTurn] = useState(0);
  const known = useRef(new Map<string, Reading>());
  const others = readers.filter((each) => each !== reader).join(" ");
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new turn is a reason to ask again
  useEffect(() => {
    if (reader === null) return;
    const stop = new AbortController();
    const take = async (whose: string, onProgress?: (progress: number) => void) => {
      const url = `${address}?for=${whose}`;
      const reading = known.current.get(url) ?? (await awaitReading(url, stop.signal, onProgress));
      known.current.set(url, reading);
      noteEngraving(url, reading.key);
      return reading;
    };
    const run = async () => {
      try {
        const reading = await take(reader, (progress) => setState({ status: "working", progress }));
        setState({ status: "ready", for: reader, reading });
      } catch (error) {
        if (stop.signal.aborted) return;
        setState({ status: "failed", sentence: error instanceof RefusedReading ? error.message : notHere });
        return;
      }
      // They are not on the screen: should they fail, they are asked for when somebody wants them.
      for (const other of others.split(" ").filter(Boolean)) await take(other).catch(() => null);
    };
    if (!known.current.has(`${address}?for=${reader}`)) setState({ status: "working", progress: null });
    void run();
    return () => stop.abort();
  }, [address, reader, others, turn]);
  const retry = useCallback(() => {
    known.current.clear();
    setTurn((last) => last + 1);
  }, []);
  return { state, retry };
}
