"use client";

import {
  createContext,
  type ReactNode,
  useContext,
  useEffect,
  useMemo,
  useState,
  useSyncExternalStore,
} from "react";
import { noteWorkerFiles } from "@/app/_offline/worker-files";
import type { StudyTerms } from "@/lib/study/open-study";
import { StudyClient, type StudyState } from "./study-client";

const StudyContext = createContext<StudyClient | null>(null);

const notReached = "The music could not be fetched. It is judged again when you are back.";

/**
 * Opens the study of a piece for all its screens, when one of them first asks: the music is read and judged in a worker,
 * so that the screen never waits.
 */
export function StudyProvider({
  sourceAddress,
  terms,
  children,
}: {
  /** Where the uploaded bytes are, named by their hash. */
  sourceAddress: string;
  terms: StudyTerms;
  children: ReactNode;
}) {
  // A page drawn again brings equal terms in a new object: only other terms open another study.
  const written = JSON.stringify(terms);
  const [study, setStudy] = useState<StudyClient | null>(null);
  useEffect(() => {
    const opened = new StudyClient(
      () => new Worker(new URL("./study-worker.ts", import.meta.url), { type: "module" }),
      (scripts) => noteWorkerFiles([...scripts, sourceAddress]),
    );
    const leaving = new AbortController();
    void openFrom(opened, sourceAddress, JSON.parse(written) as StudyTerms, leaving.signal);
    setStudy(opened);
    return () => {
      leaving.abort();
      setStudy(null);
      opened.close();
    };
  }, [sourceAddress, written]);
  return <StudyContext.Provider value={study}>{children}</StudyContext.Provider>;
}

async function openFrom(
  study: StudyClient,
  address: string,
  terms: StudyTerms,
  signal: AbortSignal,
): Promise<void> {
  try {
    const response = await fetch(address, { signal });
    if (!response.ok) return study.giveUp(notReached);
    const bytes = new Uint8Array(await response.arrayBuffer());
    if (!signal.aborted) study.open(bytes, terms);
  } catch {
    if (!signal.aborted) study.giveUp(notReached);
  }
}

const noSubscription = () => () => {};
const opening: StudyState = { kind: "opening" };
const isOpening = () => opening;

export interface StudyHere {
  /** Null for the moment before the page has come alive. */
  readonly study: StudyClient | null;
  readonly state: StudyState;
}

/** The study of the piece on the screen. */
export function useStudy(): StudyHere {
  const study = useContext(StudyContext);
  const state = useSyncExternalStore(
    study?.subscribe ?? noSubscription,
    study?.state ?? isOpening,
    isOpening,
  );
  return useMemo(() => ({ study, state }), [study, state]);
}
