"use client";

import { createContext, type ReactNode, useContext, useMemo } from "react";
import type { Desk } from "@/app/_data/desk/desk";
import { type Answer, useAnswer } from "@/app/_study/use-answer";
import type { OfferedCut } from "@/lib/study/look-for-cuts";
import { type SearchSettings, toCutSearch } from "./search-settings";

const FoundContext = createContext<Answer<readonly OfferedCut[]> | null>(null);

/**
 * Holds what was last searched for above all panes, so that it stays when one goes to look at the score. Only those who
 * show it are drawn again while the search goes on.
 */
export function FoundCutsProvider({
  desk,
  asked,
  children,
}: {
  desk: Pick<Desk, "tuttis" | "bars" | "cuts" | "needs">;
  asked: SearchSettings | null;
  children: ReactNode;
}) {
  const question = useMemo(() => asked && toCutSearch(desk, asked), [desk, asked]);
  const answer = useAnswer<"look">(question && { kind: "look", question });
  return <FoundContext.Provider value={answer}>{children}</FoundContext.Provider>;
}

/** @throws Error outside a `FoundCutsProvider`. */
export function useFoundCuts(): Answer<readonly OfferedCut[]> {
  const found = useContext(FoundContext);
  if (found === null) throw new Error("Nothing is searched here");
  return found;
}
