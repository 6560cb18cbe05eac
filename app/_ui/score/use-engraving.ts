"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import { noteEngraving } from "@/app/_offline/open-engravings";
import { type Engraving, type EngravingLayout, engravingSchema, progressSchema } from "./engraving";

export type EngravingState =
  | { readonly status: "working"; readonly progress: number | null; readonly engraving: Engraving | null }
  | { readonly status: "ready"; readonly engraving: Engraving }
  | { readonly status: "failed"; readonly sentence: string; readonly engraving: Engraving | null };

const askAgainMs = 700;

async function ask(url: string, signal: AbortSignal): Promise<Engraving | { progress: number }> {
  const response = await fetch(url, { signal });
  const body: unknown = await response.json().catch(() => null);
  if (response.status === 202) return progressSchema.parse(body);
  if (response.ok) return engravingSchema.parse(body);
  throw new Error(
    readSentence(body) ?? "The score could not be engraved. The strip and the cuts still work.",
  );
}

function readSentence(body: unknown): string | null {
  if (typeof body !== "object" || body === null || !("sentence" in body)) return null;
  return typeof body.sentence === "string" ? body.sentence : null;
}

/**
 * The engraved score of a piece: asks, waits while it is being made, and asks again when `stamp` changes.
 *
 * @param layout null until the width of the page is known.
 * @param stamp anything that changes when this view of the score must be made anew.
 */
export function useEngraving(
  pieceId: string,
  view: "open" | "as-it-will-read" | "solo",
  layout: EngravingLayout | null,
  stamp: string,
): { state: EngravingState; retry: () => void } {
  const [state, setState] = useState<EngravingState>({ status: "working", progress: null, engraving: null });
  const [turn, setTurn] = useState(0);
  const kept = useRef(new Map<string, Engraving>());
  const shown = useRef<string | null>(null);
  const url = layout && `/api/pieces/${pieceId}/engraving?view=${view}&layout=${layout}`;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new stamp or turn is a reason to ask again
  useEffect(() => {
    if (url === null) return;
    const name = `${url} ${stamp}`;
    const known = kept.current.get(name);
    // Another view must not stand there under this one's name; the same view as it was may, while it is made anew.
    const isOther = shown.current !== url;
    shown.current = url;
    if (known) return setState({ status: "ready", engraving: known });
    const stop = new AbortController();
    let timer: ReturnType<typeof setTimeout> | undefined;
    const run = async () => {
      try {
        const answer = await ask(url, stop.signal);
        if ("systems" in answer) {
          kept.current.set(name, answer);
          noteEngraving(url, answer.key);
          return setState({ status: "ready", engraving: answer });
        }
        setState((last) => ({ status: "working", progress: answer.progress, engraving: last.engraving }));
        timer = setTimeout(run, askAgainMs);
      } catch (error) {
        if (stop.signal.aborted) return;
        const isOurs = error instanceof Error && error.name === "Error";
        const sentence = isOurs ? error.message : "The score did not arrive. Check the connection.";
        setState((last) => ({ status: "failed", sentence, engraving: last.engraving }));
      }
    };
    setState((last) => ({ status: "working", progress: null, engraving: isOther ? null : last.engraving }));
    run();
    return () => {
      stop.abort();
      clearTimeout(timer);
    };
  }, [url, stamp, turn]);
  return { state, retry: useCallback(() => setTurn((last) => last + 1), []) };
}
