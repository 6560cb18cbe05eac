"use client";

import { useMemo } from "react";
import { useRoomHere } from "../../_components/room-provider";
import { VoicingHints, type VoicingHintsProps } from "./voicing-hints";

/** Hints for the cues of the room, for whoever reads the discussion of the piece. */
export function HintsHere(props: Omit<VoicingHintsProps, "instruments">) {
  const { cues } = useRoomHere();
  const instruments = useMemo(() => [...new Set(cues.map(({ text }) => text))], [cues]);
  return <VoicingHints {...props} instruments={instruments} />;
}
