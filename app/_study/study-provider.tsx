"use client";

import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useMemo,
  useState,
  useSyncExternalStore,
} from "react";
import { noteWorkerFiles } from "@/app/_offline/worker-files";
import type { StudyTerms } from "@/lib/study/open-study";
import { StudyClient, type StudyState } from "./study-client";

interface Provided {
  /** Null until somebody asks, and for the moment before it is there. */
  readonly study: StudyClient | null;
  readonly want: () => void;
}

const StudyContext = createContext<Provided>({ study: null, want: () => {} });

const notReached = "The music could not be fetched. It is judged again when you are back.";

/**
 * Opens the study of a piece for all its screens when the first that asks comes up: the music is read and judged in a worker,
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
  const [isWanted, setWanted] = useState(false);
  useEffect(() => {
    if (!isWanted) return;
    const opened = new StudyClient(
      () => new Worker(new URL("./study-worker.ts", import.meta.url), { type: "module" }),
      noteWorkerFiles,
    );
    const leaving = new AbortController();
    void openFrom(opened, sourceAddress, JSON.parse(written) as StudyTerms, leaving.signal);
    setStudy(opened);
    return () => {
      leaving.abort();
      setStudy(null);
      opened.close();
    };
  }, [isWanted, sourceAddress, written]);
  const want = useCallback(() => setWanted(true), []);
  const provided = useMemo(() => ({ study, want }), [study, want]);
  return <StudyContext.Provider value={provided}>{children}</StudyContext.Provider>;
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
    noteWorkerFiles([address]);
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

/** The study of the piece on the screen. A screen that uses it has it opened; others need not wait for the music. */
export function useStudy(): StudyHere {
  const { study, want } = useContext(StudyContext);
  useEffect(want, [want]);
  const state = useSyncExternalStore(
    study?.subscribe ?? noSubscription,
    study?.state ?? isOpening,
    isOpening,
  );
  return useMemo(() => ({ study, state }), [study, state]);
}

/** The study as far as a screen has had it opened; null otherwise. */
export function useStudyIfOpen(): StudyClient | null {
  return useContext(StudyContext).study;
}
