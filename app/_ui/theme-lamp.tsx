"use client";

import { useState } from "react";
import { IconButton } from "./icon-button";
import { type Theme, themeCookie } from "./theme";

const yearSeconds = 365 * 24 * 3600;

/** Turns the page dark for the stage and back; this browser keeps the choice. */
export function ThemeLamp({ theme }: { theme: Theme }) {
  const [now, setNow] = useState(theme);
  const turn = () => {
    const next = now === "light" ? "stage" : "light";
    setNow(next);
    document.documentElement.dataset.theme = next;
    // biome-ignore lint/suspicious/noDocumentCookie: the cookie store is not in every browser yet
    document.cookie = `${themeCookie}=${next};path=/;max-age=${yearSeconds};samesite=lax`;
  };
  const label = now === "light" ? "Stage light: dim the page" : "Day light: brighten the page";
  return <IconButton icon="lamp" label={label} onClick={turn} />;
}
